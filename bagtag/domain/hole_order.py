"""In which order the fasteners of a joint are tightened.

Crosswise on a ring is ASME PCC-1's cross pattern, on 4, 8, 12, … 32 holes exactly as its lists have
it (from memory; the one of 12 seen in print). From the centre outwards is common practice, no
source: published only as drawings.
"""

from bisect import bisect_right
from collections.abc import Sequence
from math import atan2, hypot, pi

from bagtag.domain.holes import Hole, HoleMap, OrderKind, Point

_ODD = {1: (0,), 3: (0, 1, 2), 5: (0, 2, 4, 1, 3), 7: (0, 3, 5, 1, 4, 6, 2)}
"""Odd numbers as the published lists of 12, 20 and 28 have them."""

_MIDDLE = 0.12
"""Nearer to the middle than this share of the furthest hole, a hole is in it."""

_LAYER = 0.06
"""Holes whose distances from the middle differ by less than this share of the largest are equally
far: a photo is not clicked more exactly."""
_ALIKE = 1e-5
"""Added to a limit, so that what lies on it does so whatever the map's units are."""


def star(n: int) -> tuple[int, ...]:
    """The cross pattern on a ring of n holes, as places 0 to n - 1 round the ring.

    An even ring takes each hole and the one opposite it, in the order of the half ring; an odd one
    is that of one hole more, without it. From six up no two neighbours follow one another.
    """
    if n in _ODD:
        return _ODD[n]
    if n % 2:
        return tuple(place for place in star(n + 1) if place < n)
    half = n // 2
    return tuple(place for first in star(half) for place in (first, first + half)) if n else ()


def order(
    hole_map: HoleMap, *, group: str = "", is_reversed: bool = False, is_round: bool = False
) -> tuple[int, ...]:
    """The numbers of the holes in turn.

    `group` is a group of holes or the mark of a line of hardware; without one all groups come one
    after the other, as their lowest holes do, or all holes as the order by hand has them.
    """
    if hole_map.order is OrderKind.GIVEN and not is_round:
        found = _by_hand(members(hole_map, group), hole_map.given)
    else:
        kind = OrderKind.ROUND if is_round else hole_map.order
        found = [n for holes in _groups(members(hole_map, group), group) for n in _in(kind, holes)]
    return tuple(reversed(found) if is_reversed else found)


def loosening(hole_map: HoleMap, *, group: str = "") -> tuple[int, ...]:
    """The order to loosen in: tightening backwards."""
    return order(hole_map, group=group, is_reversed=True)


def members(hole_map: HoleMap, group: str = "") -> tuple[Hole, ...]:
    """The holes of a group, or of the line with that mark where no group has the name; all of them
    for none. By number."""
    holes = sorted(hole_map.holes, key=lambda hole: hole.number)
    if not group:
        return tuple(holes)
    own = [hole for hole in holes if hole.group == group]
    return tuple(own or [hole for hole in holes if hole.mark == group])


def middle(points: Sequence[Point]) -> Point:
    """Half way between the outermost points, across and down."""
    xs, ys = zip(*points, strict=True)
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)


def centroid(points: Sequence[Point]) -> Point:
    """Where the points balance."""
    xs, ys = zip(*points, strict=True)
    return (sum(xs) / len(xs), sum(ys) / len(ys))


def crosswise(holes: Sequence[Hole]) -> tuple[int, ...]:
    """The cross pattern by angle round the centroid; what lies in it comes first."""
    inner, ring = _around(holes)
    return (*inner, *(ring[place] for place in star(len(ring))))


def round_about(holes: Sequence[Hole]) -> tuple[int, ...]:
    """From one hole to its neighbour, all the way round from the lowest number."""
    inner, ring = _around(holes)
    return (*inner, *ring)


