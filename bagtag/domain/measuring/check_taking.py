"""How readings were taken: warm parts beside cold ones, parts that cannot be a pair."""

from collections.abc import Sequence
from decimal import Decimal

from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.result import Result
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind

APART = Decimal(5)
"""Kelvin between parts that are compared (common practice, no source)."""
REFERENCE, OFF = Decimal(20), Decimal(10)
"""The temperature that sizes hold at (ISO 1), and how far from it is asked about, in kelvin."""
_PAIRS = {SheetKind.PISTON: ("skirt", "bore"), SheetKind.BEARING: ("journal", "bearing")}


def questions(sheet: MeasureSheet, figures: Sequence[Result]) -> tuple[str, ...]:
    return tuple(one for one in (_temperatures(sheet), _no_room(sheet, figures)) if one)


def _temperatures(sheet: MeasureSheet) -> str:
    warm = [one.temperature for one in sheet.readings if one.temperature is not None]
    if not warm:
        return ""
    low, high = min(warm), max(warm)
    if high - low > APART:
        return (
            f"Read at {show(low)} to {show(high)} °C: let the parts stand together until they are "
            "of one temperature, and read again."
        )
    if max(abs(high - REFERENCE), abs(low - REFERENCE)) <= OFF:
        return ""
    return (
        f"Read at {show(high if high > REFERENCE else low)} °C: sizes hold at 20 °C. Nothing was "
        "corrected; let the parts come to the temperature of the room and read again."
    )


def _no_room(sheet: MeasureSheet, figures: Sequence[Result]) -> str:
    if sheet.kind not in _PAIRS or all(one.value >= 0 for one in figures):
        return ""
    inner, outer = _PAIRS[sheet.kind]
    return f"The {inner} is larger than the {outer}: are they of one place, and read right?"
