"""One thing asked at sign-off: a figure or a count, held against its limits as one types."""

from PySide6.QtCore import QRectF, QSize, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag.domain import asked
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Asked, Counted, Figure
from bagtag.domain.hardware import HeldBy
from bagtag.domain.shapes import Picture
from bagtag.ui import fonts, theme
from bagtag.ui.card.task_signs import CROSS, TICK, paint_sign
from bagtag.ui.forms import figures
from bagtag.ui.forms.basics import Line, label, tight

SIGN = 22
EDIT, AFTER = 116, 66
"""How wide what is typed stands, and what follows it."""


class Verdict(QWidget):
    """A sign and a sentence: the tick or the cross says it as well as the words."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.sign: Picture | None = None
        self.said = label("", self)
        self._row = QHBoxLayout(self)
        tight(self._row, 0)
        self._row.addWidget(self.said, 1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def say(self, sentence: str, sign: Picture | None = None) -> None:
        self.sign = sign
        self._row.setContentsMargins(SIGN + 6 if sign else 0, 0, 0, 0)
        self.said.setText(sentence)
        tone = "accent" if sign is CROSS else "ink" if sign is TICK else "muted"
        theme.mark(self.said, tone=tone)
        self.setVisible(bool(sentence))
        self.update()

    def sizeHint(self) -> QSize:
        return super().sizeHint().expandedTo(QSize(0, SIGN))

    def paintEvent(self, _: QPaintEvent) -> None:
        if self.sign is not None:
            painter = QPainter(self)
            paint_sign(painter, self.sign, QRectF(1, 2, SIGN - 4, SIGN - 4))
            painter.end()


class AskRow(QWidget):
    """What is asked and how it stands at the left; at the right what one types."""

    edited = Signal()

    def __init__(self, name: str, after: str, parent: QWidget, *, hint: str = "") -> None:
        super().__init__(parent)
        self.name = label(name, self)
        self.name.setFont(fonts.font(theme.BODY, bold=True))
        self.verdict = Verdict(self)
        self.line = Line(self, name, hint=hint)
        self.line.set_face(fonts.font(theme.HEAD, bold=True))
        self.line.setFixedWidth(EDIT)
        self.after = label(after, self)
        self.after.setFixedWidth(AFTER)
        self.line.textChanged.connect(self._typed)
        self._lay()

    def _lay(self) -> None:
        words = QVBoxLayout()
        tight(words, 0)
        words.addStretch(1)
        words.addWidget(self.name)
        words.addWidget(self.verdict)
        words.addStretch(1)
        row = QHBoxLayout(self)
        tight(row, 10)
        row.addLayout(words, 1)
        row.addWidget(self.line)
        row.addWidget(self.after)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def _typed(self) -> None:
        self._judge()
        self.edited.emit()

    def say(self, sentence: str) -> None:
        """Say what is wrong here; it is said until one types."""
        self.verdict.say(sentence, CROSS)
        self._describe()

    def _describe(self) -> None:
        self.line.setAccessibleDescription(self.verdict.said.text())

    def _judge(self) -> None:
        """Say how what is typed stands: each sort of row knows."""
        raise NotImplementedError


class FigureRow(AskRow):
    """A figure, its unit and its limits."""

    def __init__(self, wanted: Asked, parent: QWidget) -> None:
        """What may be left out has what was given as its hint."""
        self._given = f"{wanted.given:g}" if wanted.given is not None else ""
        super().__init__(wanted.name, wanted.unit, parent, hint=self._given)
        self.asked = wanted
        self._judge()

    def value(self) -> float | None:
        """The figure that was typed, None for none; BadInput for what is no figure."""
        typed = self.line.text().strip()
        if not typed:
            return None
        found = reading(typed)
        if found is None:
            raise BadInput(
                f"{typed} is no figure. Give the {self.asked.name} as 0.12 or 1/8.",
                field=self.asked.name,
            )
        return asked.figure(self.asked, found).value

    def outside(self) -> str:
        """How it stands outside its limits, as a clause; nothing where it does not."""
        try:
            value = self.value()
        except BadInput:
            return ""
        return "" if value is None else asked.outside(self._figure(value))

    def _figure(self, value: float) -> Figure:
        return asked.figure(self.asked, value)

    def _judge(self) -> None:
        limits = asked.limits(self.asked)
        try:
            value = self.value()
        except BadInput as wrong:
            self.say(wrong.sentence)
            return
        if value is None:
            hint = f"given: {self._given} {self.asked.unit}; may be left out"
            self.verdict.say(hint if self._given else limits)
        elif said := asked.outside(self._figure(value)):
            self.verdict.say(said.removeprefix(self.asked.name).strip(), CROSS)
        else:
            self.verdict.say(f"within {limits}" if limits else "", TICK if limits else None)
        self._describe()


class CountRow(AskRow):
    """How many fasteners of one line went back; left empty, all of them did."""

    def __init__(self, place: int, held: HeldBy, parent: QWidget) -> None:
        of = f"of {held.count}" if held.count is not None else "back"
        super().__init__(_fasteners(held), of, parent, hint="all")
        self.place, self.held = place, held
        self._judge()

    def counted(self) -> Counted | None:
        """What was counted, None where nothing was typed; BadInput for what is no count."""
        typed = self.line.text().strip()
        if not typed:
            return None
        if not typed.isdecimal() or len(typed) > 4:
            raise BadInput(
                f"{typed} is no count. Give how many went back as a whole number.",
                field=self.name.text(),
            )
        back = int(typed)
        return Counted(self.place, back if self.held.count is None else self.held.count, back)

    def miscounted(self) -> str:
        """How the count does not add up, as a clause; nothing where it does."""
        try:
            one = self.counted()
        except BadInput:
            return ""
        return "" if one is None or one.back == one.off else f"{one.back} of {one.off} went back"

    def _judge(self) -> None:
        try:
            one = self.counted()
        except BadInput as wrong:
            self.say(wrong.sentence)
            return
        if said := self.miscounted():
            self.verdict.say(said, CROSS)
        else:
            self.verdict.say("all back" if one else "", TICK if one else None)
        self._describe()


def _fasteners(held: HeldBy) -> str:
    """`bolts M6x30`: what there is to count, in few words."""
    kind = held.kind or "fastener"
    many = kind if held.count == 1 or kind.endswith("s") else f"{kind}s"
    return f"{many} {held.size()}".strip()


def reading(text: str) -> float | None:
    """A figure as it is read off a gauge: also nought and below; None for what is none."""
    typed = text.strip().replace("\u2212", "-").replace(",", ".")
    below = typed.startswith("-")
    bare = typed.removeprefix("-").strip()
    found = figures.figure(bare)
    if found is None:
        try:
            is_nought = float(bare) == 0
        except ValueError:
            return None
        return 0.0 if is_nought else None
    return -found if below else found
