"""What the drawings of measuring are made of: parts cut through, measured lengths, dial gauges."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from math import ceil, cos, pi, sin

from bagtag.domain import lettering
from bagtag.domain.shapes import Anchor, Arrow, Box, Cell, Circle, Ink, Item, Line, Text

WIDE = 1.5
"""Every drawing is so many times as wide as it is high."""
BODY, THIN, FAINT = 0.012, 0.008, 0.005
HEAD, TAG, WORD, LEAST = 0.038, 0.048, 0.052, 0.034
_APART = 0.05

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing that takes the left `width` of the picture, and where in it each place is read, by
    the place's key. A place without a spot is told beside the drawing."""

    items: Sequence[Item]
    spots: Mapping[str, Point] = field(default_factory=dict)
    width: float = WIDE


def spread(count: int, low: float, high: float) -> list[float]:
    """So many spots with equal room about each of them."""
    step = (high - low) / max(count, 1)
    return [low + step * (place + 0.5) for place in range(count)]


def along(cells: int, room: Cell, gap: float) -> list[Cell]:
    """The room cut into cells beside each other."""
    wide = (room.w - gap * (cells - 1)) / cells
    return [Cell(room.x + n * (wide + gap), room.y, wide, room.h) for n in range(cells)]


def word(  # noqa: PLR0917  (where, what and how much room, as lettering is set)
    x: float,
    y: float,
    text: str,
    room: float,
    anchor: Anchor = Anchor.MIDDLE,
    size: float = WORD,
    ink: Ink = Ink.INK,
) -> list[Item]:
    """A line of lettering as large as fits; nothing where it cannot be read."""
    said, size = lettering.fit(text, room, size, LEAST)
    return [Text(x, y, said, size, anchor, ink=ink)] if said else []


def measured(x1: float, y1: float, x2: float, y2: float) -> list[Item]:
    """A length that is measured: an arrow to both ends."""
    x, y = (x1 + x2) / 2, (y1 + y2) / 2
    return [Arrow(x, y, *end, THIN, HEAD) for end in ((x1, y1), (x2, y2))]


def squeezed(x1: float, y1: float, x2: float, y2: float) -> list[Item]:
    """A gap too small to write in: two arrows from outside, pointing at its two ends."""
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    ux, uy = (x2 - x1) / length * 0.11, (y2 - y1) / length * 0.11
    return [
        Arrow(x1 - ux, y1 - uy, x1, y1, THIN, HEAD),
        Arrow(x2 + ux, y2 + uy, x2, y2, THIN, HEAD),
    ]


def cut(x: float, y: float, w: float, h: float) -> list[Item]:
    """A part cut through: its outline, hatched."""
    return [*hatching(x, y, w, h), Box(x, y, w, h, BODY)]


def hatching(x: float, y: float, w: float, h: float) -> Iterator[Item]:
    first = ceil((x + y) / _APART)
    last = int((x + y + w + h) / _APART)
    for step in range(first, last + 1):
        total = step * _APART
        start = max(x, total - y - h)
        end = min(x + w, total - y)
        if end - start > 0.01:
            yield Line(start, total - start, end, total - end, FAINT, Ink.FAINT)


def solid(x: float, y: float, w: float, h: float, radius: float = 0.0) -> Item:
    """A part seen from outside."""
    return Box(x, y, w, h, BODY, radius=radius)


def path(points: Sequence[Point], weight: float = BODY, ink: Ink = Ink.INK) -> list[Item]:
    return [Line(*one, *other, weight, ink) for one, other in pairwise(points)]


def arc(  # noqa: PLR0917  (a middle, a radius and two angles)
    x: float, y: float, radius: float, start: float, end: float, steps: int = 40
) -> list[Point]:
    """Points on a circle from one angle to another, in turns from 3 o'clock, clockwise."""
    ways = [2 * pi * (start + (end - start) * n / steps) for n in range(steps + 1)]
    return [(x + radius * cos(way), y + radius * sin(way)) for way in ways]


def middle_line(x1: float, y1: float, x2: float, y2: float) -> list[Item]:
    """The middle of something round: a thin line of dashes."""
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    count = max(round(length / 0.06), 1)
    dx, dy = (x2 - x1) / count, (y2 - y1) / count
    return [
        Line(x1 + dx * n, y1 + dy * n, x1 + dx * (n + 0.6), y1 + dy * (n + 0.6), FAINT, Ink.FAINT)
        for n in range(count)
    ]


def dial(x: float, y: float, dx: float, dy: float) -> list[Item]:
    """A dial gauge whose tip is at (x, y); (dx, dy) is the way from the tip to its face, 1 long."""
    stem, face = 0.17, 0.085
    cx, cy = x + dx * (stem + face), y + dy * (stem + face)
    barrel = (x + dx * 0.08, y + dy * 0.08, x + dx * stem, y + dy * stem)
    ticks = [
        Line(*near, *far, FAINT)
        for near, far in zip(
            arc(cx, cy, face * 0.75, 0, 1, 12), arc(cx, cy, face * 0.9, 0, 1, 12), strict=True
        )
    ]
    return [
        Circle(x + dx * 0.012, y + dy * 0.012, 0.012, filled=True),
        Line(x, y, x + dx * stem, y + dy * stem, THIN),
        Line(*barrel, 0.026),
        Circle(cx, cy, face, filled=True, ink=Ink.PAPER),
        Circle(cx, cy, face, BODY),
        *ticks,
        Line(cx, cy, cx + face * 0.45, cy - face * 0.5, THIN, Ink.ACCENT),
    ]


def narrowed(items: Sequence[Item], share: float, down: float) -> list[Item]:
    """The items drawn smaller, from the left edge, `down` lower."""
    return [_scaled(item, share, down) for item in items]


def _scaled(item: Item, share: float, down: float) -> Item:
    lengths = {
        name: getattr(item, name) * share
        for name in ("width", "height", "weight", "radius", "head", "size", "x", "x1", "x2")
        if name in item.__slots__
    }
    heights = {
        name: getattr(item, name) * share + down
        for name in ("y", "y1", "y2")
        if name in item.__slots__
    }
    return replace(item, **lengths, **heights)
