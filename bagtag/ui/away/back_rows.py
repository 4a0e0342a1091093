"""The parts of a send-out at check-in, one below the other."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.sending import Back, Batch, Item
from bagtag.ui.away.back_row import BackRow
from bagtag.ui.away.looks import Looks
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.forms.sight import InSight

NOTHING = "Nothing is ticked yet. Scan the tags of what is back, or tick it."


class BackRows(Scroll):
    """Rows by their time away. One that is there already keeps what was said in it."""

    changed = Signal()

    def __init__(self, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent, "What is back")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # Tab goes from field to field in it
        self._looks = looks
        self.rows: dict[int, BackRow] = {}
        self._near: BackRow | None = None
        self._later = QTimer(self)  # a row that is just opened has its height a moment later
        self._later.setSingleShot(True)
        self._later.timeout.connect(self._bring)
        self.column.setContentsMargins(2, 2, 12, 2)
        self.column.setSpacing(8)
        self.column.addStretch(1)
        InSight(self, ())

    def show_batch(self, batch: Batch) -> None:
        """What of it is still away."""
        out = {item.away.id: item for item in batch.out}
        for away_id in [one for one in self.rows if one not in out]:
            self._drop(away_id)
        for place, item in enumerate(out.values()):
            self._put(item, place)

    def clear(self) -> None:
        for away_id in list(self.rows):
            self._drop(away_id)

    def _put(self, item: Item, place: int) -> None:
        """A row for it, made anew where other figures are wanted now."""
        row = self.rows.get(item.away.id)
        if row is not None and row.item.away == item.away:
            return
        was_here = row is not None and row.is_here
        if row is not None:
            self._drop(item.away.id)
        made = self.rows[item.away.id] = BackRow(item, self._looks, self.body)
        self.column.insertWidget(place, made)
        made.changed.connect(self.changed)
        made.tick(was_here)

    def _drop(self, away_id: int) -> None:
        row = self.rows.pop(away_id)
        self.column.removeWidget(row)
        row.hide()
        row.deleteLater()

    def go_to(self, row: BackRow) -> None:
        """The keys for its first figure; all of it in sight where there is room."""
        self._near = row
        row.begin()
        self._later.start(0)

    def _bring(self) -> None:
        if self._near is not None and self._near in self.rows.values():
            self.ensureWidgetVisible(self._near, 0, 12)

    # What was said

    @property
    def here(self) -> list[BackRow]:
        return [row for row in self.rows.values() if row.is_here]

    @property
    def gone(self) -> list[BackRow]:
        return [row for row in self.rows.values() if not row.is_here]

    def back(self) -> list[Back]:
        """What is back; BadInput, said at its field, for what is no figure."""
        found: list[Back] = []
        for row in self.here:
            try:
                found.append(row.back())
            except BadInput as wrong:
                row.say_wrong(wrong.sentence, wrong.field)
                raise
        if not found:
            raise BadInput(NOTHING)
        return found
