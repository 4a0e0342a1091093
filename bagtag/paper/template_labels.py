"""Where the words beside a hole go: clear of holes, of their cross-hairs and of other words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, hypot

from bagtag.domain.holes import Point
from bagtag.paper.fonts import BOLD, REGULAR, tidy, width
from bagtag.paper.pdf import MM
from bagtag.paper.template_text import TemplateHole

SHAPE = 4.0
"""How wide and high the shape of a line's letter is drawn, in mm."""
NUMBER, SIZE = 11.0, 7.5
"""Font sizes in points."""
_GAP = 1.2
_ARM = 4.0
_STEP = 1.0
_NEAR = 80.0, 60.0
"""Words reach no further from their hole, in mm."""

Box = tuple[float, float, float, float]
"""Left, top, right, bottom in mm."""


@dataclass(frozen=True, slots=True)
class Label:
    """The words of a hole with the top left corner of the box they fill, in the template's mm."""

    hole: TemplateHole
    x: float
    y: float
    width: float
    height: float


def arm(hole: TemplateHole) -> float:
    """How far the cross-hairs of a hole reach from its middle, in mm."""
    return (hole.diameter or 2.0) / 2 + _ARM


def said(hole: TemplateHole) -> str:
    """`A · M8x35`."""
    return " · ".join(part for part in (hole.mark, tidy(hole.size)) if part)


def edge_boxes(outline: Sequence[Point]) -> Iterator[Box]:
    """Small boxes along an outline in mm, that words keep clear of."""
    for (x, y), (to_x, to_y) in pairwise([*outline, *outline[:1]]):
        steps = ceil(hypot(to_x - x, to_y - y) / _STEP) or 1
        for step in range(steps):
            right, down = x + (to_x - x) * step / steps, y + (to_y - y) * step / steps
            yield right - _STEP / 2, down - _STEP / 2, right + _STEP / 2, down + _STEP / 2


def labels(holes: Sequence[TemplateHole], lines: Sequence[Box] = ()) -> Iterator[Label]:
    """One for each hole, clear of `lines` too, of seams and edges; where it is too tight, the one
    that covers least."""
    taken: list[Box] = []
    for hole in holes:
        wide, high = _size(hole)
        near = [other for other in holes if _apart(hole, other) < wide + 2 * arm(other) + 30]
        blocked = [box for other in near for box in _blocked(other)]
        close = [box for box in (*taken, *lines) if _is_near(box, hole)]
        spots = _spots(hole, wide, high)
        x, y = min(spots, key=lambda spot: _covered((*spot, spot[0] + wide, spot[1] + high),
                                                    [*blocked, *close]))  # fmt: skip
        taken.append((x, y, x + wide, y + high))
        yield Label(hole, x, y, wide, high)


def _size(hole: TemplateHole) -> tuple[float, float]:
    number = width(str(hole.number), BOLD, NUMBER) / MM + (SHAPE + 1 if hole.mark else 0)
    words = said(hole)
    return max(number, width(words, REGULAR, SIZE) / MM), 4.4 + (3.4 if words else 0)


def _is_near(box: Box, hole: TemplateHole) -> bool:
    return (
        box[0] - _NEAR[0] < hole.x < box[2] + _NEAR[0]
        and box[1] - _NEAR[1] < hole.y < box[3] + _NEAR[1]
    )


def _apart(one: TemplateHole, other: TemplateHole) -> float:
    return hypot(one.x - other.x, one.y - other.y)


def _blocked(hole: TemplateHole) -> tuple[Box, Box, Box]:
    """The hole itself and both cross-hairs."""
    x, y, half, reach = hole.x, hole.y, (hole.diameter or 2.0) / 2 + 0.5, arm(hole) + 0.5
    return (
        (x - half, y - half, x + half, y + half),
        (x - reach, y - 0.5, x + reach, y + 0.5),
        (x - 0.5, y - reach, x + 0.5, y + reach),
    )


def _spots(hole: TemplateHole, wide: float, high: float) -> list[tuple[float, float]]:
    """Top left corners, the best first: between two arms, then beyond the end of one."""
    near = (hole.diameter or 2.0) / 2 * 0.75 + _GAP
    far = arm(hole) + _GAP
    x, y = hole.x, hole.y
    close = [
        (x + near, y - near - high),
        (x + near, y + near),
        (x - near - wide, y - near - high),
        (x - near - wide, y + near),
    ]
    beyond = [
        (x + far, y - high / 2),
        (x - far - wide, y - high / 2),
        (x - wide / 2, y - far - high),
        (x - wide / 2, y + far),
    ]
    return close + beyond


def _covered(box: Box, others: Sequence[Box]) -> float:
    """How much of these a box lies over, in mm²."""
    total = 0.0
    for other in others:
        wide = min(box[2], other[2]) - max(box[0], other[0])
        high = min(box[3], other[3]) - max(box[1], other[1])
        if wide > 0 and high > 0:
            total += wide * high
    return total
