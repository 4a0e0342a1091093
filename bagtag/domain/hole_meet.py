"""Whether strokes, texts and holes of a picture meet."""

from math import cos, hypot, pi, sin, sqrt

from bagtag.domain.holes import Point
from bagtag.domain.shapes import Bounds

Segment = tuple[Point, Point]


def meet(a: Bounds, b: Bounds) -> bool:
    """Whether two boxes overlap."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def cuts(segment: Segment, bounds: Bounds) -> bool:
    """Whether a stroke runs through a box (Liang and Barsky's clipping)."""
    (x1, y1), (x2, y2) = segment
    if not _may_meet(x1, x2, bounds[0], bounds[2]) or not _may_meet(y1, y2, bounds[1], bounds[3]):
        return False
    start, end = 0.0, 1.0
    for step, low, high in (
        (x2 - x1, bounds[0] - x1, bounds[2] - x1),
        (y2 - y1, bounds[1] - y1, bounds[3] - y1),
    ):
        if step:
            near, far = sorted((low / step, high / step))
            start, end = max(start, near), min(end, far)
        elif low > 0 or high < 0:
            return False
    return start <= end


def _may_meet(one: float, other: float, low: float, high: float) -> bool:
    return (one <= high or other <= high) and (one >= low or other >= low)


def distance(point: Point, segment: Segment) -> float:
    """From a point to the nearest of a stroke."""
    (x1, y1), (x2, y2) = segment
    dx, dy = x2 - x1, y2 - y1
    along = dx * dx + dy * dy
    share = ((point[0] - x1) * dx + (point[1] - y1) * dy) / along if along else 0.0
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - x1 - share * dx, point[1] - y1 - share * dy)


def outside(segment: Segment, middle: Point, radius: float) -> list[Segment]:
    """What of a stroke lies outside a circle: all of it, one or two pieces, or nothing."""
    (x1, y1), (x2, y2) = segment
    dx, dy, fx, fy = x2 - x1, y2 - y1, x1 - middle[0], y1 - middle[1]
    a, b, c = dx * dx + dy * dy, fx * dx + fy * dy, fx * fx + fy * fy - radius * radius
    under = b * b - a * c
    if a == 0 or under <= 0:
        return [segment] if c >= 0 or a else []
    enters, leaves = (-b - sqrt(under)) / a, (-b + sqrt(under)) / a
    if leaves <= 0 or enters >= 1:
        return [segment]
    pieces = [(0.0, enters)] if enters > 0 else []
    pieces += [(leaves, 1.0)] if leaves < 1 else []
    return [((x1 + dx * s, y1 + dy * s), (x1 + dx * e, y1 + dy * e)) for s, e in pieces]


def turned(way: Point, sixteenths: int) -> Point:
    """A direction turned clockwise, y down, by sixteenths of a turn."""
    turn = sixteenths * pi / 8
    x, y = way
    return (x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn))
