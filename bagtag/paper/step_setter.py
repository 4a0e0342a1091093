"""Sets a step's column of words: paragraphs, and rows of boxes to tick and lines to write on."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from bagtag.domain.phrases import whole
from bagtag.domain.shapes import Picture
from bagtag.paper.fonts import BOLD, CAP, REGULAR, tidy, width
from bagtag.paper.ink import INK, RGB
from bagtag.paper.pdf import MM
from bagtag.paper.step_marks import Caution, Drawing, Marks, Rule, Tick, Words
from bagtag.paper.typeset import ELLIPSIS, wrap

LINE = 1.22
"""From one line's top to the next, in font sizes."""
SMALL = 9.5
TICK = 3.4 * MM
TICK_ROW, PEN_ROW = 5.4 * MM, 7.2 * MM
"""Heights of a row of boxes, and of one that is written in by hand."""
_GAP, _APART = 1.2 * MM, 2.8 * MM
_CUT = f"{ELLIPSIS} no room for the rest: see it in the job."


@dataclass(frozen=True, slots=True)
class Field:
    """`before`, then a line `pen` points long to write on, or a box to tick where that is 0, then
    `after`."""

    before: str = ""
    pen: float = 0.0
    after: str = ""
    is_bold: bool = False

    @property
    def font(self) -> str:
        return BOLD if self.is_bold else REGULAR

    @property
    def width(self) -> float:
        return _wide(self)


@lru_cache(maxsize=4096)
def _wide(one: Field) -> float:
    texts = [width(text, one.font, SMALL) + _GAP for text in (one.before, one.after) if text]
    return sum(texts) + (one.pen or TICK)


def _tied(text: str) -> str:
    """One line whose figures keep their units."""
    return whole(tidy(text))


def past_tick(number: str) -> float:
    """How far the words of a ticked paragraph stand from the box's left edge."""
    return TICK + _GAP + width(number, BOLD, SMALL) + _GAP


class Rooms(NamedTuple):
    """How wide a paragraph may run: `beside` what stands right of the column, and `below` that,
    from `until` on."""

    beside: float
    below: float
    until: float


