"""What a 1:1 template says: holes in millimetres with their fasteners, plain rows, no PDF."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import combinations
from math import hypot

from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_check import counts, marked
from bagtag.domain.hole_counts import holes_named
from bagtag.domain.holes import Hole, HoleMap, Point

NO_SIDE = (
    "Nobody said from which side the holes are seen: a template turned over fits nowhere. "
    "Say it in the hole map."
)
FROM_PHOTO = (
    "The holes are taken from a photo: they are true only where it was taken square-on, from far "
    "off, onto one flat face."
)
NO_SIZE = "No size is known for {holes}: only the middle is marked."


@dataclass(frozen=True, slots=True)
class TemplateHole:
    """A hole at its place in mm; `diameter` is its fastener's in mm, None where it is not known;
    `size` as in `M8x35`."""

    number: int
    x: float
    y: float
    mark: str = ""
    size: str = ""
    diameter: float | None = None


@dataclass(frozen=True, slots=True)
class Template:
    """Everything that is printed. Lengths in mm, y downwards; `lines` are mark, hardware and holes
    of each line; `check` is a distance to measure on the part."""

    title: str
    part: str
    printed: date
    holes: tuple[TemplateHole, ...]
    outline: tuple[Point, ...] = ()
    lines: tuple[tuple[str, str], ...] = ()
    seen_from: str = ""
    check: str = ""
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TemplateReport:
    """What was printed, and what to be wary of."""

    sheets: int
    warnings: tuple[str, ...]


def template_of(
    hole_map: HoleMap,
    held_by: Sequence[HeldBy],
    diameter: Callable[[str], float | None],
    *,
    title: str,
    part: str,
    printed: date,
) -> Template:
    """The template of a part; `diameter` gives the nominal one in mm of a thread as written.

    BadInput without holes and without a scale.
    """
    scale = _scale(hole_map)
    lines = {line.mark: line for line in marked(held_by)}
    holes = tuple(_hole(hole, lines, diameter, scale) for hole in hole_map.holes)
    return Template(
        title=title,
        part=part,
        printed=printed,
        holes=holes,
        outline=tuple((x * scale, y * scale) for x, y in hole_map.outline),
        lines=tuple(_legend(lines, holes)),
        seen_from=hole_map.seen_from.strip(),
        check=_check(hole_map, scale),
        warnings=(*_warnings(hole_map, holes), *counts(hole_map, held_by)),
    )


def _scale(hole_map: HoleMap) -> float:
    """Millimetres per unit of the map."""
    if not hole_map.holes:
        raise BadInput("There are no holes on this map yet. Put them on it first.", field="holes")
    scale = hole_map.millimetres_per_unit()
    if scale is None:
        raise BadInput(
            "This map has no scale yet. Measure from the middle of one hole to the middle of "
            "another, and enter the two numbers and the distance.",
            field="scale",
        )
    return scale


def _hole(
    hole: Hole,
    lines: dict[str, HeldBy],
    diameter: Callable[[str], float | None],
    scale: float,
) -> TemplateHole:
    line = lines.get(hole.mark)
    size = line.size() if line is not None else ""
    wide = diameter(line.thread) if line is not None and line.thread else None
    return TemplateHole(hole.number, hole.x * scale, hole.y * scale, hole.mark, size, wide)


def _legend(lines: dict[str, HeldBy], holes: Sequence[TemplateHole]) -> list[tuple[str, str]]:
    said = []
    for mark, line in sorted(lines.items()):
        numbers = [hole.number for hole in holes if hole.mark == mark]
        if numbers:
            said.append((mark, f"{line.called()}: {holes_named(numbers)}"))
    none = [hole.number for hole in holes if hole.mark not in lines]
    return [*said, ("", f"without a fastener: {holes_named(none)}")] if none else said


def _check(hole_map: HoleMap, scale: float) -> str:
    """The widest distance across what the scale was taken from: there a slanted photo shows."""
    pair = _widest(hole_map)
    if pair is None:
        return ""
    first, second = sorted(pair, key=lambda hole: hole.number)
    apart = hypot(first.x - second.x, first.y - second.y) * scale
    return f"Hole {first.number} to hole {second.number}: {apart:.1f} mm. Check it on the part."


def _widest(hole_map: HoleMap) -> tuple[Hole, Hole] | None:
    """Of those that reach as far across the one that runs the least along."""
    along = _direction(hole_map)

    def across(pair: tuple[Hole, Hole]) -> tuple[float, float]:
        dx, dy = pair[1].x - pair[0].x, pair[1].y - pair[0].y
        if along is None:
            return hypot(dx, dy), 0.0
        return round(abs(dx * along[1] - dy * along[0]), 6), -abs(dx * along[0] + dy * along[1])

    known = {hole_map.scale.first, hole_map.scale.second} if hole_map.scale else set()
    pairs = [
        pair for pair in combinations(hole_map.holes, 2) if {hole.number for hole in pair} != known
    ]
    return max(pairs, key=across) if pairs else None


def _direction(hole_map: HoleMap) -> Point | None:
    """The way the known distance runs, where there is one."""
    if hole_map.scale is None:
        return None
    first, second = hole_map.hole(hole_map.scale.first), hole_map.hole(hole_map.scale.second)
    if first is None or second is None:
        return None
    apart = hypot(second.x - first.x, second.y - first.y)
    return ((second.x - first.x) / apart, (second.y - first.y) / apart) if apart else None


def _warnings(hole_map: HoleMap, holes: Sequence[TemplateHole]) -> list[str]:
    unknown = [hole.number for hole in holes if hole.diameter is None]
    said = [] if hole_map.seen_from.strip() else [NO_SIDE]
    said += [FROM_PHOTO] if hole_map.photo else []
    return said + ([NO_SIZE.format(holes=holes_named(unknown))] if unknown else [])
