"""The parts to measure and decide, with their sheets, one below the other."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.cautions import MANUAL
from bagtag.domain.model import Fate
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import clear_layout, is_inside, label, tight
from bagtag.ui.forms.scroll import Emptiness, Scroll
from bagtag.ui.forms.sight import InSight
from bagtag.ui.measure.measure_row import MeasureTape

if TYPE_CHECKING:
    from bagtag.services.measuring import MeasureRow

MOST = 200
"""How many parts are shown at once; those still to decide come first."""
EMPTY = (
    "Nothing is left to decide",
    "Mark a part as to be decided when it is logged, and it waits here; or measure any part on a "
    "new sheet. Renew comes next.",
)
HINT = (
    "Measure against the limits in the maker's manual. Tab goes from part to part; the letter on "
    "a button presses it."
)


class MeasureList(QWidget):
    worded = Signal(int, object)
    shown = Signal(int)
    opened = Signal(int)
    sheet_wanted = Signal(int)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.rows: list[MeasureTape] = []
        self.head = label("", self, scale="head")
        self.under = label("", self, tone="muted")
        self.new = Act("New sheet", "Ctrl+N", self)
        self.empty = Emptiness(self)
        self.empty.say(*EMPTY)
        self.view = Scroll(self, "Parts to measure")
        self.caution = label(MANUAL, self, scale="small", tone="muted")
        self._lay()
        for widget in (self.empty, self.view, self.caution):
            widget.hide()  # until it is known what there is
        self.new.clicked.connect(self._new)

    def _lay(self) -> None:
        words = QVBoxLayout()
        tight(words, 2)
        words.addWidget(self.head)
        words.addWidget(self.under)
        words.addWidget(self.empty)
        top = QHBoxLayout()
        tight(top, 12)
        top.addLayout(words, 1)
        top.addWidget(self.new, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addLayout(top)
        column.addWidget(self.view, 1)
        column.addWidget(self.caution)
        InSight(self.view, ())

    def show_rows(self, found: Sequence[MeasureRow]) -> None:
        had = next((n for n, row in enumerate(self.rows) if _has_keys(row)), -1)
        clear_layout(self.view.column)
        self.rows = [self._row(row) for row in _in_turn(found)[:MOST]]
        self.view.column.addStretch(1)
        self.head.setText(_head(found))
        more = len(found) - MOST
        self.under.setText(HINT if more <= 0 else f"{HINT} {more} more are not shown.")
        for widget in (self.head, self.under, self.view, self.caution):
            widget.setVisible(bool(found))
        self.empty.setVisible(not found)
        if had >= 0 and self.rows:
            self.rows[min(had, len(self.rows) - 1)].first.setFocus()

    def _row(self, row: MeasureRow) -> MeasureTape:
        made = MeasureTape(row, self.view.body)
        made.worded.connect(self.worded)
        made.shown.connect(self.shown)
        made.opened.connect(self.opened)
        made.sheet_wanted.connect(self.sheet_wanted)
        self.view.column.addWidget(made)
        return made

    def begin(self, sheet_id: int = 0) -> None:
        """Put the keys on a sheet; where it is not there, on the first part."""
        slips = [slip for row in self.rows for slip in row.slips]
        slip = next((slip for slip in slips if slip.sheet_id == sheet_id), None)
        first = self.rows[0].first if self.rows else self.new
        (slip or first).setFocus()

    def show_part(self, removal_id: int) -> None:
        """Put the keys on a part; where it is not there, on a new sheet."""
        row = next((row for row in self.rows if row.removal_id == removal_id), None)
        (row.first if row is not None else self.new).setFocus()

    def _new(self) -> None:
        """Of the part that has the keys, if one has."""
        row = next((row for row in self.rows if _has_keys(row)), None)
        self.sheet_wanted.emit(row.removal_id if row else 0)


def _has_keys(row: QWidget) -> bool:
    focus = row.window().focusWidget()
    return focus is not None and is_inside(focus, row)


def _in_turn(found: Sequence[MeasureRow]) -> list[MeasureRow]:
    """Those still to decide first; the order off otherwise."""
    return sorted(found, key=lambda row: row.removal is None or row.removal.fate is not Fate.DECIDE)


def _head(found: Sequence[MeasureRow]) -> str:
    left = sum(row.removal is not None and row.removal.fate is Fate.DECIDE for row in found)
    if left:
        return f"{left} to inspect or measure, and decide"
    return "Nothing is left to decide; these were measured"
