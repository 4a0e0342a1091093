"""A hole map while it is worked on: what was done to it, what is chosen, what undo brings back."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QObject, Signal

from bagtag.domain import hole_check, hole_places
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_order import round_about
from bagtag.domain.holes import HoleMap, OrderKind, Point, Scale


class Draft(QObject):
    """Nothing here is kept before it is saved; every act on the map is one step of its undo."""

    changed = Signal()
    """The map is another."""
    pointed = Signal()
    """Something else is chosen: holes, or a line of hardware."""
    refused = Signal(object)
    """A `BadInput`: the map stays as it was."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.map = HoleMap()
        self.held_by: tuple[HeldBy, ...] = ()
        self.chosen: tuple[int, ...] = ()
        self.line = ""
        self._kept = self.map
        self._past: list[HoleMap] = []
        self._future: list[HoleMap] = []
        self._merging: object = None

    def begin(self, hole_map: HoleMap, held_by: Sequence[HeldBy]) -> None:
        """Work on this map from here on."""
        self.map = self._kept = hole_map
        self.held_by = tuple(held_by)
        self._past, self._future = [], []
        is_first = self.held_by and (len(self.held_by) == 1 or not hole_map.holes)
        self.line = self.held_by[0].mark if is_first else ""
        self.changed.emit()
        self.point(())

    def kept(self, hole_map: HoleMap) -> None:
        """This map is saved."""
        self._kept = hole_map
        self.changed.emit()

    @property
    def is_changed(self) -> bool:
        return self.map != self._kept

    # What is chosen

    def point(self, numbers: Iterable[int]) -> None:
        self.chosen = tuple(dict.fromkeys(numbers))
        self._merging = None
        self.pointed.emit()

    def point_at(self, number: int, *, adding: bool = False) -> None:
        """Choose a hole, or one more; one that is chosen already is let go by `adding`."""
        if not adding:
            self.point([number])
        elif number in self.chosen:
            self.point([one for one in self.chosen if one != number])
        else:
            self.point([*self.chosen, number])

    def point_next(self, step: int) -> None:
        """Choose the hole after the chosen one by its number, or before it."""
        numbers = sorted(hole.number for hole in self.map.holes)
        if not numbers:
            return
        at = self.chosen[-1] if self.chosen else (0 if step > 0 else numbers[-1] + 1)
        after = [n for n in numbers if n > at] if step > 0 else [n for n in numbers if n < at][::-1]
        self.point([after[0] if after else numbers[0 if step > 0 else -1]])

    def take_line(self, mark: str) -> None:
        """A line of hardware, for the chosen holes; where none is chosen, for those put next."""
        if self.chosen:
            self._each(self.chosen, mark=mark)
        else:
            self.line = mark
            self.pointed.emit()

    @property
    def ringed(self) -> frozenset[int]:
        """The holes of the line that is chosen, while no hole is."""
        if self.chosen or not self.line:
            return frozenset()
        return frozenset(hole.number for hole in hole_check.holes_of(self.map, self.line))

    # What is done to the map

    def put(self, points: Sequence[Point]) -> bool:
        """Put holes of a pattern in, numbered on; whether they could be."""
        return self._try(hole_places.numbered, points, self.line, self._group_in_hand())

    def put_one(self, x: float, y: float) -> None:
        """Put one hole in, with the lowest free number. It is not chosen: a letter typed after it
        is for the next one."""
        self._try(hole_places.put, (x, y), self.line, self._group_in_hand())

    def _group_in_hand(self) -> str:
        groups = {hole.group for hole in self.map.holes if self.line and hole.mark == self.line}
        return groups.pop() if len(groups) == 1 else ""

    def move(self, number: int, x: float, y: float) -> None:
        self._try(hole_places.moved, number, (x, y))

    def nudge(self, across: float, down: float) -> None:
        """Move the chosen holes by so much; one step of undo, however often it is repeated."""
        self._do(self._nudged(across, down), merging=("nudge", self.chosen))

    def _nudged(self, across: float, down: float) -> HoleMap:
        wide, high = self.map.width, self.map.height
        moved = [
            replace(
                hole,
                x=min(max(hole.x + across, 0.0), wide),
                y=min(max(hole.y + down, 0.0), high),
            )
            if hole.number in self.chosen
            else hole
            for hole in self.map.holes
        ]
        return replace(self.map, holes=tuple(moved))

    def take_out(self) -> None:
        """Take the chosen holes out."""
        chosen = self.chosen
        self.point(())
        self._do(hole_places.without(self.map, *chosen))

    def renumber(self) -> None:
        """Number the holes all round from the chosen one; where none is chosen, without gaps."""
        turn: tuple[int, ...] = ()
        if self.chosen:
            turn = round_about(self.map.holes)
            at = turn.index(self.chosen[-1])
            turn = turn[at:] + turn[:at]
        self.point(())
        self._do(hole_places.renumbered(self.map, turn))

    def set_group(self, group: str) -> None:
        self._each(self.chosen, group=group)

    def _each(self, numbers: Sequence[int], **columns: Any) -> None:
        holes = [
            replace(hole, **columns) if hole.number in numbers else hole for hole in self.map.holes
        ]
        self._do(replace(self.map, holes=tuple(holes)))

    def set_order(self, order: OrderKind) -> None:
        self._do(replace(self.map, order=order))

    def set_given(self, given: Sequence[int]) -> None:
        self._do(replace(self.map, given=tuple(given), order=OrderKind.GIVEN))

    def set_scale(self, scale: Scale | None) -> None:
        """The distance between two holes; BadInput where it cannot be one."""
        made = replace(self.map, scale=scale)
        hole_check.checked(made, self.held_by)
        self._do(made)

    def set_seen_from(self, side: str) -> None:
        self._do(replace(self.map, seen_from=side), merging="seen from")

    def set_ground(self, ground: HoleMap) -> None:
        """Lay the holes on another photo or outline, where they were in the old one."""
        old, is_drawn = self.map, not (self.map.photo or ground.photo)
        across = 1.0 if is_drawn else ground.width / old.width
        down = 1.0 if is_drawn else ground.height / old.height
        holes = tuple(replace(hole, x=hole.x * across, y=hole.y * down) for hole in old.holes)
        self._do(
            replace(
                old,
                holes=holes,
                photo=ground.photo,
                outline=ground.outline,
                width=ground.width,
                height=ground.height,
            )
        )

    def _try(self, change: Callable[..., HoleMap], *args: Any) -> bool:
        """Do it; what cannot be is said, and nothing changes."""
        try:
            made = change(self.map, *args)
            hole_check.checked(made, self.held_by)
        except BadInput as wrong:
            self.refused.emit(wrong)
            return False
        self._do(made)
        return True

    def _do(self, made: HoleMap, *, merging: object = None) -> None:
        if made == self.map:
            return
        if merging is None or merging != self._merging:
            self._past.append(self.map)
        self._merging = merging
        self._future = []
        self.map = made
        self.changed.emit()

    # Undo

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
        self._merging = None
        there = {hole.number for hole in self.map.holes}
        self.chosen = tuple(number for number in self.chosen if number in there)
        self.changed.emit()
        self.pointed.emit()
