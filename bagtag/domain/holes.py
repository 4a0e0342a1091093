"""A hole map: where the holes of a part are, and which fastener goes into each."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import hypot
from typing import Any

from bagtag.domain.torque import Length

Point = tuple[float, float]


class OrderKind(StrEnum):
    """How the order of tightening is found."""

    STAR = "crosswise"
    CENTRE = "from the centre outwards"
    ROUND = "one after the other"
    GIVEN = "by hand"


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole by its number. `x` runs to the right and `y` down, in the map's own units; `mark` is
    the letter of the line of hardware that goes into it, `group` the group it is tightened with."""

    number: int
    x: float
    y: float
    mark: str = ""
    group: str = ""


@dataclass(frozen=True, slots=True)
class Scale:
    """A known distance between the middles of two holes."""

    first: int
    second: int
    distance: Length


@dataclass(frozen=True, slots=True)
class HoleMap:
    """The holes of one part.

    They lie on a photo (`photo` is its hash, the units its pixels, upright) or on a drawn `outline`
    (units: mm), in a field `width` by `height`. `given` is the order by hand, by hole numbers;
    `seen_from` says from which side one looks.
    """

    holes: tuple[Hole, ...] = ()
    photo: str = ""
    outline: tuple[Point, ...] = ()
    width: float = 200.0
    height: float = 150.0
    scale: Scale | None = None
    order: OrderKind = OrderKind.STAR
    given: tuple[int, ...] = ()
    seen_from: str = ""

    def hole(self, number: int) -> Hole | None:
        return next((hole for hole in self.holes if hole.number == number), None)

    def millimetres_per_unit(self) -> float | None:
        """The scale; None on a photo without a known distance."""
        if self.scale is None:
            return None if self.photo else 1.0
        first, second = self.hole(self.scale.first), self.hole(self.scale.second)
        if first is None or second is None:
            return None
        apart = hypot(first.x - second.x, first.y - second.y)
        return self.scale.distance.millimetres() / apart if apart else None


def to_data(found: HoleMap) -> dict[str, Any]:
    """A hole map as plain JSON data."""
    scale = found.scale
    return {
        "holes": [[h.number, h.x, h.y, h.mark, h.group] for h in found.holes],
        "photo": found.photo,
        "outline": [list(point) for point in found.outline],
        "size": [found.width, found.height],
        "scale": [scale.first, scale.second, scale.distance.value, scale.distance.unit]
        if scale
        else None,
        "order": found.order.value,
        "given": list(found.given),
        "seen_from": found.seen_from,
    }


def from_data(data: Mapping[str, Any]) -> HoleMap:
    """The hole map in plain JSON data."""
    scale = data["scale"]
    return HoleMap(
        holes=tuple(Hole(*item) for item in data["holes"]),
        photo=data["photo"],
        outline=tuple((x, y) for x, y in data["outline"]),
        width=data["size"][0],
        height=data["size"][1],
        scale=Scale(scale[0], scale[1], Length(scale[2], scale[3])) if scale else None,
        order=OrderKind(data["order"]),
        given=tuple(data["given"]),
        seen_from=data["seen_from"],
    )
