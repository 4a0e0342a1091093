"""What a which-way picture is made of: lines, arrows, circles, boxes and lettering.

Lengths are in units of the picture's height: x runs from 0 to the picture's aspect, y from 0 to 1,
from the top left. Painters on paper and on screen draw the same list.
"""

from dataclasses import dataclass
from enum import StrEnum

from bagtag.domain import lettering

Bounds = tuple[float, float, float, float]
"""Left, top, right, bottom."""


class Ink(StrEnum):
    """What a stroke is for; each painter chooses its colour. Paper is the ground itself."""

    INK = "ink"
    ACCENT = "accent"
    FAINT = "faint"
    PAPER = "paper"


class Anchor(StrEnum):
    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True)
class Line:
    """A stroke with round ends."""

    x1: float
    y1: float
    x2: float
    y2: float
    weight: float
    ink: Ink = Ink.INK

    @property
    def bounds(self) -> Bounds:
        return _around(self.x1, self.y1, self.x2, self.y2, self.weight / 2)


@dataclass(frozen=True, slots=True)
class Arrow:
    """A stroke with a filled head, `head` long and as wide, whose tip is at (x2, y2)."""

    x1: float
    y1: float
    x2: float
    y2: float
    weight: float
    head: float
    ink: Ink = Ink.ACCENT

    @property
    def bounds(self) -> Bounds:
        tip, one, other, (bx, by) = self.outline
        sx, sy = (one[0] - bx, one[1] - by)
        share = self.weight / self.head if self.head else 0.0
        shaft = ((self.x1 + sx * share, self.y1 + sy * share),
                 (self.x1 - sx * share, self.y1 - sy * share))  # fmt: skip
        xs, ys = zip(tip, one, other, *shaft, strict=True)
        return (min(xs), min(ys), max(xs), max(ys))

    @property
    def outline(self) -> tuple[tuple[float, float], ...]:
        """The three corners of the head, the tip first, then the end of the shaft."""
        dx, dy = self.x2 - self.x1, self.y2 - self.y1
        length = (dx * dx + dy * dy) ** 0.5 or 1.0
        ux, uy = dx / length, dy / length
        bx, by = self.x2 - ux * self.head, self.y2 - uy * self.head
        half = self.head / 2
        sides = ((bx - uy * half, by + ux * half), (bx + uy * half, by - ux * half))
        return ((self.x2, self.y2), *sides, (bx, by))


@dataclass(frozen=True, slots=True)
class Circle:
    """`weight` is the stroke's; a filled one has none."""

    x: float
    y: float
    radius: float
    weight: float = 0.0
    filled: bool = False
    ink: Ink = Ink.INK

    @property
    def bounds(self) -> Bounds:
        return _around(self.x, self.y, self.x, self.y, self.radius + self.weight / 2)


@dataclass(frozen=True, slots=True)
class Box:
    """A box with rounded corners; the stroke runs along its edge, half of it outside."""

    x: float
    y: float
    width: float
    height: float
    weight: float = 0.0
    radius: float = 0.0
    filled: bool = False
    ink: Ink = Ink.INK

    @property
    def bounds(self) -> Bounds:
        right, bottom = self.x + self.width, self.y + self.height
        return _around(self.x, self.y, right, bottom, self.weight / 2)


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering; y is the line it stands on, `size` the font size."""

    x: float
    y: float
    text: str
    size: float
    anchor: Anchor = Anchor.MIDDLE
    bold: bool = False
    ink: Ink = Ink.INK

    @property
    def width(self) -> float:
        """At most this wide, in Roboto."""
        return lettering.width(self.text) * self.size

    @property
    def bounds(self) -> Bounds:
        left = self.x - self.width * _SHARE[self.anchor]
        bottom = self.y + lettering.depth(self.text) * self.size
        return (left, self.y - lettering.height(self.text) * self.size, left + self.width, bottom)


Item = Line | Arrow | Circle | Box | Text


@dataclass(frozen=True, slots=True)
class Picture:
    """A display list: every item lies within x 0..aspect, y 0..1."""

    items: tuple[Item, ...] = ()
    aspect: float = 1.0


@dataclass(frozen=True, slots=True)
class Cell:
    """A rectangle of the picture that one panel may draw in."""

    x: float
    y: float
    w: float
    h: float

    @property
    def right(self) -> float:
        return self.x + self.w

    @property
    def bottom(self) -> float:
        return self.y + self.h

    @property
    def cx(self) -> float:
        return self.x + self.w / 2

    @property
    def cy(self) -> float:
        return self.y + self.h / 2

    def inset(self, dx: float, dy: float | None = None) -> "Cell":
        dy = dx if dy is None else dy
        return Cell(self.x + dx, self.y + dy, max(self.w - 2 * dx, 0), max(self.h - 2 * dy, 0))

    def middle(self, w: float, h: float) -> "Cell":
        """The cell of at most this size in the middle of this one."""
        w, h = min(w, self.w), min(h, self.h)
        return Cell(self.cx - w / 2, self.cy - h / 2, w, h)

    def trimmed(
        self, *, left: float = 0, top: float = 0, right: float = 0, bottom: float = 0
    ) -> "Cell":
        w, h = self.w - left - right, self.h - top - bottom
        return Cell(self.x + left, self.y + top, max(w, 0), max(h, 0))


_SHARE = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}


def _around(*ends: float) -> Bounds:
    """The box round two points, `dx` and `dy` wider on each side: x1, y1, x2, y2, dx and dy."""
    x1, y1, x2, y2, dx, *rest = ends
    dy = rest[0] if rest else dx
    return (min(x1, x2) - dx, min(y1, y2) - dy, max(x1, x2) + dx, max(y1, y2) + dy)