def from_centre(holes: Sequence[Hole]) -> tuple[int, ...]:
    """From the middle outwards, the two ends of the joint's longer way in turn."""
    if not holes:
        return ()
    places = _from_middle(holes)
    along = 0 if _spread(places, 0) >= _spread(places, 1) else 1
    left = sorted((_far(x, y), number) for number, (x, y) in places.items())
    near, last = _LAYER * left[-1][0], (0.0, 0.0)
    found: list[int] = []
    while left:
        as_near = bisect_right(left, (left[0][0] + near + _ALIKE, max(places)))
        layer = {number: places[number] for _, number in left[:as_near]}
        found.append(_opposite(last, along, near, layer))
        last = places[found[-1]]
        left = [(far, number) for far, number in left if number != found[-1]]
    return tuple(found)


def _from_middle(holes: Sequence[Hole]) -> dict[int, Point]:
    """Places seen from the middle, the joint 1 wide or high; rounded, so that what is even on the
    part is even here whatever the map's units are."""
    points = [(hole.x, hole.y) for hole in holes]
    cx, cy = middle(points)
    size = max(max(abs(x - cx), abs(y - cy)) for x, y in points) or 1.0
    return {h.number: (round((h.x - cx) / size, 9), round((h.y - cy) / size, 9)) for h in holes}


def _far(x: float, y: float) -> float:
    return round(hypot(x, y), 6)


def _spread(places: dict[int, Point], along: int) -> float:
    figures = [place[along] for place in places.values()]
    return max(figures) - min(figures)


def _opposite(last: Point, along: int, near: float, layer: dict[int, Point]) -> int:
    """What to go to after a hole at `last`: to the other side where there is one, then to the most
    opposite, then to the lowest number; what differs by less than `near` is alike."""
    side = last[along] if abs(last[along]) > near else 0.0
    across = {n: place for n, place in layer.items() if place[along] * side <= 0} or layer
    off = {n: _far(x + last[0], y + last[1]) for n, (x, y) in across.items()}
    least = min(off.values())
    return min(number for number in off if off[number] <= least + near + _ALIKE)


def _groups(holes: Sequence[Hole], group: str) -> list[list[Hole]]:
    """The holes by group, each where its lowest number comes; one list where a group is asked."""
    found: dict[str, list[Hole]] = {}
    for hole in holes:
        found.setdefault("" if group else hole.group, []).append(hole)
    return list(found.values())


def _in(kind: OrderKind, holes: Sequence[Hole]) -> tuple[int, ...]:
    return _WAYS[kind](holes)


def _by_hand(holes: Sequence[Hole], given: Sequence[int]) -> list[int]:
    """As said by hand, then the rest by number."""
    numbers = [hole.number for hole in holes]
    named = [number for number in given if number in numbers]
    return [*named, *(number for number in numbers if number not in named)]


def _around(holes: Sequence[Hole]) -> tuple[list[int], list[int]]:
    """The numbers of the holes in the middle, and of the others by angle round it, from the lowest
    number on, the way round in which the next number is nearer."""
    if len(holes) < 2:
        return [], [hole.number for hole in holes]
    cx, cy = centroid([(hole.x, hole.y) for hole in holes])
    far = max(hypot(hole.x - cx, hole.y - cy) for hole in holes)
    inner = [h.number for h in holes if hypot(h.x - cx, h.y - cy) < _MIDDLE * far]
    ring = [hole for hole in holes if hole.number not in inner]
    first = ring[0]
    ring.sort(key=lambda h: (_angle(h, first, (cx, cy)), hypot(h.x - cx, h.y - cy), h.number))
    return inner, _their_way([hole.number for hole in ring])


def _angle(hole: Hole, first: Hole, centre: Point) -> float:
    """Clockwise from the first hole, 0 to a full turn."""
    cx, cy = centre
    turned = atan2(hole.y - cy, hole.x - cx) - atan2(first.y - cy, first.x - cx)
    return round(turned % (2 * pi), 9) % round(2 * pi, 9)


def _their_way(ring: list[int]) -> list[int]:
    if len(ring) < 3:
        return ring
    second = ring.index(sorted(ring)[1])
    return ring if second <= len(ring) / 2 else [ring[0], *reversed(ring[1:])]


_WAYS = {
    OrderKind.STAR: crosswise,
    OrderKind.CENTRE: from_centre,
    OrderKind.ROUND: round_about,
    OrderKind.GIVEN: round_about,
}
