"""Hand, seat and match mark: the facts that a choice or a word says."""

from typing import Any

from PySide6.QtWidgets import QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.picture import draw
from bagtag.domain.which_way import Hand, MatchMark, Seat, SeatKind
from bagtag.ui.desk import Desk
from bagtag.ui.entry.fact_editor import FactEditor
from bagtag.ui.forms.basics import Field, Line
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.figures import figure
from bagtag.ui.forms.words import WordField

MARKS = ("two punch dots", "one punch dot", "paint line", "scribed line", "number stamped on both")
_MEASURED = (SeatKind.PROUD, SeatKind.BELOW)


class HandEditor(FactEditor):
    def __init__(self, datum: Datum, parent: QWidget, desk: Desk) -> None:
        super().__init__(datum, parent, desk)
        self.which = Choices("Hand", _hands(datum), self, columns=2)
        self.column.addWidget(Field("Hand", self.which, self))
        self.which.chosen.connect(self._tell)

    def begin(self) -> None:
        self.which.setFocus()

    def fact(self) -> Hand | None:
        return self.which.value  # type: ignore[no-any-return]  # an option holds what it is

    def next_gap(self) -> QWidget | None:
        return None if self.which.value else self.which

    def load(self, fact: Any) -> None:
        self.which.set_value(fact)


def _hands(datum: Datum) -> list[Option]:
    stamped, by_place = "stamped on the part", "by position, not stamped"
    hands = [Hand("L", True), Hand("R", True), Hand("L"), Hand("R")]
    return [
        Option(
            hand,
            hand.which,
            stamped if hand.stamped else by_place,
            str(key),
            draw((hand,), datum),
            lettered=True,
        )
        for key, hand in enumerate(hands, start=1)
    ]


class SeatEditor(FactEditor):
    def __init__(self, datum: Datum, parent: QWidget, desk: Desk) -> None:
        super().__init__(datum, parent, desk)
        self.kind = Choices("It sits", _seats(datum), self, columns=3)
        self.how_far = Line(self, "How far, in millimetres", hint="for example: 0.5")
        self._depth_field = Field("How far, in millimetres", self.how_far, self)
        self._depth_field.hide()
        self.column.addWidget(Field("It sits", self.kind, self))
        self.column.addWidget(self._depth_field)
        self.kind.chosen.connect(self._chosen)
        self.how_far.textChanged.connect(self._typed)

    def begin(self) -> None:
        self.kind.setFocus()

    def fact(self) -> Seat | None:
        kind = self.kind.value
        if kind is None:
            return None
        return Seat(kind, figure(self.how_far.text()) if kind in _MEASURED else None)

    def next_gap(self) -> QWidget | None:
        if self.kind.value is None:
            return self.kind
        wants = self.kind.value in _MEASURED and self.how_far.text().strip()
        return self.how_far if wants and figure(self.how_far.text()) is None else None

    def load(self, fact: Any) -> None:
        self.kind.set_value(fact.kind)
        self.how_far.setText("" if fact.depth is None else f"{fact.depth:g}")
        self._depth_field.setVisible(fact.kind in _MEASURED)

    def _chosen(self) -> None:
        self._depth_field.setVisible(self.kind.value in _MEASURED)
        self._tell()

    def _typed(self) -> None:
        wrong = bool(self.how_far.text().strip()) and figure(self.how_far.text()) is None
        self._depth_field.say("Give millimetres, for example 0.5." if wrong else "")
        self._tell()


def _seats(datum: Datum) -> list[Option]:
    words = {
        SeatKind.FLUSH: ("flush", "level with the face"),
        SeatKind.PROUD: ("proud", "stands out"),
        SeatKind.BELOW: ("below", "deeper than the face"),
        SeatKind.BOTTOMED: ("bottomed", "down to the end"),
        SeatKind.SHOULDER: ("shoulder", "against the shoulder"),
    }
    return [
        Option(kind, title, detail, str(key), draw((Seat(kind),), datum))
        for key, (kind, (title, detail)) in enumerate(words.items(), start=1)
    ]


class MatchMarkEditor(FactEditor):
    def __init__(self, datum: Datum, parent: QWidget, desk: Desk) -> None:
        super().__init__(datum, parent, desk)
        self.mark = WordField("The mark", MARKS, self, hint="what joins the two parts", always=True)
        self.partner = Line(self, "On the other part", hint="the part that carries it too")
        self.column.addWidget(self.mark)
        self.column.addWidget(Field("On the other part", self.partner, self))
        self.mark.edited.connect(self._tell)
        self.partner.textChanged.connect(self._tell)

    def begin(self) -> None:
        self.mark.setFocus()

    def fact(self) -> MatchMark | None:
        return MatchMark(self.mark.text, self.partner.text().strip()) if self.mark.text else None

    def next_gap(self) -> QWidget | None:
        return None if self.mark.text else self.mark

    def load(self, fact: Any) -> None:
        self.mark.set_text(fact.mark)
        self.partner.setText(fact.partner)
