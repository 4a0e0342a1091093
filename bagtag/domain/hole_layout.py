"""Where the holes and the legend of a hole map's picture go. Lengths in units of its height."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import hypot, inf

from bagtag.domain import hole_legend
from bagtag.domain.hole_glyphs import reach
from bagtag.domain.hole_legend import Row
from bagtag.domain.holes import HoleMap, Point
from bagtag.domain.shapes import Bounds, Cell

LARGEST = 0.075
"""No hole is drawn with a larger radius than this."""

PAD = 0.02
_GAP = 0.04
"""Between holes and legend."""

_NARROWEST, _WIDEST, _WIDEST_LEGEND = 0.9, 2.4, 0.9
_MOST_BELOW = 3
"""More rows of a legend than this stand beside the holes rather than below."""

_MOST_HIGH = 0.5
"""A legend that would be higher than this is lettered smaller."""

_SMALLEST = 0.02
_LINE = 0.005
"""Half the width of an outline, and a little."""

_SHARE = 0.44
"""How far a hole's drawing reaches, as a share of the shortest way from one to another."""

_BESIDE = 1.1
"""The room that a small number takes beside a hole, in radii."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A layout: `scale` and `shift` turn the map's units into the picture's; `radius` is that of a
    hole."""

    aspect: float
    field: Cell
    legend: Cell
    size: float
    scale: float
    shift: Point
    radius: float

    def at(self, point: Point) -> Point:
        x, y = point
        return (self.shift[0] + x * self.scale, self.shift[1] + y * self.scale)

    @property
    def box(self) -> Bounds:
        return (self.field.x, self.field.y, self.field.right, self.field.bottom)


def planned(
    hole_map: HoleMap, rows: Sequence[Row], aspect: float | None, size: float, *, has_beside: bool
) -> Plan:
    """The layout at this aspect, or at the one that suits the holes. `has_beside` keeps room for
    small numbers round the holes; `size` is the legend's font size, made smaller where it must."""
    drawing = _Drawing(hole_map, has_beside=has_beside)
    shape = aspect or _natural(drawing, rows, size)
    size = _legible(rows, shape, size)
    ways = [(drawing.scale(field), field, legend) for field, legend in _ways(rows, shape, size)]
    scale, field, legend = max(ways, key=lambda way: way[0])
    left, top, right, bottom = drawing.bounds(scale, field)
    shift = (field.cx - (left + right) / 2, field.cy - (top + bottom) / 2)
    return Plan(shape, field, legend, size, scale, shift, drawing.radius(scale, field))


def _natural(drawing: "_Drawing", rows: Sequence[Row], size: float) -> float:
    """The aspect at which the holes fill what the legend leaves."""
    wide = min(hole_legend.width(rows, size), _WIDEST_LEGEND)
    if len(rows) > _MOST_BELOW:
        return drawing.wide(1 - 2 * PAD) + 2 * PAD + _GAP + wide
    below = len(rows) * hole_legend.LEADING * size + (_GAP if rows else 0.0)
    return max(drawing.wide(1 - 2 * PAD - below), wide, _NARROWEST - 2 * PAD) + 2 * PAD


def _legible(rows: Sequence[Row], aspect: float, size: float) -> float:
    while hole_legend.height(rows, aspect - 2 * PAD, size) > _MOST_HIGH and size > _SMALLEST:
        size *= 0.92
    return size


def _ways(rows: Sequence[Row], aspect: float, size: float) -> list[tuple[Cell, Cell]]:
    """The field and the legend: one below the other, and side by side."""
    whole = Cell(0, 0, aspect, 1).inset(PAD)
    high = hole_legend.height(rows, whole.w, size)
    gap = _GAP if rows else 0.0
    ways = [(whole.trimmed(bottom=high + gap), whole.trimmed(top=whole.h - high))]
    wide = min(hole_legend.width(rows, size) * 1.001, max(whole.w * 0.45, whole.w - 1))
    tall = hole_legend.height(rows, wide, size) if rows else whole.h + 1
    if tall <= whole.h:
        beside = whole.trimmed(left=whole.w - wide)
        ways.append((whole.trimmed(right=wide + gap), beside.middle(wide, tall)))
    return ways


class _Drawing:
    """Holes and outline of a map, as they need room."""

    def __init__(self, hole_map: HoleMap, *, has_beside: bool) -> None:
        points = [(hole.x, hole.y) for hole in hole_map.holes]
        self._holes, self._all = _round(points), _round([*points, *hole_map.outline])
        self._reach = max(reach(hole.mark) for hole in hole_map.holes)
        ways = (hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(points, 2))
        self._nearest = min(ways, default=inf)
        self._edge = self._reach * 1.06 + (_BESIDE if has_beside else 0.0)

    def wide(self, high: float) -> float:
        """How wide it is where it may be that high."""
        field = Cell(0, 0, _WIDEST, high)
        left, _, right, _ = self.bounds(self.scale(field), field)
        return right - left

    def scale(self, field: Cell) -> float:
        """The largest scale at which it fits, by halving: the edge depends on the scale too."""
        left, top, right, bottom = self._all
        sides = ((field.w, right - left), (field.h, bottom - top))
        low, high = 0.0, min((room / length for room, length in sides if length), default=1.0)
        for _ in range(30):
            half = (low + high) / 2
            low, high = (half, high) if self._fits(half, field) else (low, half)
        return low

    def radius(self, scale: float, field: Cell) -> float:
        most = min(LARGEST, min(field.w, field.h) / (2.2 * self._edge))
        return min(most, _SHARE * self._nearest * scale / self._reach)

    def bounds(self, scale: float, field: Cell) -> Bounds:
        """The box round all that is drawn, the map's origin at (0, 0)."""
        edge = self.radius(scale, field) * self._edge
        left, top, right, bottom = (side * scale for side in self._holes)
        outer = [side * scale for side in self._all]
        return (
            min(left - edge, outer[0] - _LINE),
            min(top - edge, outer[1] - _LINE),
            max(right + edge, outer[2] + _LINE),
            max(bottom + edge, outer[3] + _LINE),
        )

    def _fits(self, scale: float, field: Cell) -> bool:
        left, top, right, bottom = self.bounds(scale, field)
        return right - left <= field.w and bottom - top <= field.h


def _round(points: Sequence[Point]) -> Bounds:
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))
