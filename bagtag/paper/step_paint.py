"""Paints the steps: each at its place, in as few strokes of the PDF as it takes.

Lines of text that come again and pictures of parts that sit alike are set once a document.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from bagtag.paper import ink, qr
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.fonts import REGULAR
from bagtag.paper.ink import HAIR, INK, RGB, SOFT
from bagtag.paper.picture import paint
from bagtag.paper.step_card import CODE_AT, MODULE, PAD, PHOTO, WHICH_WAY, WIDTH, Card
from bagtag.paper.step_marks import Box, Caution, Marks, Tick, Words
from bagtag.paper.step_told import Told

if TYPE_CHECKING:
    from bagtag.paper.quick_canvas import QuickCanvas

_NO_PHOTO = "photo not readable"
_TICKED = ((0.18, 0.48), (0.42, 0.76), (0.86, 0.14))
_SHARP = ((0.5, 0.04), (0.98, 0.96), (0.02, 0.96))


class Painter:
    """Paints cards on one canvas."""

    def __init__(self, canvas: "QuickCanvas", told: Told) -> None:
        self.canvas, self._told = canvas, told
        self._set: dict[tuple[str, str, float], str] = {}
        self._drawn: dict[object, str] = {}

    def card(self, card: Card, left: float, top: float) -> None:
        """A card with its top left corner at (left, top), in points from the page's foot."""
        parts = [
            f"q 1 0 0 1 {left:.3f} {top:.3f} cm {_colour(HAIR)} RG .5 w 0 0 m {WIDTH:.2f} 0 l S",
            *self._strokes(card.marks),
            self._words(card.marks.words),
            self._picture(card.step),
            *self._drawings(card.marks),
            "Q",
        ]
        self.canvas.addLiteral(" ".join(parts))
        self._photo(card, left, top)
        self._code(card.step, left, top)

    def _strokes(self, marks: Marks) -> Iterator[str]:
        yield f"{_colour(INK)} RG 1 J 1 j"
        yield from map(_box, marks.boxes)
        yield from map(_tick, marks.ticks)
        yield from map(_caution, marks.cautions)
        for x, y, wide, weight in marks.rules:
            yield f"{weight:.2f} w {x:.2f} {-y:.2f} m {x + wide:.2f} {-y:.2f} l S"

    def _words(self, words: list[Words]) -> str:
        parts, last = ["BT"], None
        for x, y, text, font, size, colour in words:
            if colour != last:
                last = colour
                parts.append(f"{_colour(colour)} rg")
            parts.append(f"1 0 0 1 {x:.2f} {-y:.2f} Tm {self._line(text, font, size)}")
        return " ".join([*parts, "ET"])

    def _line(self, text: str, font: str, size: float) -> str:
        key = text, font, size
        if key not in self._set:
            self._set[key] = self.canvas.letters(text, font, size)
        return self._set[key]

    def _picture(self, step: ChecklistStep) -> str:
        """The which-way picture in the card's own corner."""
        if not step.facts:
            return ""
        key = self._told.key(step)
        if key not in self._drawn:
            at, wide, high = WHICH_WAY
            drawn = self._told.picture(step, wide / high)
            with self.canvas.aside() as strokes:
                paint(self.canvas, drawn, at, -PAD - high, wide, high, black=False)
            self._drawn[key] = " ".join(strokes)
        return self._drawn[key]

    def _drawings(self, marks: Marks) -> Iterator[str]:
        for x, y, wide, high, picture in marks.drawings:
            with self.canvas.aside() as strokes:
                paint(self.canvas, picture, x, -y - high, wide, high, black=False)
            yield " ".join(strokes)

    def _photo(self, card: Card, left: float, top: float) -> None:
        """Right of the words; one file is embedded once however often it is shown."""
        if card.step.thumbnail is None:
            return
        at, wide, high = PHOTO
        x, y, file = left + at, top - PAD - high, str(card.step.thumbnail)
        try:
            self.canvas.drawImage(file, x, y, wide, high, preserveAspectRatio=True, anchor="n")
        except (OSError, ValueError):
            card.complaints.append("its photo could not be read.")
            ink.text(self.canvas, x, y + high / 2, _NO_PHOTO, font=REGULAR, size=7.5, colour=SOFT)

    def _code(self, step: ChecklistStep, left: float, top: float) -> None:
        if step.code:
            self.canvas.setFillGray(0)
            qr.draw(self.canvas, step.code, left + CODE_AT, top - PAD, MODULE)


def _colour(colour: RGB) -> str:
    return "{:.3f} {:.3f} {:.3f}".format(*colour)


def _tick(tick: Tick) -> str:
    """A large box is drawn heavier than a small one, and so is its tick."""
    x, y, side, done = tick
    weight = 0.6 + side / 45
    box = f"{weight:.2f} w {x:.2f} {-y - side:.2f} {side:.2f} {side:.2f} re S"
    return f"{box} {side / 9.5:.2f} w {_path(_TICKED, x, y, side)} S" if done else box


def _caution(caution: Caution) -> str:
    """The warning triangle with its mark of exclamation."""
    x, y, side = caution
    stem = _path(((0.5, 0.36), (0.5, 0.62)), x, y, side)
    dot = _path(((0.5, 0.79), (0.5, 0.8)), x, y, side)
    return f".8 w {_path(_SHARP, x, y, side)} s 1.1 w {stem} S {dot} S"


def _path(points: Sequence[tuple[float, float]], x: float, y: float, side: float) -> str:
    """Straight lines between points given as shares of a square."""
    (a, b), *rest = ((f"{x + side * a:.2f}", f"{-y - side * b:.2f}") for a, b in points)
    return " ".join([f"{a} {b} m", *(f"{a} {b} l" for a, b in rest)])


def _box(box: Box) -> str:
    """Filled without an outline, or an outline alone, which lies inside its edges."""
    x, y, wide, high, fill, weight = box
    if fill:
        return f"{_colour(fill)} rg {x:.2f} {-y - high:.2f} {wide:.2f} {high:.2f} re f"
    half = weight / 2
    inner = f"{wide - weight:.2f} {high - weight:.2f} re S"
    return f"{weight:.2f} w {x + half:.2f} {half - y - high:.2f} {inner}"
