"""Choosing several of many: what is chosen stands above as slips, each to be taken out again."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.ui.forms.around import Around
from bagtag.ui.forms.basics import ENTER, Field, Line, label, tight
from bagtag.ui.forms.pick_line import STEPS
from bagtag.ui.forms.pick_list import PickList
from bagtag.ui.forms.pick_model import PickRow
from bagtag.ui.forms.rows import Rows


class TickLine(Line):
    """A space in the empty line is not typed: it ticks."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and not self.text():
            event.ignore()
        else:
            super().keyPressEvent(event)


class PickSeveral(Around):
    """Enter ticks what was typed for and empties the line for the next; Space in the empty line
    ticks the row that the arrows went to."""

    changed = Signal()

    def __init__(self, caption: str, parent: QWidget, *, noun: str = "step") -> None:
        super().__init__(parent)
        self._noun = noun
        self.line = TickLine(self, caption, hint="number or word; Enter ticks it")
        self.near: Any = None
        self.field = Field(caption, self.line, self)
        self.field.caption.hide()  # what is chosen stands between it and the line
        self.chosen = Rows("Chosen", self)
        self.list = PickList(f"{caption}: what was found", self, ticks=True)
        column = QVBoxLayout(self)
        tight(column, 6)
        above = label(caption, self, scale="small", tone="muted")
        for part in (above, self.chosen, self.field, self.list):
            column.addWidget(part)
        column.addStretch(1)
        self.line.textChanged.connect(self._typed)
        self.list.pressed_at.connect(self._tick)
        self.chosen.opened.connect(self._take_out)
        self.chosen.removed.connect(self._take_out)

    def first(self) -> QWidget:
        return self.line

    @property
    def values(self) -> list[Any]:
        """What is chosen, in the order it was."""
        return list(self.list.rows.ticked)

    def set_rows(self, rows: Sequence[PickRow]) -> None:
        """Show what there is; what is chosen and not among it is let go."""
        model = self.list.rows
        model.set_rows(rows)
        model.ticked = [value for value in model.ticked if model.row_of(value) is not None]
        self._typed(self.line.text())
        self._show_chosen()

    def set_values(self, values: Sequence[Any]) -> None:
        """Choose exactly these, be it before the rows are there."""
        self.list.rows.ticked = list(values)
        self._show_chosen()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = STEPS.get(Qt.Key(event.key()))
        typed = bool(self.line.text().strip())
        if by is not None:
            self.list.step(by)
        elif event.key() in ENTER and typed and self.line.hasFocus():
            self._enter()
        elif event.key() == Qt.Key.Key_Space and not typed:
            self._tick(self.list.currentIndex().row())
        elif event.key() == Qt.Key.Key_Escape and typed:
            self.line.clear()
        else:
            super().keyPressEvent(event)

    def settle(self) -> bool:
        """False, and said, where something is typed that was not ticked."""
        if self.line.text().strip():
            self.field.say("Enter ticks what was found; empty the line to leave it.")
            self.line.setFocus()
        return not self.line.text().strip()

    def _typed(self, typed: str) -> None:
        self.field.say("")
        at = self.list.rows.narrow(typed)
        self.list.show_some()
        if typed.strip():
            self.list.go_to(at)
        else:
            self.list.look_at(self.list.rows.at(self.near))

    def _enter(self) -> None:
        if self.list.here is None:
            typed = self.line.text().strip()
            said = f"No {self._noun} answers to {typed}. Type a number or a word of it."
            self.field.say(said)
        else:
            ticked = self.list.here.value
            self._tick(self.list.currentIndex().row())
            self.line.clear()
            self.list.go_to(self.list.rows.at(ticked))

    def _tick(self, at: int) -> None:
        row = self.list.rows.row_at(at)
        if row is not None:
            self.list.rows.tick(row.value)
            self._show_chosen()
            self.changed.emit()

    def _take_out(self, place: int) -> None:
        self.list.rows.tick(self.list.rows.ticked[place])
        self._show_chosen()
        self.line.setFocus()
        self.changed.emit()

    def _show_chosen(self) -> None:
        rows = (self.list.rows.row_of(value) for value in self.list.rows.ticked)
        self.chosen.set_rows([row.text for row in rows if row is not None])
        slips = [self.chosen.slip(place) for place in range(len(self.chosen))]
        for before, slip in pairwise([self.line, *slips]):
            slip.setToolTip("Enter, Delete or a click takes it out")
            self.setTabOrder(before, slip)
