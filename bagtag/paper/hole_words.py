"""Which holes a line of hardware goes into, in words."""

from collections.abc import Collection

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_check import holes_of, spanned
from bagtag.domain.holes import HoleMap


def holes_named(numbers: Collection[int]) -> str:
    """`hole 7`, `holes 1–6, 9`; nothing for none."""
    return f"hole{'s' if len(numbers) > 1 else ''} {spanned(numbers)}" if numbers else ""


def holes_of_line(hole_map: HoleMap | None, line: HeldBy) -> str:
    """`A, holes 1–6`; nothing where no map says where it goes."""
    if hole_map is None or not line.mark:
        return ""
    numbers = [hole.number for hole in holes_of(hole_map, line.mark)]
    return f"{line.mark}, {holes_named(numbers)}" if numbers else ""
