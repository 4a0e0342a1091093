"""One step of the checklist, measured first and painted where there is room for it.

From left to right: tick box and number; which way; the words; the photo; the code.
"""

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from bagtag.domain.codes import show
from bagtag.domain.model import Fate
from bagtag.domain.picture import draw
from bagtag.domain.sentence import sentence
from bagtag.paper import ink, qr
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.fonts import BOLD, CAP, MEDIUM, REGULAR, tidy, width
from bagtag.paper.ink import ACCENT, INK, RGB, SOFT, WHITE
from bagtag.paper.pdf import MM
from bagtag.paper.typeset import ELLIPSIS, wrap

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

WIDTH = 182 * MM
PAD = 3.2 * MM
TICK = 8 * MM
WHICH_WAY = (15 * MM, 40 * MM, 20 * MM)
WORDS_AT, WORDS, WORDS_ALONE = 59 * MM, 78 * MM, 106 * MM
PHOTO = (141 * MM, 26 * MM, 20 * MM)
CODE_AT = 169.5 * MM
MODULE = 5 * 72 / 300
SIGN = 7 * MM
LEAST = 24 * MM
FATE = 6 * MM
LINE = 1.22


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of the words column: its baseline below the card's top, in points."""

    y: float
    text: str
    font: str
    size: float
    colour: RGB
    x: float = 0.0


@dataclass(slots=True)
class Card:
    """A step with its lines set: `height` in points; `complaints` are what could not be shown."""

    step: ChecklistStep
    height: float = 0.0
    lines: list[_Line] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)


def measure(step: ChecklistStep, tallest: float) -> Card:
    """Set a step's words. A card never gets higher than `tallest`: then the words are cut."""
    setter = _Setter(WORDS if step.thumbnail else WORDS_ALONE, tallest - PAD - SIGN)
    _name(setter, step)
    _whereabouts(setter, step)
    _which_way(setter, step)
    _hardware(setter, step)
    _remarks(setter, step)
    height = max(setter.y + PAD + SIGN, _least(step))
    complaints = ["its words were cut."] if setter.was_cut else []
    return Card(step, height, setter.lines, complaints)


def _least(step: ChecklistStep) -> float:
    """The height that the tick box, and a fate below its picture, need whatever the words."""
    fate_below = bool(step.facts) and step.fate is not Fate.REFIT
    return max(LEAST, WHICH_WAY[2] + FATE + PAD if fate_below else 0) + PAD


class _Setter:
    """Sets one paragraph under the other and stops at the foot."""

    def __init__(self, room: float, foot: float) -> None:
        self.y, self.room, self.foot = PAD, room, foot
        self.lines: list[_Line] = []
        self.was_cut = False

    def add(
        self, text: str, font: str, size: float, colour: RGB = INK, *, before: float = 0.0
    ) -> None:
        """A paragraph; the first line that has no room ends the whole text with an ellipsis."""
        self.y += before
        for line in wrap(tidy(text), font, size, self.room):
            if self.was_cut or self.y + size * LINE > self.foot:
                self._cut()
                return
            baseline = self.y + size * (CAP + LINE) / 2
            self.lines.append(_Line(baseline, line, font, size, colour))
            self.y += size * LINE

    def _cut(self) -> None:
        if not self.was_cut:
            last = self.lines[-1]
            self.lines[-1] = replace(last, text=last.text[:-2].rstrip() + ELLIPSIS)
        self.was_cut = True


def _name(setter: _Setter, step: ChecklistStep) -> None:
    count = f"\u00a0×\u00a0{step.quantity}" if step.quantity > 1 else ""
    setter.add(step.name + count, BOLD, 12)


def _whereabouts(setter: _Setter, step: ChecklistStep) -> None:
    said = [f"removal {step.removal}" if step.removal else "", step.area]
    setter.add(" · ".join(part for part in said if part), REGULAR, 8.5, SOFT)


def _which_way(setter: _Setter, step: ChecklistStep) -> None:
    if step.facts:
        setter.add(sentence(step.facts, step.datum), MEDIUM, 11, before=2)


def _hardware(setter: _Setter, step: ChecklistStep) -> None:
    """Each line of hardware, its torque in bold behind it or below."""
    for line in step.held_by:
        setter.add(str(replace(line, torque=None)), REGULAR, 9.5, before=2)
        if line.torque is None or setter.was_cut:
            continue
        last, torque = setter.lines[-1], str(line.torque)
        end = width(last.text + "   ", REGULAR, 9.5)
        if end + width(torque, BOLD, 11) <= setter.room:
            setter.lines.append(_Line(last.y, torque, BOLD, 11, INK, end))
        else:
            setter.add(torque, BOLD, 11)


