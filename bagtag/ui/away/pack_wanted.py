"""What is wanted of one part: the work, its figures, and what comes off it first."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.errors import BadInput, Trouble
from bagtag.domain.sending import Wanted
from bagtag.domain.sending_check import check_wanted
from bagtag.ui.away.away_words import asks_words, shop_part_words
from bagtag.ui.away.pack_figures import FiguresWanted
from bagtag.ui.away.pack_off import ShopTakes, TakenOff
from bagtag.ui.forms.around import Around
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.pick_model import PickRow


class WantedForm(Around):
    """The fields for one part. What was typed and not yet taken is taken by `wanted`."""

    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.work = Line(self, "Work wanted", hint="for example: rebore and hone to the new piston")
        self.figures = FiguresWanted(self, self.work)
        self.off = TakenOff(self)
        self.takes = ShopTakes(self)
        self.fields = {
            "work": Field("Work wanted", self.work, self),
            "asks": Field("Figures to work to", self.figures, self),
        }
        self._lay()
        self.work.textEdited.connect(self.changed)
        self.figures.changed.connect(self._figures_edited)
        self.off.changed.connect(self.changed)
        self.takes.changed.connect(self.changed)

    def _lay(self) -> None:
        beside = QHBoxLayout()
        tight(beside, 16)
        beside.addWidget(self.off, 1)
        beside.addWidget(self.takes, 1)
        column = QVBoxLayout(self)
        tight(column, 10)
        for field in self.fields.values():
            column.addWidget(field)
        column.addLayout(beside)

    def first(self) -> QWidget:
        return self.work

    def _figures_edited(self) -> None:
        self.fields["asks"].say("")
        self.changed.emit()

    def set_parts(self, rows: Sequence[PickRow]) -> None:
        """The lines of the log that may have been taken off it."""
        self.off.set_rows(rows)

    def fill(self, wanted: Wanted) -> None:
        self.work.setText(wanted.work)
        self.figures.set_asks(wanted.asks)
        self.off.set_ids(wanted.off)
        self.takes.set_parts(wanted.by_shop)

    def wanted(self, removal_id: int) -> Wanted:
        """As filled in; BadInput, and said at its field, for what cannot be."""
        if not self.takes.take():
            raise BadInput(self.takes.field.wrong.text(), field="by_shop")
        off, by_shop = tuple(self.off.ids), tuple(self.takes.parts)
        try:
            asks = self.figures.asks()
            (found,) = check_wanted([Wanted(removal_id, self.work.text(), asks, off, by_shop)])
        except BadInput as wrong:
            self.say_wrong(wrong)
            raise
        return found

    def say_wrong(self, error: Trouble) -> bool:
        """Say it at the field it is about, and go there; False where there is no such field."""
        fields = self.fields | {"by_shop": self.takes.field, "off": self.off.pick.field}
        field = fields.get(error.field)
        if field is not None:
            field.say(error.sentence)
            field.editor.setFocus(Qt.FocusReason.TabFocusReason)
        return field is not None

    def say_nothing(self) -> None:
        for field in (*self.fields.values(), self.takes.field, self.off.pick.field):
            field.say("")

    def told(self) -> str:
        """What is wanted, in one line; nothing where nothing was said yet."""
        try:
            figures = asks_words(self.figures.asks())
        except BadInput:
            figures = ""
        by_shop = ", ".join(shop_part_words(one) for one in self.takes.parts)
        takes = f"the shop takes {by_shop} off" if by_shop else ""
        return "; ".join(filter(None, (self.work.text().strip(), figures, takes)))
