"""What stands in a printed block beside its words: frames, lines to write on, pictures, codes.

Lengths are in points, x right of and y below the block's top left corner.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from bagtag.domain.shapes import Picture
from bagtag.paper import ink, picture, qr
from bagtag.paper.fonts import BOLD, REGULAR, width
from bagtag.paper.ink import HAIR, INK, RGB, SOFT

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas


@dataclass(frozen=True, slots=True)
class Frame:
    """A box, to write in or to tick; filled it has no outline."""

    x: float
    y: float
    width: float
    height: float
    colour: RGB = HAIR
    weight: float = 0.6
    filled: bool = False

    def paint(self, canvas: "Canvas", left: float, top: float) -> None:
        x, y = left + self.x, top - self.y - self.height
        if self.filled:
            ink.bar(canvas, x, y, width=self.width, height=self.height, colour=self.colour)
            return
        canvas.setStrokeColorRGB(*self.colour)
        canvas.setLineWidth(self.weight)
        canvas.rect(x, y, self.width, self.height, stroke=1, fill=0)


@dataclass(frozen=True, slots=True)
class Rule:
    """A line to write on, or one that parts rows."""

    x: float
    y: float
    width: float
    colour: RGB = SOFT
    weight: float = 0.6

    def paint(self, canvas: "Canvas", left: float, top: float) -> None:
        x, y = left + self.x, top - self.y
        ink.rule(canvas, x, y, self.width, colour=self.colour, weight=self.weight)


@dataclass(frozen=True, slots=True)
class Drawing:
    """A display list, as large as fits."""

    x: float
    y: float
    width: float
    height: float
    picture: Picture

    def paint(self, canvas: "Canvas", left: float, top: float) -> None:
        x, y = left + self.x, top - self.y - self.height
        picture.paint(canvas, self.picture, x, y, self.width, self.height, black=False)


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture file, as large as fits, at the top of its place; one that cannot be read leaves a
    word there."""

    x: float
    y: float
    width: float
    height: float
    file: Path

    def paint(self, canvas: "Canvas", left: float, top: float) -> None:
        x, y = left + self.x, top - self.y - self.height
        try:
            canvas.drawImage(
                str(self.file), x, y, self.width, self.height, preserveAspectRatio=True, anchor="n"
            )
        except (OSError, ValueError):
            at = y + self.height / 2
            ink.text(canvas, x + 4, at, "photo not readable", font=REGULAR, size=7.5, colour=SOFT)


@dataclass(frozen=True, slots=True)
class Middle:
    """Large words in the middle of a box: the number of a part that has no picture."""

    x: float
    y: float
    width: float
    height: float
    text: str
    size: float = 24.0

    def paint(self, canvas: "Canvas", left: float, top: float) -> None:
        wide = width(self.text, BOLD, 1)
        size = min(self.size, (self.width - 6) / wide) if wide else self.size
        x = left + self.x + (self.width - wide * size) / 2
        y = top - self.y - self.height / 2 - size * 0.355
        ink.text(canvas, x, y, self.text, font=BOLD, size=size, colour=INK)


@dataclass(frozen=True, slots=True)
class Symbol:
    """The QR symbol of a tag code, `module` points for each of its 21 modules."""

    x: float
    y: float
    code: str
    module: float

    def paint(self, canvas: "Canvas", left: float, top: float) -> None:
        canvas.setFillGray(0)
        qr.draw(canvas, self.code, left + self.x, top - self.y, self.module)


Mark = Frame | Rule | Drawing | Photo | Middle | Symbol
