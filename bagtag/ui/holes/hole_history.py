"""What was done to a hole map, step by step, and back again."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from bagtag.domain.holes import HoleMap


class History(QObject):
    """A map that changes: every step can be undone, and done again. Nothing is kept in the store
    before it is saved."""

    changed = Signal()
    """The map is another."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.map = HoleMap()
        self._kept = self.map
        self._past: list[HoleMap] = []
        self._future: list[HoleMap] = []
        self._merging: object = None

    def start(self, hole_map: HoleMap) -> None:
        """Begin with this map as it is kept."""
        self.map = self._kept = hole_map
        self._past, self._future = [], []
        self.changed.emit()

    def kept(self, hole_map: HoleMap) -> None:
        """This map is saved."""
        self._kept = hole_map
        self.changed.emit()

    @property
    def is_changed(self) -> bool:
        return self.map != self._kept

    def take(self, made: HoleMap, *, merging: object = None) -> None:
        """Go on with this map; steps that are `merging` in the same thing are undone as one."""
        if made == self.map:
            return
        if merging is None or merging != self._merging:
            self._past.append(self.map)
        self._merging = merging
        self._future = []
        self.map = made
        self.changed.emit()

    def end_merging(self) -> None:
        """What comes next is a step of its own."""
        self._merging = None

    @property
    def can_undo(self) -> bool:
        return bool(self._past)

    @property
    def can_redo(self) -> bool:
        return bool(self._future)

    def undo(self) -> None:
        self._step(self._past, self._future)

    def redo(self) -> None:
        self._step(self._future, self._past)

    def _step(self, source: list[HoleMap], target: list[HoleMap]) -> None:
        if not source:
            return
        target.append(self.map)
        self.map = source.pop()
        self.end_merging()
        self.changed.emit()
