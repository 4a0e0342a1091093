"""Where holes lie, put by figures or one by one; a map's holes numbered, moved and taken away."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from math import cos, radians, sin

from bagtag.domain.errors import BadInput
from bagtag.domain.holes import Hole, HoleMap, Point, Scale

TWELVE = -90.0
"""The angle of 12 o'clock: angles run clockwise from 3 o'clock, y down."""

MOST_AT_ONCE = 200


def ring(
    n: int, centre: Point, radius: float, start_angle: float = TWELVE, clockwise: bool = True
) -> tuple[Point, ...]:
    """n points on a circle, the first at `start_angle` in degrees."""
    _many(n, "A ring")
    _above_zero(radius, "radius of a ring")
    step = 360.0 / n if clockwise else -360.0 / n
    return tuple(_on_circle(centre, radius, start_angle + step * i) for i in range(n))


def grid(columns: int, rows: int, corner: Point, step_x: float, step_y: float) -> tuple[Point, ...]:
    """Rows of points from the top left `corner` on, each row from the left."""
    _many(columns, "A grid", "columns")
    _many(rows, "A grid", "rows")
    _many(columns * rows, "A grid")
    _above_zero(step_x, "step across")
    _above_zero(step_y, "step down")
    x, y = corner
    return tuple((x + step_x * i, y + step_y * j) for j in range(rows) for i in range(columns))


def row(n: int, start: Point, end: Point) -> tuple[Point, ...]:
    """n points from start to end, evenly; a single one half way."""
    _many(n, "A row")
    if n > 1 and start == end:
        raise BadInput("A row needs a start and an end apart from it. Move one of them.")
    shares = [i / (n - 1) for i in range(n)] if n > 1 else [0.5]
    (x1, y1), (x2, y2) = start, end
    return tuple((x1 + (x2 - x1) * share, y1 + (y2 - y1) * share) for share in shares)


def rectangle(left: float, top: float, width: float, height: float) -> tuple[Point, ...]:
    """An outline with four corners."""
    right, bottom = left + width, top + height
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def round_outline(centre: Point, radius: float, n: int = 72) -> tuple[Point, ...]:
    """A round outline of n short strokes."""
    return tuple(_on_circle(centre, radius, TWELVE + 360.0 * i / n) for i in range(n))


def numbered(
    hole_map: HoleMap, points: Sequence[Point], mark: str = "", group: str = ""
) -> HoleMap:
    """The map with holes at these points, numbered on from its highest number."""
    first = max((hole.number for hole in hole_map.holes), default=0) + 1
    holes = tuple(Hole(first + i, x, y, mark, group) for i, (x, y) in enumerate(points))
    return replace(hole_map, holes=hole_map.holes + holes)


def put(hole_map: HoleMap, point: Point, mark: str = "", group: str = "") -> HoleMap:
    """The map with one more hole, which gets the lowest free number."""
    taken = {hole.number for hole in hole_map.holes}
    number = next(n for n in range(1, len(taken) + 2) if n not in taken)
    return replace(hole_map, holes=(*hole_map.holes, Hole(number, *point, mark, group)))


def moved(hole_map: HoleMap, number: int, point: Point) -> HoleMap:
    """The map with one hole at another place."""
    x, y = point
    return _each(hole_map, lambda hole: replace(hole, x=x, y=y) if hole.number == number else hole)


def without(hole_map: HoleMap, *numbers: int) -> HoleMap:
    """The map without these holes; an order by hand goes on without them, a scale from one of them
    is gone. The others keep their numbers."""
    scale = hole_map.scale
    lost = scale is not None and ({scale.first, scale.second} & set(numbers))
    return replace(
        hole_map,
        holes=tuple(hole for hole in hole_map.holes if hole.number not in numbers),
        given=tuple(number for number in hole_map.given if number not in numbers),
        scale=None if lost else scale,
    )


def renumbered(hole_map: HoleMap, turn: Sequence[int] = ()) -> HoleMap:
    """The holes numbered from 1, those of `turn` (their numbers now) first and in that order, then
    the others as they are. Scale and order by hand go with their holes."""
    known = {hole.number for hole in hole_map.holes}
    named = [number for number in dict.fromkeys(turn) if number in known]
    now = {old: new for new, old in enumerate((*named, *sorted(known - set(named))), 1)}
    scale = hole_map.scale
    found = _each(hole_map, lambda hole: replace(hole, number=now[hole.number]))
    return replace(
        found,
        holes=tuple(sorted(found.holes, key=lambda hole: hole.number)),
        given=tuple(now[number] for number in hole_map.given if number in now),
        scale=Scale(now[scale.first], now[scale.second], scale.distance)
        if scale and {scale.first, scale.second} <= known
        else None,
    )


def _each(hole_map: HoleMap, made: Callable[[Hole], Hole]) -> HoleMap:
    return replace(hole_map, holes=tuple(made(hole) for hole in hole_map.holes))


def _on_circle(centre: Point, radius: float, angle: float) -> Point:
    turn = radians(angle)
    return (centre[0] + radius * cos(turn), centre[1] + radius * sin(turn))


def _many(n: int, what: str, of: str = "holes") -> None:
    if not 1 <= n <= MOST_AT_ONCE:
        raise BadInput(f"{what} has 1 to {MOST_AT_ONCE} {of}, not {n}.", field="pattern")


def _above_zero(figure: float, what: str) -> None:
    if not figure > 0:
        raise BadInput(f"The {what} is above zero, not {figure:g}.", field="pattern")
