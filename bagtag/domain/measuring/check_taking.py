"""How readings were taken: warm parts beside cold ones, parts that cannot be a pair."""

from collections.abc import Sequence
from decimal import Decimal

from bagtag.domain.measuring import forms, verdict
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.result import Result, Verdict
from bagtag.domain.measuring.sheet import MeasureSheet, Reading, SheetKind
from bagtag.domain.measuring.units import INCH
from bagtag.domain.phrases import capital

APART = Decimal(5)
"""Kelvin between parts that are compared (common practice, no source)."""
REFERENCE, OFF = Decimal(20), Decimal(10)
"""The temperature that sizes hold at (ISO 1), and how far from it is asked about, in kelvin."""
WARM = frozenset({SheetKind.BORE, SheetKind.JOURNAL, SheetKind.BEARING, SheetKind.PISTON})
"""Sizes so fine that a warm part reads another one (common practice, no source): the temperature of
the part is asked for."""
GUESSED = 1
"""How many decimals a person may guess between two steps (common practice, no source)."""
_PAIRS = {SheetKind.PISTON: ("skirt", "bore"), SheetKind.BEARING: ("journal", "bearing")}


def questions(sheet: MeasureSheet, figures: Sequence[Result]) -> tuple[str, ...]:
    pairs = (_no_room(sheet, figures), _other_unit(sheet, figures))
    names = {place.key: place.name for place in forms.form(sheet).places}
    fine = (_too_fine(one, names[one.key]) for one in sheet.readings if one.key in names)
    said = (_temperatures(sheet), *pairs, *fine)
    return tuple(one for one in said if one)


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


def _other_unit(sheet: MeasureSheet, figures: Sequence[Result]) -> str:
    """Parts of a pair that were all read in inches, or limits that were: each looks right beside
    the others, and only the clearance is some 25 times off."""
    if sheet.kind not in _PAIRS or {one.unit for one in sheet.readings} != {sheet.unit}:
        return ""
    out = next((one for one in figures if one.verdict is Verdict.OUT and one.limits), None)
    if out is None or out.value <= 0:
        return ""
    if _fits(out, out.value * INCH):
        what = "readings" if sheet.unit == "mm" else "limits"
    elif _fits(out, out.value / INCH):
        what = "limits" if sheet.unit == "mm" else "readings"
    else:
        return ""
    other = "inches" if sheet.unit == "mm" else "millimetres"
    return f"{capital(out.name)} would fit if the {what} were in {other}. Look at the unit."


def _fits(figure: Result, value: Decimal) -> bool:
    assert figure.limits is not None
    held = verdict.in_unit(figure.limits, figure.unit)
    low, high = verdict.low(held), verdict.high(held)
    return low is not None and high is not None and low <= value <= high


def _too_fine(one: Reading, name: str) -> str:
    """A reading that its instrument cannot show is one in another unit, or its point is wrong."""
    if one.resolution is None or _decimals(one.value) <= _decimals(one.resolution) + GUESSED:
        return ""
    shows = one.instrument or "what it was read with"
    return (
        f"{capital(name)}: {show(one.value)} {one.unit} is finer than {shows} can show, "
        f"{show(one.resolution)} {one.unit}. Look at the point and the unit."
    )


def _decimals(value: Decimal) -> int:
    return -int(value.normalize().as_tuple().exponent)
