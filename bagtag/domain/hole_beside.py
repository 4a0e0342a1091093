"""Small numbers beside the holes of a map and arrows between them, so that nothing runs through
anything else. Lengths in units of the picture's height."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from bagtag.domain import lettering
from bagtag.domain.hole_meet import Segment, cuts, distance, meet, turned
from bagtag.domain.holes import Point
from bagtag.domain.shapes import Anchor, Arrow, Bounds, Ink, Text

_WAYS = (0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6, 7, -7, 8)
"""Directions that are tried, in sixteenths of a turn away from the wished one."""

_ALIKE: tuple[Point | None, ...] = (None, (0.0, -1.0), (0.0, 1.0), (1.0, 0.0), (-1.0, 0.0))
"""Where all numbers may stand alike: outwards, above, below, right, left."""

_ROOM = 0.14
"""Space kept round a text, in font sizes."""


@dataclass(frozen=True, slots=True)
class Spots:
    """Holes as they are drawn: their middles, how far each reaches, the radius of a ring, and the
    box that all is drawn in."""

    middles: Sequence[Point]
    reaches: Sequence[float]
    radius: float
    box: Bounds


def arrows(spots: Spots, way: Sequence[int], weight: float, ink: Ink) -> list[Arrow]:
    """Thin arrows from each hole of `way` (places in `middles`) to the next, where no other hole is
    in between and there is room for one."""
    found = []
    for first, second in pairwise(way):
        segment = _shortened(spots, first, second)
        if segment is not None and not _is_barred(spots, segment, {first, second}):
            (x1, y1), (x2, y2) = segment
            found.append(Arrow(x1, y1, x2, y2, weight, spots.radius * 0.6, ink))
    return found


def _shortened(spots: Spots, first: int, second: int) -> Segment | None:
    """From edge to edge; None where the two are too near for an arrow."""
    (x1, y1), (x2, y2) = spots.middles[first], spots.middles[second]
    apart, gap = hypot(x2 - x1, y2 - y1), spots.radius * 0.2
    start, end = spots.reaches[first] + gap, spots.reaches[second] + gap
    if apart - start - end < spots.radius * 1.2:
        return None
    ux, uy = (x2 - x1) / apart, (y2 - y1) / apart
    return ((x1 + ux * start, y1 + uy * start), (x2 - ux * end, y2 - uy * end))


def _is_barred(spots: Spots, segment: Segment, ends: set[int]) -> bool:
    near = spots.radius * 0.15
    holes = enumerate(zip(spots.middles, spots.reaches, strict=True))
    return any(
        i not in ends and distance(middle, segment) < reach + near for i, (middle, reach) in holes
    )


def alike(
    spots: Spots, texts: Sequence[str], barred: Sequence[Segment], style: Text
) -> list[Text] | None:
    """Each text beside its hole, all of them on the same side; None where one finds no room.
    `barred` are strokes that no text may touch; `style` says size, weight and ink."""
    for way in _ALIKE:
        found = _Placing(spots, barred, style).all(texts, way, (0,))
        if found is not None:
            return found
    return None


def anywhere(
    spots: Spots, texts: Sequence[str], barred: Sequence[Segment], style: Text
) -> list[Text] | None:
    """The same, each text on the side that has room, outwards first."""
    return _Placing(spots, barred, style).all(texts, None, _WAYS)


class _Placing:
    """Puts texts one by one, and knows what is taken already."""

    def __init__(self, spots: Spots, barred: Sequence[Segment], style: Text) -> None:
        self._spots, self._barred, self._style = spots, barred, style
        self._centre = _centre(spots.middles)
        self._taken: list[Bounds] = []

    def all(
        self, texts: Sequence[str], way: Point | None, turns: Sequence[int]
    ) -> list[Text] | None:
        """Every text, that way from its hole or, where it is None, outwards."""
        found = []
        for place, text in enumerate(texts):
            middle = self._near(place, text, way or self._outwards(place), turns) if text else None
            if middle is not None:
                found.append(self._set(middle, text))
            elif text:
                return None
        return found

    def _outwards(self, place: int) -> Point:
        (x, y), (cx, cy) = self._spots.middles[place], self._centre
        out = hypot(x - cx, y - cy)
        return ((x - cx) / out, (y - cy) / out) if out > self._spots.radius else (0.0, -1.0)

    def _near(self, place: int, text: str, way: Point, turns: Sequence[int]) -> Point | None:
        size = self._style.size
        wide = (lettering.width(text) / 2 + _ROOM) * size
        high = (lettering.CAP / 2 + _ROOM) * size
        for turn in turns:
            dx, dy = turned(way, turn)
            off = self._spots.reaches[place] + abs(dx) * wide + abs(dy) * high
            x = self._spots.middles[place][0] + dx * off
            y = self._spots.middles[place][1] + dy * off
            bounds = (x - wide, y - high, x + wide, y + high)
            if self._is_free(bounds, (x, y), place, off):
                self._taken.append(bounds)
                return (x, y)
        return None

    def _is_free(self, bounds: Bounds, middle: Point, place: int, off: float) -> bool:
        left, top, right, bottom = self._spots.box
        across, down = left <= bounds[0] and bounds[2] <= right, top <= bounds[1]
        return (
            across
            and down
            and bounds[3] <= bottom
            and not any(meet(bounds, other) for other in self._taken)
            and not self._is_near_another(bounds, middle, place, off)
            and not any(cuts(segment, bounds) for segment in self._barred)
        )

    def _is_near_another(self, bounds: Bounds, text: Point, own: int, off: float) -> bool:
        """Whether it would touch a hole, or could be taken for another one's."""
        for place, (x, y) in enumerate(self._spots.middles):
            dx = max(bounds[0] - x, x - bounds[2], 0.0)
            dy = max(bounds[1] - y, y - bounds[3], 0.0)
            if hypot(dx, dy) < self._spots.reaches[place] * (0.99 if place == own else 1.0):
                return True
            if place != own and hypot(text[0] - x, text[1] - y) < 1.25 * off:
                return True
        return False

    def _set(self, middle: Point, text: str) -> Text:
        style = self._style
        base = middle[1] + style.size * lettering.CAP / 2
        return Text(middle[0], base, text, style.size, Anchor.MIDDLE, style.bold, style.ink)


def _centre(points: Sequence[Point]) -> Point:
    return (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
