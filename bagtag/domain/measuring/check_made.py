"""Oversizes and undersizes that look as if they were in another unit, or are there already."""

from collections.abc import Sequence
from decimal import Decimal

from bagtag.domain.measuring.amounts import given, given_one, taken
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.oversize import (
    OVERSIZES,
    STANDARD,
    UNDERSIZES,
    WHOLE,
    oversized,
    undersized,
)
from bagtag.domain.measuring.result import Result, Verdict
from bagtag.domain.measuring.sheet import Given, MeasureSheet
from bagtag.domain.measuring.units import converted

FINEST, WIDEST = Decimal("0.1"), Decimal(5)
"""Between these, in mm, lie the oversizes that are made for one standard size (common practice, no
source)."""


def questions(sheet: MeasureSheet, figures: Sequence[Result]) -> tuple[str, ...]:
    made = [one for one in sheet.given if one.key in (OVERSIZES.key, UNDERSIZES.key)]
    asked = tuple(filter(None, (_asked(sheet, one) for one in made)))
    is_out = any(one.key == "size" and one.verdict is Verdict.OUT for one in figures)
    return asked or (_done_already(sheet) if is_out else ())


def _done_already(sheet: MeasureSheet) -> tuple[str, ...]:
    """Whether even the least worn place is at a size that is made, so that the limits are those of
    another size than the part has."""
    standard = given_one(sheet, STANDARD.key, sheet.unit)
    if standard is None:
        return ()
    read = [one.value for one in taken(sheet).values()]
    over, under = (given(sheet, key, sheet.unit) for key in (OVERSIZES.key, UNDERSIZES.key))
    bored = [one for one in oversized(standard, over) if standard < one <= min(read)]
    ground = [one for one in undersized(standard, under) if max(read) <= one < standard]
    if bored:
        return (_already("bored", max(bored), sheet.unit),)
    return (_already("ground", min(ground), sheet.unit),) if ground else ()


def _already(work: str, size: Decimal, unit: str) -> str:
    return (
        f"No place is left of the standard size: is it {work} to {show(size)} {unit} already? Then "
        "give the limits of that size."
    )


def _asked(sheet: MeasureSheet, one: Given) -> str:
    unit = one.unit or sheet.unit
    size = converted(one.value, unit, "mm")
    standard = given_one(sheet, STANDARD.key, "mm")
    if not size or (standard is not None and size >= standard * WHOLE):
        return ""
    other = "in" if unit == "mm" else "mm"
    meant = converted(one.value, other, "mm")
    if FINEST <= size <= WIDEST or not FINEST <= meant <= WIDEST:
        return ""
    turned = round(converted(one.value, other, unit), 3 if unit == "mm" else 4)
    said = f"{show(one.value)} {other} is {show(turned.normalize())} {unit}"
    return f"{one.key.capitalize()} of {show(one.value)} {unit}: {said}. Say the unit."
