"""What comes off a part before it is worked on: taken off at the bench, or by the shop."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.sending import ShopPart
from bagtag.domain.sending_check import read_shop_part
from bagtag.ui.away.away_words import shop_part_words
from bagtag.ui.forms.around import Around
from bagtag.ui.forms.basics import ENTER, Field, Line, tight
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.forms.pick_model import PickRow
from bagtag.ui.forms.rows import Rows

USUAL = ("oil jets", "core plugs", "dowels", "studs", "bearings", "bushes", "valve guides")


class TakenOff(Around):
    """Lines of the log that were taken off the part first, as slips."""

    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.ids: list[int] = []
        self.pick = PickLine("Taken off it first", "part", self, hint="number or word")
        self.slips = Rows("Taken off first", self)
        column = QVBoxLayout(self)
        tight(column, 4)
        column.addWidget(self.pick)
        column.addWidget(self.slips)
        column.addStretch(1)
        self.pick.picked.connect(self._picked)
        self.slips.opened.connect(self._take_out)
        self.slips.removed.connect(self._take_out)

    def first(self) -> QWidget:
        return self.pick.line

    def set_rows(self, rows: Sequence[PickRow]) -> None:
        self.pick.set_rows(rows)
        self._show()

    def set_ids(self, ids: Sequence[int]) -> None:
        self.ids = list(ids)
        self._show()

    def _picked(self) -> None:
        picked = self.pick.value
        if picked is not None and picked not in self.ids:
            self.ids.append(picked)
        self.pick.set_value(None)
        self._show()
        self.changed.emit()

    def _take_out(self, place: int) -> None:
        del self.ids[place]
        self._show()
        self.pick.line.setFocus()
        self.changed.emit()

    def _show(self) -> None:
        rows = (self.pick.list.rows.row_of(one) for one in self.ids)
        self.slips.set_rows([row.text if row is not None else "a part" for row in rows])


class CountedLine(Line):
    """Enter takes what is typed, so long as there is something."""

    taken = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER and self.text().strip() and not _with_control(event):
            self.taken.emit()
        else:
            super().keyPressEvent(event)


def _with_control(event: QKeyEvent) -> bool:
    return bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)


class ShopTakes(Around):
    """What the shop takes off, a line each: `3 oil jets`. Each becomes a line of the log, so that
    none is forgotten on the way back."""

    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.parts: list[ShopPart] = []
        self.line = CountedLine(self, "The shop takes off", hint="for example: 3 oil jets")
        self.line.suggest(USUAL)
        self.field = Field("The shop takes off it", self.line, self)
        self.slips = Rows("The shop takes off", self)
        column = QVBoxLayout(self)
        tight(column, 4)
        column.addWidget(self.field)
        column.addWidget(self.slips)
        column.addStretch(1)
        self.line.taken.connect(self.take)
        self.slips.opened.connect(self._reopen)
        self.slips.removed.connect(self._drop)

    def first(self) -> QWidget:
        return self.line

    def set_parts(self, parts: Sequence[ShopPart]) -> None:
        self.parts = list(parts)
        self._show()

    def take(self) -> bool:
        """Make a slip of what is typed; False, and said, where that cannot be."""
        if not self.line.text().strip():
            return True
        try:
            self.parts.append(read_shop_part(self.line.text()))
        except BadInput as wrong:
            self.field.say(wrong.sentence)
            self.line.setFocus()
            return False
        self.line.clear()
        self._show()
        self.changed.emit()
        return True

    def _reopen(self, place: int) -> None:
        """Back into the line, to be changed."""
        one = self.parts.pop(place)
        self.line.setText(f"{one.quantity} {one.name}")
        self.line.setFocus()
        self._show()
        self.changed.emit()

    def _drop(self, place: int) -> None:
        del self.parts[place]
        self.line.setFocus()
        self._show()
        self.changed.emit()

    def _show(self) -> None:
        self.slips.set_rows([shop_part_words(one) for one in self.parts])
