"""Where the holes of a pattern are: a ring, a grid or a row, from figures as they are typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import cos, radians, sin

from bagtag.domain.hole_places import MOST_AT_ONCE, TWELVE, grid, ring, row
from bagtag.domain.holes import Point
from bagtag.ui.forms.figures import figure


class Pattern(StrEnum):
    RING = "Ring"
    GRID = "Grid"
    ROW = "Row"


@dataclass(frozen=True, slots=True)
class Figures:
    """What the fields of a pattern say, None for what cannot be read: how many and how many rows;
    the diameter, the length or the step across, the step down; an angle in degrees."""

    many: int | None
    down: int | None
    size: float | None
    high: float | None
    turn: float


def points_of(
    kind: Pattern, figures: Figures, share: float, start: Point | None, middle: Point
) -> Sequence[Point] | None:
    """The holes, in units of the map of `share` mm each; from `start`, else round the `middle`.
    None while a figure is wanting, BadInput for one that cannot be."""
    if not figures.many or not figures.size or figures.many > MOST_AT_ONCE:
        return None
    size = figures.size / share
    if kind is Pattern.RING:
        return ring(figures.many, start or middle, abs(size) / 2, TWELVE + figures.turn)
    if kind is Pattern.GRID:
        return _grid(figures, size, share, start, middle)
    turn = radians(figures.turn)
    across, down = size * cos(turn), size * sin(turn)
    x, y = start or (middle[0] - across / 2, middle[1] - down / 2)
    return row(figures.many, (x, y), (x + across, y + down))


def _grid(
    figures: Figures, step: float, share: float, start: Point | None, middle: Point
) -> Sequence[Point] | None:
    columns, rows = figures.many, figures.down
    if not columns or not rows or not figures.high or rows * columns > MOST_AT_ONCE:
        return None
    high = figures.high / share
    wide, tall = step * (columns - 1), high * (rows - 1)
    x, y = start or (middle[0] - wide / 2, middle[1] - tall / 2)
    corner = (min(x, x + wide), min(y, y + tall))  # it goes on from the top left, however begun
    return grid(columns, rows, corner, abs(step), abs(high))


def rounded(value: float) -> float:
    """As exact as one can click: a tenth, and hundreds without."""
    return round(value) if abs(value) >= 100 else round(value, 1)


def signed(text: str) -> float | None:
    """A figure that may be below zero, or zero."""
    typed = text.strip().replace("−", "-")
    if typed.startswith("-"):
        found = figure(typed[1:])
        return None if found is None else -found
    if typed and not typed.strip("0.,"):
        return 0.0
    return figure(typed)
