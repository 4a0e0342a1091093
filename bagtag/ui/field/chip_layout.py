"""Which chips of a row are in sight, and where: all with their words, all without, or some."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

GAP, MORE = 8, 36
"""Pixels between two chips, and for a `+3` where some are out of sight."""


@dataclass(frozen=True, slots=True)
class Laid:
    """Chips `first` up to `end` are in sight; `worded` is whether each says what it is taken for;
    `left` is where the first begins, in pixels."""

    first: int = 0
    end: int = 0
    worded: bool = True
    left: float = 0.0


def lay(wide: Sequence[float], short: Sequence[float], room: float, reach: int) -> Laid:
    """Lay chips out by their widths with and without their words, so that `reach` is in sight."""
    if _sum(wide) <= room:
        return Laid(0, len(wide))
    if _sum(short) <= room:
        return Laid(0, len(short), False)
    first = _first(short, room, min(reach, len(short) - 1))
    left = MORE if first else 0
    return Laid(first, _end(short, room - left, first), False, left)


def _first(widths: Sequence[float], room: float, reach: int) -> int:
    """The earliest chip from which `reach` is still in sight."""
    after = MORE if reach + 1 < len(widths) else 0
    if _sum(widths[: reach + 1]) + after <= room:
        return 0
    first = reach
    while first and _sum(widths[first - 1 : reach + 1]) + after + MORE <= room:
        first -= 1
    return first


def _end(widths: Sequence[float], room: float, first: int) -> int:
    """The chip behind the last in sight; one is shown however narrow the row is."""
    if _sum(widths[first:]) <= room:
        return len(widths)
    end = first + 1
    while _sum(widths[first : end + 1]) + MORE <= room:
        end += 1
    return end


def _sum(widths: Sequence[float]) -> float:
    return sum(widths) + GAP * len(widths)
