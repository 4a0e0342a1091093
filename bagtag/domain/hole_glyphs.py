"""How one hole is drawn: the shape of its line with a number in it."""

from collections.abc import Iterable

from bagtag.domain import lettering
from bagtag.domain.hole_shapes import Shape, corners, shape_of
from bagtag.domain.holes import Point
from bagtag.domain.shapes import Anchor, Circle, Item, Line, Text

_DIGITS = {1: 1.45, 2: 1.16, 3: 0.8}
"""How large lettering of so many signs is in a circle of radius 1."""

_TIGHT = {Shape.TRIANGLE: 0.86, Shape.TRIANGLE_DOWN: 0.86, Shape.DOUBLE_CIRCLE: 0.84,
          Shape.DOUBLE_SQUARE: 0.9}  # fmt: skip
"""Shapes with less room inside than a circle, as a share of it."""

_LOWER = {Shape.TRIANGLE: 0.17, Shape.TRIANGLE_DOWN: -0.17}
"""How far down the widest room lies, in radii."""

_DOUBLE = (1.04, 0.84)
_TICK = 1.25


def reach(mark: str) -> float:
    """How far the drawing of a hole of that line goes from its middle, in radii."""
    if not mark:
        return _TICK
    points = corners(shape_of(mark))
    share = _DOUBLE[0] if shape_of(mark).is_double else 1.0
    return share * max((max(abs(x), abs(y), (x * x + y * y) ** 0.5) for x, y in points), default=1)


def glyph(mark: str, middle: Point, radius: float, weight: float) -> list[Item]:
    """The shape of that line's mark; a ring with four ticks for a hole of no line."""
    x, y = middle
    if not mark:
        return [Circle(x, y, radius * 0.9, weight), *_ticks(x, y, radius, weight)]
    shape = shape_of(mark)
    shares = _DOUBLE if shape.is_double else (1.0,)
    return [item for share in shares for item in _drawn(shape, middle, radius * share, weight)]


def number(text: str, mark: str, middle: Point, radius: float, size: float) -> Text:
    """The number in a hole, bold."""
    down = _LOWER.get(shape_of(mark), 0.0) * radius if mark else 0.0
    base = middle[1] + down + size * lettering.CAP / 2
    return Text(middle[0], base, text, size, Anchor.MIDDLE, bold=True)


def number_size(texts: Iterable[str], marks: Iterable[str], radius: float) -> float:
    """One font size for all the numbers in holes of these lines."""
    room = min((_TIGHT.get(shape_of(mark), 1.0) for mark in marks if mark), default=1.0)
    longest = max(map(len, texts), default=1)
    return radius * room * _DIGITS.get(longest, 2.4 / longest)


def _drawn(shape: Shape, middle: Point, radius: float, weight: float) -> list[Item]:
    x, y = middle
    points = [(x + px * radius, y + py * radius) for px, py in corners(shape)]
    if not points:
        return [Circle(x, y, radius, weight)]
    ends = zip(points, [*points[1:], points[0]], strict=True)
    return [Line(x1, y1, x2, y2, weight) for (x1, y1), (x2, y2) in ends]


def _ticks(x: float, y: float, radius: float, weight: float) -> list[Item]:
    inner, outer = radius * 0.9, radius * _TICK
    ways = ((1, 0), (-1, 0), (0, 1), (0, -1))
    return [
        Line(x + dx * inner, y + dy * inner, x + dx * outer, y + dy * outer, weight)
        for dx, dy in ways
    ]
