"""Round the same way as another part, and "there is none": the facts that answer without a side."""

from typing import Any

from PySide6.QtWidgets import QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.which_way import SameWay, Without
from bagtag.ui.desk import Desk
from bagtag.ui.entry.fact_editor import FactEditor
from bagtag.ui.entry.part_line import PartLine
from bagtag.ui.forms.basics import Field
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.words import WordField

NOTHINGS = ("match mark", "hand", "lip", "chamfer", "dot", "arrow")
_WAYS = [
    Option(False, "the same way", "round as the other part", "1"),
    Option(True, "the opposite way", "the other way round", "2"),
]


class SameWayEditor(FactEditor):
    def __init__(self, datum: Datum, parent: QWidget, desk: Desk) -> None:
        super().__init__(datum, parent, desk)
        self.other = PartLine(desk, "As which part", self, hint="number or name: the other fork")
        self.way = Choices("It sits", _WAYS, self, columns=2)
        self.way.set_value(False)
        self.column.addWidget(self.other)
        self.column.addWidget(Field("It sits", self.way, self))
        self.other.edited.connect(self._tell)
        self.way.chosen.connect(self._tell)

    def begin(self) -> None:
        self.other.setFocus()

    def fact(self) -> SameWay | None:
        part = self.other.part
        return SameWay(part, self.way.value) if part else None

    def next_gap(self) -> QWidget | None:
        return None if self.other.part else self.other

    def load(self, fact: Any) -> None:
        self.other.load(fact.other)
        self.way.set_value(fact.opposite)


class WithoutEditor(FactEditor):
    """Whole from the beginning: with nothing named, the part goes either way round."""

    def __init__(self, datum: Datum, parent: QWidget, desk: Desk) -> None:
        super().__init__(datum, parent, desk)
        self.what = WordField(
            "There is no", NOTHINGS, self, hint="empty: it goes either way round", always=True
        )
        self._loaded = False
        self.column.addWidget(self.what)
        self.what.edited.connect(self._tell)

    def begin(self) -> None:
        self.what.setFocus()
        if not self._loaded:
            self._tell()

    def fact(self) -> Without:
        return Without(self.what.text)

    def load(self, fact: Any) -> None:
        self._loaded = True
        self.what.set_text(fact.feature)
