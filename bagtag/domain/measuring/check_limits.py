"""Limits that look like a slip, and instruments that are too coarse for them."""

from collections.abc import Iterable, Sequence
from decimal import Decimal

from bagtag.domain.measuring import forms, verdict
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import FigureSlot
from bagtag.domain.measuring.result import Result
from bagtag.domain.measuring.sheet import Limits, MeasureSheet
from bagtag.domain.phrases import capital, listed

IMPLAUSIBLE = 10
"""A wear limit this many times that of a new part is asked about (a published pair of 0.19 and
0.016 in is one: see tests/check_values/measuring.json)."""
SHARE = 10
"""An instrument shows at least this many steps within a tolerance (common practice, no source)."""


def questions(sheet: MeasureSheet, figures: Sequence[Result]) -> tuple[str, ...]:
    slots = {slot.key: slot for slot in forms.form(sheet).figures}
    found = [_implausible(slots[one.key], one) for one in sheet.limits if one.key in slots]
    said = (*found, _coarse(figures, slots.values()), *_at_limit(figures))
    return tuple(one for one in said if one)


def _implausible(slot: FigureSlot, one: Limits) -> str:
    if one.wear_high and one.new_high and one.wear_high >= one.new_high * IMPLAUSIBLE:
        return _far(slot, one.wear_high, one.new_high, one.wear_high / 10)
    if one.wear_low and one.new_low and one.new_low >= one.wear_low * IMPLAUSIBLE:
        return _far(slot, one.wear_low, one.new_low, one.wear_low * 10)
    return ""


def _far(slot: FigureSlot, wear: Decimal, new: Decimal, meant: Decimal) -> str:
    return (
        f"{capital(slot.name)}: the wear limit {show(wear)} is far from the {show(new)} of a new "
        f"part. Was {show(meant.normalize())} meant?"
    )


def _coarse(figures: Sequence[Result], slots: Iterable[FigureSlot]) -> str:
    """One sentence for all figures that were read in too coarse a step."""
    lone = {slot.key for slot in slots if not slot.low}
    coarse = [one for one in figures if _is_coarse(one, one.key in lone)]
    if not coarse:
        return ""
    names = listed(list(dict.fromkeys(one.name for one in coarse)))
    steps = {f"{show(one.resolution)} {one.unit}" for one in coarse if one.resolution is not None}
    return (
        f"{capital(names)}: told to {listed(sorted(steps))} at best, more than a tenth of what the "
        "limits leave. Take a finer instrument where you can."
    )


def _is_coarse(figure: Result, is_lone: bool) -> bool:
    if figure.limits is None or figure.resolution is None:
        return False
    held = verdict.in_unit(figure.limits, figure.unit)
    low, high = verdict.low(held), verdict.high(held)
    low = Decimal(0) if low is None and is_lone else low
    if low is None or high is None:
        return False
    return figure.resolution * SHARE > high - low


def _at_limit(figures: Sequence[Result]) -> Iterable[str]:
    """A figure at its limit to the last digit, when nobody said what it was read with."""
    for one in figures:
        last = Decimal(1).scaleb(int(one.value.as_tuple().exponent))
        if one.resolution is None and one.margin is not None and abs(one.margin) < last:
            yield (
                f"{capital(one.name)} stands at its limit to the last digit, and nobody said what "
                "it was read with. Choose the instrument, so that the verdict can say how sure "
                "it is."
            )
