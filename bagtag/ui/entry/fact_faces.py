"""What of the part faces where."""

from typing import Any

from PySide6.QtWidgets import QWidget

from bagtag.domain.datum import Datum, Side
from bagtag.domain.picture import draw
from bagtag.domain.which_way import Faces, OtherPart, Outness
from bagtag.ui.desk import Desk
from bagtag.ui.entry.fact_editor import FactEditor, side_options
from bagtag.ui.entry.part_line import PartLine
from bagtag.ui.forms.basics import Field
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.words import WordField

FEATURES = (
    "OUT", "sealed side", "sharp edge", "chamfer", "lip", "arrow", "dot", "part-number side",
)  # fmt: skip
OTHER = "another part"


class FacesEditor(FactEditor):
    def __init__(self, datum: Datum, parent: QWidget, desk: Desk) -> None:
        super().__init__(datum, parent, desk)
        self.feature = WordField(
            "What faces somewhere",
            FEATURES,
            self,
            hint="what the part carries, in a word",
            always=True,
        )
        self.toward = Choices("It faces", _options(datum), self, columns=3)
        self.other = PartLine(
            desk, "Which part it faces", self, hint="number or name, for example: gear 3"
        )
        self.column.addWidget(self.feature)
        self.column.addWidget(Field("It faces", self.toward, self))
        self.column.addWidget(self.other)
        self.other.hide()
        self.feature.edited.connect(self._tell)
        self.toward.chosen.connect(self._chosen)
        self.other.edited.connect(self._tell)

    def begin(self) -> None:
        self.feature.setFocus()

    def fact(self) -> Faces | None:
        toward = self._toward()
        return Faces(self.feature.text, toward) if self.feature.text and toward else None

    def next_gap(self) -> QWidget | None:
        if not self.feature.text:
            return self.feature
        if not self.toward.value:
            return self.toward
        return None if self._toward() else self.other

    def load(self, fact: Any) -> None:
        self.feature.set_text(fact.feature)
        is_part = isinstance(fact.toward, OtherPart)
        self.toward.set_value(OTHER if is_part else fact.toward)
        self.other.setVisible(is_part)
        if is_part:
            self.other.load(fact.toward)

    def _toward(self) -> Side | Outness | OtherPart | None:
        if self.toward.value != OTHER:
            return self.toward.value  # type: ignore[no-any-return]  # an option holds what it is
        return self.other.part

    def _chosen(self) -> None:
        self.other.setVisible(self.toward.value == OTHER)
        self._tell()


def _options(datum: Datum) -> list[Option]:
    outward = draw((Faces("", Outness.OUTWARD),), datum)
    inward = draw((Faces("", Outness.INWARD),), datum)
    part = draw((Faces("", OtherPart("part")),), datum)
    return [
        *side_options(datum),
        Option(Outness.OUTWARD, "outward", key="7", picture=outward),
        Option(Outness.INWARD, "inward", key="8", picture=inward),
        Option(OTHER, OTHER, key="9", picture=part),
    ]
