"""Oversizes and undersizes that look as if they were in another unit."""

from decimal import Decimal

from bagtag.domain.measuring.amounts import given_one
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.oversize import OVERSIZES, STANDARD, UNDERSIZES, WHOLE
from bagtag.domain.measuring.sheet import Given, MeasureSheet
from bagtag.domain.measuring.units import converted

FINEST, WIDEST = Decimal("0.1"), Decimal(5)
"""Between these, in mm, lie the oversizes that are made for one standard size (common practice, no
source)."""


def questions(sheet: MeasureSheet) -> tuple[str, ...]:
    made = [one for one in sheet.given if one.key in (OVERSIZES.key, UNDERSIZES.key)]
    return tuple(filter(None, (_asked(sheet, one) for one in made)))


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
