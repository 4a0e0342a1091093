"""Place among its like: 2nd of 3 from a side, cylinder 2, hole 14."""

from typing import Any

from PySide6.QtWidgets import QHBoxLayout, QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.which_way import Place
from bagtag.ui.desk import Desk
from bagtag.ui.entry.fact_editor import FactEditor, side_choices, side_of
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.figures import count
from bagtag.ui.forms.words import WordField

WHATS = ("cylinder", "hole", "journal", "stud", "valve")


class PlaceEditor(FactEditor):
    def __init__(self, datum: Datum, parent: QWidget, desk: Desk) -> None:
        super().__init__(datum, parent, desk)
        self.index = Line(self, "Number", hint="2")
        self.of = Line(self, "Of how many", hint="not said")
        self.counted_from = side_choices("Counted from", datum, self)
        self.what = WordField("Of what", WHATS, self, hint="empty: in its row", always=True)
        self._index_field = Field("Number", self.index, self)
        self._of_field = Field("Of how many", self.of, self)
        row = QHBoxLayout()
        tight(row, 10)
        row.addWidget(self._index_field, 1)
        row.addWidget(self._of_field, 1)
        self.column.addLayout(row)
        self.column.addWidget(Field("Counted from", self.counted_from, self))
        self.column.addWidget(self.what)
        for signal in (self.index.textChanged, self.of.textChanged):
            signal.connect(self._typed)
        for signal in (self.what.edited, self.counted_from.chosen):
            signal.connect(self._tell)

    def begin(self) -> None:
        self.index.setFocus()

    def fact(self) -> Place | None:
        index = count(self.index.text())
        if index is None:
            return None
        return Place(index, count(self.of.text()), side_of(self.counted_from), self.what.text)

    def next_gap(self) -> QWidget | None:
        if count(self.index.text()) is None:
            return self.index
        wrong = self.of.text().strip() and count(self.of.text()) is None
        return self.of if wrong else None

    def load(self, fact: Any) -> None:
        self.index.setText(str(fact.index))
        self.of.setText("" if fact.of is None else str(fact.of))
        self.what.set_text(fact.what)
        self.counted_from.set_value(fact.counted_from or "")

    def _typed(self) -> None:
        for field, line in ((self._index_field, self.index), (self._of_field, self.of)):
            wrong = bool(line.text().strip()) and count(line.text()) is None
            field.say("A whole number from 1." if wrong else "")
        self._tell()
