"""The shapes that tell the lines of hardware apart on a hole map, beside their letters.

Our own choice: no published code. Colour alone never tells two lines apart.
"""

from enum import StrEnum
from math import cos, pi, sin

from bagtag.domain.holes import Point

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Marks of lines, in turn: I and O are left out, they read as figures."""


class Shape(StrEnum):
    CIRCLE = "circle"
    SQUARE = "square"
    TRIANGLE = "triangle"
    DIAMOND = "diamond"
    HEXAGON = "hexagon"
    TRIANGLE_DOWN = "triangle point down"
    DOUBLE_CIRCLE = "double circle"
    DOUBLE_SQUARE = "double square"

    @property
    def is_double(self) -> bool:
        """Drawn a second time, smaller, inside itself."""
        return self in (Shape.DOUBLE_CIRCLE, Shape.DOUBLE_SQUARE)


def shape_of(mark: str) -> Shape:
    """The shape of a line of hardware by its mark: A a circle, B a square and so on, again from the
    first after the last. A hole of no line is a circle."""
    shapes = list(Shape)
    return shapes[_place(mark) % len(shapes)]


def letter(place: int) -> str:
    """The mark in that place, from 0: A, B, … Z, AA, AB, …"""
    more, own = divmod(place, len(LETTERS))
    return (letter(more - 1) if more else "") + LETTERS[own]


def corners(shape: Shape) -> tuple[Point, ...]:
    """The corners of a shape round (0, 0), y down, for a hole of radius 1; none for a circle.

    All shapes look about as large as the circle: none reaches further than 1.3 from the middle.
    """
    sides, start, reach = _CORNERS.get(shape, (0, 0.0, 0.0))
    turn = 2 * pi / sides if sides else 0.0
    return tuple(
        (reach * cos(start + turn * i), reach * sin(start + turn * i)) for i in range(sides)
    )


_CORNERS = {
    Shape.SQUARE: (4, pi / 4, 1.25),
    Shape.DOUBLE_SQUARE: (4, pi / 4, 1.25),
    Shape.TRIANGLE: (3, -pi / 2, 1.3),
    Shape.TRIANGLE_DOWN: (3, pi / 2, 1.3),
    Shape.DIAMOND: (4, 0.0, 1.3),
    Shape.HEXAGON: (6, 0.0, 1.1),
}
"""How many corners, the angle of the first in radians, and how far from the middle."""


def _place(mark: str) -> int:
    """The place of a mark in the row A, B, …; any other text counts by its letters."""
    if mark and all(sign in LETTERS for sign in mark):
        place = -1
        for sign in mark:
            place = (place + 1) * len(LETTERS) + LETTERS.index(sign)
        return place
    return sum(map(ord, mark))