class Setter:
    """Sets one thing under the other and stops at the foot, where it says so."""

    def __init__(self, top: float, left: float, foot: float, rooms: Rooms) -> None:
        self.y, self.left = top, left
        self.end_at(foot)
        self._rooms = rooms
        self._room_above, self._lines = rooms.beside, 0
        self.marks = Marks()
        self.was_cut = False

    def end_at(self, foot: float) -> None:
        """Everything has to stand above this."""
        self._foot = foot - SMALL * LINE

    @property
    def room(self) -> float:
        """How wide what comes next may be."""
        return self._rooms.below if self.y >= self._rooms.until else self._rooms.beside

    def add(
        self,
        text: str,
        font: str = REGULAR,
        size: float = SMALL,
        colour: RGB = INK,
        *,
        before: float = 0.0,
        indent: float = 0.0,
    ) -> None:
        """A paragraph, `before` points below the last."""
        self._room_above = self.room
        lines = wrap(_tied(text), font, size, self._room_above - indent)
        self._lines = len(lines)
        for line in lines:
            if not self._has_room(before + size * LINE):
                return
            baseline = self.y + before + size * (CAP + LINE) / 2
            self.marks.words.append(Words(self.left + indent, baseline, line, font, size, colour))
            self.y += before + size * LINE
            before = 0.0

    def beside(self, text: str, font: str, size: float) -> bool:
        """Puts a word behind the last paragraph, where it fits and that is one line: behind a
        second line that is a single figure, a torque would read as one number with it."""
        if self.was_cut or self._lines != 1:
            return False
        last = self.marks.words[-1]
        end = width(last.text, last.font, last.size) + 2.4 * MM + last.x
        if end + width(text, font, size) > self.left + self._room_above:
            return False
        self.marks.words.append(Words(end, last.y, text, font, size))
        return True

    def caution(self, text: str, font: str) -> None:
        """A paragraph with the warning triangle before it."""
        if tidy(text) and self._has_room(2 + SMALL * LINE):
            self.marks.cautions.append(Caution(self.left, self.y + 2.6, 3.4 * MM))
            self.add(text, font, before=2, indent=4.6 * MM)

    def drawing(self, picture: Picture, most_high: float) -> None:
        """A picture in the column, as wide as it or as high as it may be."""
        wide = min(self.room, most_high * picture.aspect)
        high = wide / picture.aspect
        if picture.items and self._has_room(high + 2 * _GAP):
            self.marks.drawings.append(Drawing(self.left, self.y + _GAP, wide, high, picture))
            self.y += high + 2 * _GAP

    def tick(
        self, text: str, *, number: str, done: bool, indent: float, font: str = REGULAR
    ) -> None:
        """A paragraph with a box before it and a number in bold."""
        start = indent + TICK + _GAP
        after = indent + past_tick(number)
        lines = wrap(_tied(text), font, SMALL, self.room - after)
        height = TICK_ROW + max(0, len(lines) - 1) * SMALL * LINE
        if not self._has_room(height):
            return
        top = self.y + (TICK_ROW - TICK) / 2
        baseline = top + TICK / 2 + SMALL * CAP / 2
        self.marks.ticks.append(Tick(self.left + indent, top, TICK, done))
        self.marks.words.append(Words(self.left + start, baseline, number, BOLD, SMALL))
        for row, line in enumerate(lines):
            y = baseline + row * SMALL * LINE
            self.marks.words.append(Words(self.left + after, y, line, font, SMALL))
        self.y += height

    def fits(self, fields: Sequence[Field]) -> bool:
        """Whether they have room side by side."""
        return sum(one.width + _APART for one in fields) - _APART <= self.room

    def row(self, fields: Sequence[Field]) -> None:
        """Fields side by side, on as many rows as they need."""
        row: list[Field] = []
        for one in fields:
            if row and not self.fits([*row, one]):
                self._place(row)
                row = []
            row.append(one if self.fits([one]) else self._words_above(one))
        if row:
            self._place(row)

    def _words_above(self, one: Field) -> Field:
        """A field too wide for the column has its words in lines of their own above it."""
        short = replace(one, before="")
        if self.fits([short]):
            self.add(one.before)
            return short
        self.add(f"{one.before} {one.after}")
        return replace(short, after="")

    def _place(self, row: Sequence[Field]) -> None:
        height = PEN_ROW if any(one.pen for one in row) else TICK_ROW
        if not self._has_room(height):
            return
        baseline = self.y + height - (1.7 * MM)
        x = self.left
        for one in row:
            x = self._field(one, x, baseline) + _APART
        self.y += height

    def _field(self, one: Field, x: float, baseline: float) -> float:
        """Where it ends."""
        for text, is_last in ((one.before, False), (one.after, True)):
            if is_last:
                x = self._blank(one, x, baseline) + _GAP
            if text:
                self.marks.words.append(Words(x, baseline, text, one.font, SMALL))
                x += width(text, one.font, SMALL) + _GAP
        return x - _GAP

    def _blank(self, one: Field, x: float, baseline: float) -> float:
        if one.pen:
            self.marks.rules.append(Rule(x, baseline + 1, one.pen))
            return x + one.pen
        top = baseline - SMALL * CAP / 2 - TICK / 2
        self.marks.ticks.append(Tick(x, top, TICK))
        return x + TICK

    def _has_room(self, height: float) -> bool:
        """Whether so much fits; what does not ends the column with a line that says so."""
        if not self.was_cut and self.y + height > self._foot:
            self.was_cut = True
            baseline = self.y + SMALL * (CAP + LINE) / 2
            self.marks.words.append(Words(self.left, baseline, _CUT, BOLD, SMALL))
            self.y += SMALL * LINE
        return not self.was_cut
