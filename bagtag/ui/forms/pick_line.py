"""Choosing one of many: a number or a word narrows them, arrows walk them, Enter takes one."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from bagtag.ui.forms.around import Around
from bagtag.ui.forms.basics import ENTER, Field, Line, tight
from bagtag.ui.forms.pick_list import SHOWN, PickList
from bagtag.ui.forms.pick_model import PickRow, is_named

STEPS = {
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_PageDown: SHOWN,
    Qt.Key.Key_PageUp: -SHOWN,
}


class PickLine(Around):
    """A line and, while one chooses, the list below it. `noun` is what is chosen: "step".

    An `eager` one shows its list as soon as it is empty and has the keys. What is likely meant lies
    by `near`: the list begins there.
    """

    picked = Signal()
    """Another one is chosen, or none; `value` says which."""

    def __init__(
        self, caption: str, noun: str, parent: QWidget, *, hint: str = "", eager: bool = False
    ) -> None:
        super().__init__(parent)
        self._noun, self._eager = noun, eager
        self._value: Any = None
        self.near: Any = None
        self._rows_came = self._wants_first = self._is_quiet = False
        self.line = Line(self, caption, hint=hint or "number or word")
        self.field = Field(caption, self.line, self)
        self.list = PickList(f"{caption}: what was found", self)
        self.list.hide()
        column = QVBoxLayout(self)
        tight(column, 4)
        column.addWidget(self.field)
        column.addWidget(self.list)
        column.addStretch(1)
        self.line.textChanged.connect(self._typed)
        self.line.entered.connect(self._entered)
        self.line.left.connect(self._left)
        self.list.pressed_at.connect(self._take)

    def first(self) -> QWidget:
        return self.line

    @property
    def value(self) -> Any:
        """What is chosen; None for none."""
        return self._value

    @property
    def row(self) -> PickRow | None:
        return self.list.rows.row_of(self._value)

    def set_rows(self, rows: Sequence[PickRow]) -> None:
        self.list.rows.set_rows(rows)
        self._rows_came = True
        if not self.line.text().strip():
            self._show_value()
            self._entered()
        elif self.line.hasFocus():
            self._narrow()
        if self._wants_first:
            self._take(self.list.currentIndex().row())

    def set_value(self, value: Any) -> None:
        """Choose one, be it before the rows are there."""
        self._value = value
        self._show_value()

    def settle(self) -> bool:
        """Take what is typed where it is one's very number or name; False, and said, where it
        could be any or none."""
        typed = self.line.text().strip()
        shown = self.row.text if self.row is not None else ""
        if typed == shown or not self._rows_came:
            return True
        if not typed:
            self._choose(None)
            return True
        return self._take_exact(typed)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = STEPS.get(Qt.Key(event.key()))
        is_open = self.list.isVisibleTo(self)
        if by is not None:
            self._step(by)
        elif event.key() in ENTER and self._is_choosing:
            self._enter()
        elif event.key() == Qt.Key.Key_Escape and (is_open or self._is_choosing):
            self._show_value()
        else:
            super().keyPressEvent(event)

    @property
    def _is_choosing(self) -> bool:
        """Whether Enter is for the list: something is typed that is not what is chosen, or the
        arrows went to a row."""
        typed = self.line.text().strip()
        if self.list.isVisibleTo(self) and self.list.here is not None:
            return True
        return bool(typed) and typed != (self.row.text if self.row is not None else "")

    # What is typed

    def _typed(self) -> None:
        """Also what a scan typed and what was taken out again comes by here."""
        self.field.say("")
        self._wants_first = False
        if not self._is_quiet and self.line.hasFocus():
            self._narrow()

    def _narrow(self) -> None:
        at = self.list.rows.narrow(self.line.text())
        self._open()
        if self.line.text().strip():
            self.list.go_to(at)
        else:
            self.list.look_at(self.list.rows.at(self.near))

    def _open(self) -> None:
        self.list.show_some(self._rows_came)

    def _step(self, by: int) -> None:
        if self.list.isVisibleTo(self):
            self.list.step(by)
        elif self._rows_came:
            self.list.rows.narrow("")
            self._open()
            self.list.look_at(self.list.rows.at(self.near))
            self.list.go_to(self.list.rows.at(self._value))
            self.list.step(0)

    def _enter(self) -> None:
        if not self._rows_came:
            self._wants_first = True
        elif self.list.here is None:
            self._say_unknown(self.line.text().strip())
        else:
            self._take(self.list.currentIndex().row())

    def _entered(self) -> None:
        """A click opens the list; going past with Tab does not. What is typed takes the place of
        what was chosen."""
        if self.line.hasFocus():
            self.line.selectAll()
        if QApplication.mouseButtons() and self.line.hasFocus() and self.list.isHidden():
            self._step(1)
        elif self._eager and self.line.hasFocus() and not self.line.text():
            self._narrow()

    def _left(self) -> None:
        typed = self.line.text().strip()
        if typed and self._rows_came:
            self._take_exact(typed, say=False)
        elif not typed and self._value is not None:
            self._choose(None)
        self.list.hide()

    # What is taken

    def _take_exact(self, typed: str, *, say: bool = True) -> bool:
        at = self.list.rows.narrow(typed)
        found = self.list.rows.row_at(at)
        if found is not None and is_named(found.text.casefold(), typed.casefold()):
            self._choose(found.value)
            return True
        if say:
            self._say_unknown(typed)
        return False

    def _say_unknown(self, typed: str) -> None:
        several = self.list.rows.rowCount()
        if several:
            self.field.say(f"Choose the {self._noun}: arrows, then Enter.")
        else:
            self.field.say(f"No {self._noun} answers to {typed}. Type a number or a word of it.")
        self.line.setFocus()
        self._open()

    def _take(self, at: int) -> None:
        found = self.list.rows.row_at(at)
        if found is not None:
            self.line.setFocus()
            self._choose(found.value)

    def _choose(self, value: Any) -> None:
        is_other = value != self._value
        self._value = value
        self._show_value()
        if is_other:
            self.picked.emit()

    def _show_value(self) -> None:
        self._is_quiet = True
        if self._rows_came:
            self.line.setText(self.row.text if self.row is not None else "")
            self.line.setCursorPosition(0)
            self.line.selectAll() if self.line.hasFocus() else self.line.deselect()
        self._is_quiet = False
        self._wants_first = False
        self.list.hide()
