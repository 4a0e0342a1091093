"""How a part is turned: a feature at an hour of the clock, or in or to something."""

import re
from typing import Any

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.which_way import Clocking
from bagtag.ui.desk import Desk
from bagtag.ui.entry.clock_face import ClockFace
from bagtag.ui.entry.fact_editor import FactEditor, side_choices, side_of
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.words import WordField

FEATURES = ("gap", "tab", "dot", "line", "keyway", "oil hole", "ear")
_TIME = re.compile(r"(\d{1,2})(?:[:.,](\d{1,2}))?\s*(?:o'?clock|h)?")


class ClockingEditor(FactEditor):
    def __init__(self, datum: Datum, parent: QWidget, desk: Desk) -> None:
        super().__init__(datum, parent, desk)
        self.feature = WordField(
            "What is turned", FEATURES, self, hint="what points there", always=True
        )
        self.face = ClockFace(self)
        self.hour = Line(self, "Hour", hint="4 or 4:30")
        self.target = Line(self, "Or in or to what", hint="for example: in the notch")
        self.seen_from = side_choices("Seen from", datum, self)
        self._hour_field = Field("Hour", self.hour, self)
        self._lay_out()
        self.face.chosen.connect(self._clicked)
        self.hour.textChanged.connect(self._typed)
        for signal in (self.feature.edited, self.target.textChanged, self.seen_from.chosen):
            signal.connect(self._tell)

    def _lay_out(self) -> None:
        words = QVBoxLayout()
        tight(words, 10)
        words.addWidget(self.feature)
        line = QHBoxLayout()
        tight(line, 10)
        line.addWidget(self._hour_field, 1)
        line.addWidget(Field("Or in or to what", self.target, self), 2)
        words.addLayout(line)
        words.addStretch(1)
        row = QHBoxLayout()
        tight(row, 16)
        row.addLayout(words, 1)
        row.addWidget(self.face)
        self.column.addLayout(row)
        self.column.addWidget(Field("Seen from", self.seen_from, self))

    def begin(self) -> None:
        self.feature.setFocus()

    def fact(self) -> Clocking | None:
        hour, target = hour_of(self.hour.text()), self.target.text().strip()
        if not self.feature.text or (hour is None and not target):
            return None
        return Clocking(self.feature.text, hour, target, side_of(self.seen_from))

    def next_gap(self) -> QWidget | None:
        if not self.feature.text:
            return self.feature
        typed = bool(self.hour.text().strip())
        if typed and hour_of(self.hour.text()) is None:
            return self.hour
        return None if typed or self.target.text().strip() else self.hour

    def load(self, fact: Any) -> None:
        self.feature.set_text(fact.feature)
        self.hour.setText("" if fact.hour is None else written(fact.hour))
        self.target.setText(fact.target)
        self.seen_from.set_value(fact.seen_from or "")

    def _clicked(self, hour: float) -> None:
        self.hour.setText(written(hour))

    def _typed(self) -> None:
        hour = hour_of(self.hour.text())
        wrong = bool(self.hour.text().strip()) and hour is None
        self._hour_field.say("An hour from 1 to 12, or a half: 4:30." if wrong else "")
        self.face.set_hour(hour)
        self._tell()


def hour_of(text: str) -> float | None:
    """`4`, `4:30`, `4.5` as an hour in halves from 1 to 12.5; None where it is none."""
    match = _TIME.fullmatch(text.strip().casefold())
    if match is None:
        return None
    hour, rest = int(match[1]), match[2] or "0"
    half = rest in ("30", "5", "50")
    if not 1 <= hour <= 12 or not (half or int(rest) == 0):
        return None
    return hour + 0.5 if half else float(hour)


def written(hour: float) -> str:
    """An hour as it is typed: `4`, `4:30`."""
    return f"{int(hour)}:30" if hour % 1 else f"{int(hour)}"
