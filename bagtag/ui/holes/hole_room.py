"""Where the numbers and turns of a crowded map have room, none on another and none on a hole.

Worked out for one closeness of the map and kept: moving the map about changes nothing in it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import cos, pi, sin
from typing import NamedTuple

from bagtag.domain.holes import Point

WAYS = 16
"""The sides of a hole that its number can stand at."""
ABOVE, BELOW = 12, 4
_CELL = 96.0

Key = tuple[str, int]
Box = tuple[float, float, float, float]
"""Left, top, right and bottom."""


class Plate(NamedTuple):
    """A plate that wants to stand beside a hole: whose it is, the hole's middle on the screen, its
    width and height, how far from the middle, at which side it would be best, and at which it
    stands where there is no room for all."""

    key: Key
    middle: Point
    wide: float
    high: float
    far: float
    way: int
    crowded: int


def put(plates: Sequence[Plate], holes: Sequence[Point], radius: float) -> dict[Key, int]:
    """The side for each plate that has room; the first ones choose first.

    Each stands where it would be best, if all can; else all of a kind at one side, so that no
    number between two holes can be taken for the other one's.
    """
    best = _put([(plate, plate.way) for plate in plates], holes, radius, all_or_none=True)
    return best or _put([(plate, plate.crowded) for plate in plates], holes, radius)


def _put(
    wanted: Iterable[tuple[Plate, int]],
    holes: Sequence[Point],
    radius: float,
    *,
    all_or_none: bool = False,
) -> dict[Key, int]:
    taken, squares = _Taken(), {}
    for x, y in holes:
        squares[x, y] = (x - radius, y - radius, x + radius, y + radius)
        taken.add(squares[x, y])
    found = {}
    for plate, way in wanted:
        if taken.has_room(_box(plate, way), beside=squares.get(plate.middle)):
            found[plate.key] = way
        elif all_or_none:
            return {}
    return found


def _box(plate: Plate, way: int) -> Box:
    across, down = beside(plate.far, plate.wide, plate.high, way)
    x, y = plate.middle[0] + across, plate.middle[1] + down
    return x - plate.wide / 2, y - plate.high / 2, x + plate.wide / 2, y + plate.high / 2


@lru_cache(maxsize=4096)
def beside(far: float, wide: float, high: float, way: int) -> Point:
    """The middle of a plate beside a hole, so far out that it does not touch it."""
    angle = way / WAYS * 2 * pi
    across, down = cos(angle), sin(angle)
    out = far + abs(across) * wide / 2 + abs(down) * high / 2
    return across * out, down * out


class _Taken:
    """What is taken, in squares, so that only what is near is looked at."""

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[Box]] = defaultdict(list)

    def add(self, box: Box) -> None:
        for cell in _cells(box):
            self._cells[cell].append(box)

    def has_room(self, box: Box, *, beside: Box | None) -> bool:
        """Whether nothing lies there yet but the hole itself, which a plate never touches; if so,
        it is taken now."""
        left, top, right, bottom = box
        cells = _cells(box)
        for cell in cells:
            for other in self._cells.get(cell, ()):
                if other is beside:
                    continue
                if left < other[2] and right > other[0] and top < other[3] and bottom > other[1]:
                    return False
        for cell in cells:
            self._cells[cell].append(box)
        return True


def _cells(box: Box) -> list[tuple[int, int]]:
    left, right = int(box[0] // _CELL), int(box[2] // _CELL)
    top, bottom = int(box[1] // _CELL), int(box[3] // _CELL)
    if left == right and top == bottom:  # most are small: this is what a frame waits for
        return [(left, top)]
    return [(x, y) for x in range(left, right + 1) for y in range(top, bottom + 1)]