def _remarks(setter: _Setter, step: ChecklistStep) -> None:
    for head, said in (
        ("Goes on: ", step.goes_on),
        ("Home when: ", step.home),
        ("Waits: ", "; ".join(step.waits)),
        ("Note: ", step.note),
    ):
        if said:
            setter.add(head + said, REGULAR, 9.5, before=2)


def paint(canvas: "Canvas", card: Card, left: float, top: float) -> None:
    """Draw a card with its top left corner at (left, top), in points from the page's foot."""
    ink.rule(canvas, left, top, WIDTH)
    _paint_tick(canvas, card.step, left, top)
    _paint_picture(canvas, card.step, left, top)
    for line in card.lines:
        x, y = left + WORDS_AT + line.x, top - line.y
        ink.text(canvas, x, y, line.text, font=line.font, size=line.size, colour=line.colour)
    _paint_photo(canvas, card, left, top)
    _paint_code(canvas, card.step, left, top)
    _paint_sign(canvas, card.step, left, top - card.height)


def _paint_tick(canvas: "Canvas", step: ChecklistStep, left: float, top: float) -> None:
    foot = top - PAD - TICK
    ink.square(canvas, left, foot, TICK)
    if step.done is not None:
        canvas.setLineWidth(2.4)
        canvas.setLineCap(1)
        points = ((0.18, 0.52), (0.42, 0.24), (0.86, 0.86))
        path = canvas.beginPath()
        path.moveTo(left + TICK * points[0][0], foot + TICK * points[0][1])
        for x, y in points[1:]:
            path.lineTo(left + TICK * x, foot + TICK * y)
        canvas.drawPath(path)
        canvas.setLineCap(0)
    ink.text(canvas, left, foot - 6.5 * MM, str(step.number), font=BOLD, size=15)


def _paint_picture(canvas: "Canvas", step: ChecklistStep, left: float, top: float) -> None:
    at, wide, high = WHICH_WAY
    if step.facts:
        from bagtag.paper.picture import paint as paint_picture

        drawn = draw(step.facts, step.datum, aspect=wide / high)
        paint_picture(canvas, drawn, left + at, top - PAD - high, wide, high, black=False)
    if step.fate is not Fate.REFIT:
        y = top - PAD - (high + FATE if step.facts else 5 * MM)
        _paint_pill(canvas, step.fate.value.upper(), left + at, y)


def _paint_pill(canvas: "Canvas", word: str, x: float, y: float) -> None:
    wide = width(word, BOLD, 11) + 8
    ink.bar(canvas, x, y, width=wide, height=5 * MM, colour=ACCENT)
    ink.text(canvas, x + 4, y + 2.5 * MM - 11 * CAP / 2, word, font=BOLD, size=11, colour=WHITE)


def _paint_photo(canvas: "Canvas", card: Card, left: float, top: float) -> None:
    at, wide, high = PHOTO
    if card.step.thumbnail is None:
        return
    x, y = left + at, top - PAD - high
    try:
        file = str(card.step.thumbnail)
        canvas.drawImage(file, x, y, wide, high, preserveAspectRatio=True, anchor="n")
    except (OSError, ValueError):
        card.complaints.append("its photo could not be read.")
        ink.text(canvas, x, y + high / 2, "photo not readable", font=REGULAR, size=7.5, colour=SOFT)


def _paint_code(canvas: "Canvas", step: ChecklistStep, left: float, top: float) -> None:
    if step.code:
        x, y, size = left + CODE_AT, top - PAD, qr.SIZE * MODULE
        canvas.setFillGray(0)
        qr.draw(canvas, step.code, x + 1.2 * MM, y, MODULE)
        code = show(step.code)
        middle = x + 1.2 * MM + size / 2 - width(code, BOLD, 8.5) / 2
        ink.text(canvas, middle, y - size - 4.6 * MM, code, font=BOLD, size=8.5)


def _paint_sign(canvas: "Canvas", step: ChecklistStep, left: float, foot: float) -> None:
    """Who fitted it and when: printed when it is done, else lines to write on."""
    x, y = left + WORDS_AT, foot + 2.4 * MM
    if step.done is not None:
        said = f"Fitted by {step.done.who}, {step.done.at:%Y-%m-%d %H:%M}"
        ink.text(canvas, x, y, said, font=MEDIUM, size=9.5)
        return
    ink.text(canvas, x, y, "fitted by", font=REGULAR, size=8.5, colour=SOFT)
    ink.rule(canvas, x + 13 * MM, y - 1, 48 * MM, colour=INK, weight=0.6)
    ink.text(canvas, x + 64 * MM, y, "date", font=REGULAR, size=8.5, colour=SOFT)
    ink.rule(canvas, x + 71.5 * MM, y - 1, WIDTH - WORDS_AT - 71.5 * MM, colour=INK, weight=0.6)
