"""A stage that settles parts one by one: what a row of words each can do, Renew and Measure do."""

from collections.abc import Sequence
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.model import Fate, Removal
from bagtag.ui.card.card_parts import Emptiness, Scroll
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.stage import Stage
from bagtag.ui.stages.stage_rows import PartRow, Word

if TYPE_CHECKING:
    from bagtag.services.views import StripRow

MOST = 200
"""How many rows are shown at once; settling them brings the next ones up."""


class SettleStage(Stage):
    """Subclasses name their fate and their words, and what a word does."""

    fate = Fate.DECIDE
    words: Sequence[Word] = ()
    empty_words = ("", "")

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.rows: list[PartRow] = []
        self._kept = 0
        self.head = label("", self, scale="head")
        self.under = label("", self, tone="muted")
        self.empty = Emptiness(self)
        self.empty.say(*self.empty_words)
        self.view = Scroll(self, self.title)
        column = QVBoxLayout(self)
        tight(column, 12)
        for widget in (self.head, self.under, self.empty):
            column.addWidget(widget)
        column.addWidget(self.view, 1)

    def enter(self) -> None:
        if self.desk.job_id:
            self.desk.ask(rows_with, self.desk.job_id, self.fate, then=self._show)

    def _show(self, found: "Sequence[StripRow]") -> None:
        had = self._focused()
        clear_layout(self.view.column)
        self.rows = [self._row(row) for row in found[:MOST]]
        self.view.column.addStretch(1)
        self.head.setText(self.head_words([row.removal for row in found]))
        more = len(found) - MOST
        hint = self.hint if more <= 0 else f"{self.hint} {more} more come up as these are settled."
        self.under.setText(hint)
        for widget in (self.head, self.under, self.view):
            widget.setVisible(bool(found))
        self.empty.setVisible(not found)
        self._focus(had)

    hint = "Tab goes from part to part; the letter on a button presses it."

    def _row(self, row: "StripRow") -> PartRow:
        made = PartRow(row, self.words, self.now(row.removal), self.view.body)
        made.worded.connect(self.settle)
        made.shown.connect(self.desk.show_removal)
        self.view.column.addWidget(made)
        return made

    def _focused(self) -> int:
        """The place of the row that has the focus, so that it can be given back; -1 for none."""
        focus = self.focusWidget()
        places = [n for n, row in enumerate(self.rows) if focus and row.isAncestorOf(focus)]
        return places[0] if places and focus is not None and focus.hasFocus() else -1

    def _focus(self, place: int) -> None:
        if place >= 0 and self.rows:
            row = self.rows[min(place, len(self.rows) - 1)]
            row.presses[0].setFocus()

    # What a subclass says

    def now(self, removal: Removal) -> StrEnum | None:
        """Which word stands for the part as it is."""
        raise NotImplementedError

    def head_words(self, found: Sequence[Removal]) -> str:
        raise NotImplementedError

    def settle(self, removal_id: int, value: StrEnum) -> None:
        raise NotImplementedError


def rows_with(store: Any, job_id: int, fate: Fate) -> "list[StripRow]":
    """The removals of a job that have this fate, as rows, in the order off."""
    found = services.fates.with_fate(store, job_id, fate)
    ids = [removal.id for removal in found]
    return services.views.strip_rows(store, job_id, ids)
