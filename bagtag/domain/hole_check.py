"""A hole map looked over: figures that cannot be, holes against fasteners, which goes where."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from math import hypot, isfinite

from bagtag.domain.entry import NAME_LIMIT, clean_text
from bagtag.domain.errors import BadInput
from bagtag.domain.hole_counts import counts, holes_of, line_of, marked
from bagtag.domain.hole_shapes import Shape, corners, shape_of
from bagtag.domain.holes import Hole, HoleMap, Scale

__all__ = [
    "Shape",
    "checked",
    "corners",
    "counts",
    "holes_of",
    "line_of",
    "marked",
    "shape_of",
]

MOST_HOLES = 999
MARK_LIMIT = 3
_SAME_PLACE = 0.001
"""Two holes nearer than this share of the field's longer side are one hole put twice."""


def checked(hole_map: HoleMap) -> HoleMap:
    """The map with its texts made clean; BadInput where it cannot be. A hole of a line that is not
    among the hardware is told by `counts`, not refused."""
    _check_field(hole_map)
    holes = tuple(_hole(hole, hole_map) for hole in hole_map.holes)
    _check_numbers(holes)
    _check_places(holes, hole_map)
    _check_given(hole_map)
    if hole_map.scale is not None:
        _check_scale(hole_map.scale, hole_map)
    seen_from = clean_text(
        hole_map.seen_from, limit=NAME_LIMIT, field="seen_from", what="Where it is seen from"
    )
    return replace(hole_map, holes=holes, seen_from=seen_from)


def _check_field(hole_map: HoleMap) -> None:
    if not all(isfinite(side) and side > 0 for side in (hole_map.width, hole_map.height)):
        raise BadInput("The field of the map has no size. Give its width and height.", field="size")
    if not all(isfinite(figure) for point in hole_map.outline for figure in point):
        raise BadInput("The outline has a point that is nowhere. Draw it again.", field="outline")
    if len(hole_map.outline) in (1, 2):
        raise BadInput("An outline has three corners or more. Draw it again.", field="outline")
    if len(hole_map.holes) > MOST_HOLES:
        raise BadInput(
            f"A map has {MOST_HOLES} holes at most, and this one {len(hole_map.holes)}. "
            "Make a map for each side.",
            field="holes",
        )


def _hole(hole: Hole, hole_map: HoleMap) -> Hole:
    if not (isfinite(hole.x) and isfinite(hole.y)):
        raise _wrong(f"Hole {hole.number} is nowhere: its place is no number. Put it again.")
    inside = 0 <= hole.x <= hole_map.width and 0 <= hole.y <= hole_map.height
    if hole_map.photo and not inside:
        raise _wrong(f"Hole {hole.number} lies beside the photo. Move it onto it or delete it.")
    what = f"The group of hole {hole.number}"
    group = clean_text(hole.group, limit=NAME_LIMIT, field="holes", what=what)
    mark = clean_text(hole.mark, limit=MARK_LIMIT, field="holes", what="The letter of a line")
    return replace(hole, group=group, mark=mark)


def _wrong(sentence: str, field: str = "holes") -> BadInput:
    return BadInput(sentence, field=field)


def _check_numbers(holes: Sequence[Hole]) -> None:
    seen = set[int]()
    for hole in holes:
        if isinstance(hole.number, bool) or not isinstance(hole.number, int) or hole.number < 1:
            raise _wrong(f"A hole's number is 1 or more, not {hole.number}. Renumber the holes.")
        if hole.number in seen:
            raise _wrong(f"Two holes have the number {hole.number}. Give one of them another.")
        seen.add(hole.number)


def _check_places(holes: Sequence[Hole], hole_map: HoleMap) -> None:
    near = _SAME_PLACE * max(hole_map.width, hole_map.height)
    row = sorted(holes, key=lambda hole: hole.x)
    for i, first in enumerate(row):
        for second in row[i + 1 :]:
            if second.x - first.x > near:
                break
            if hypot(second.x - first.x, second.y - first.y) <= near:
                low, high = sorted((first.number, second.number))
                raise _wrong(f"Holes {low} and {high} are in one place. Move or delete one.")


def _check_given(hole_map: HoleMap) -> None:
    numbers = {hole.number for hole in hole_map.holes}
    for number in hole_map.given:
        if number not in numbers:
            raise _wrong(
                f"The order by hand names hole {number}, and there is none. Take it out.", "given"
            )
    twice = next((a for a, b in pairwise(sorted(hole_map.given)) if a == b), None)
    if twice is not None:
        raise _wrong(f"The order by hand has hole {twice} twice. Take one out.", "given")


def _check_scale(scale: Scale, hole_map: HoleMap) -> None:
    distance, unit = scale.distance.value, scale.distance.unit
    if scale.first == scale.second:
        raise _wrong("A scale needs two holes, and this is one twice. Choose another.", "scale")
    for number in (scale.first, scale.second):
        if hole_map.hole(number) is None:
            raise _wrong(
                f"The scale is from hole {number}, and there is none. Choose two holes.", "scale"
            )
    if unit not in ("mm", "in"):
        raise _wrong(f"The distance is in mm or in, not {unit!r}. Correct it.", "scale")
    if not (isfinite(distance) and distance > 0):
        raise _wrong(
            f"The distance between two holes is above zero, not {distance:g}. Measure it from "
            "middle to middle.",
            "scale",
        )
