"""How a figure stands to its limits. This is the one place where that is decided.

A figure exactly at its limit passes ("may be refitted if its critical dimension is exactly to its
tolerance limit": general fitting instructions, see tests/check_values/measuring.json), unless it
was read with something whose step is known: then it cannot be told from one beyond.
"""

from dataclasses import replace
from decimal import Decimal

from bagtag.domain.measuring import amounts
from bagtag.domain.measuring.amounts import Amount
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import FigureSlot
from bagtag.domain.measuring.result import Result, Verdict
from bagtag.domain.measuring.sheet import Limits, MeasureSheet
from bagtag.domain.measuring.units import converted

HAIR = Decimal("1e-15")
"""What is nearer than this is alike: a third of an inch has no end in millimetres, and a figure at
its limit must pass in either unit."""


def low(limits: Limits) -> Decimal | None:
    """The lower limit that decides: the worn one, else the new one."""
    return limits.new_low if limits.wear_low is None else limits.wear_low


def high(limits: Limits) -> Decimal | None:
    """The upper limit that decides: the worn one, else the new one."""
    return limits.new_high if limits.wear_high is None else limits.wear_high


def judge(
    value: Decimal, resolution: Decimal | None, limits: Limits
) -> tuple[Verdict, Decimal | None]:
    """The verdict, and what is left to the nearest limit that decides, negative beyond it, None
    without one. All in one unit; `resolution` is None where it is not known."""
    rooms = _rooms(value, limits)
    if not rooms:
        return Verdict.UNKNOWN, None
    margin = min(rooms)
    near = None if resolution is None else resolution - HAIR
    if near is not None and any(abs(room) < near for room in rooms):
        return (Verdict.OUT if margin <= -near else Verdict.CLOSE), margin
    if margin < 0:
        return Verdict.OUT, margin
    return (Verdict.NEW if _is_as_new(value, limits) else Verdict.GOOD), margin


def _rooms(value: Decimal, limits: Limits) -> list[Decimal]:
    least, most = low(limits), high(limits)
    below = [] if least is None else [_room(value, least)]
    return below if most is None else [*below, _room(most, value)]


def _room(more: Decimal, less: Decimal) -> Decimal:
    """What one is larger by than the other, nothing where only turning units makes them differ."""
    room = more - less
    return Decimal(0) if 0 < abs(room) < HAIR else room


def _is_as_new(value: Decimal, limits: Limits) -> bool:
    if limits.new_low is None and limits.new_high is None:
        return False
    above = limits.new_low is None or _room(value, limits.new_low) >= 0
    return above and (limits.new_high is None or _room(limits.new_high, value) >= 0)


def result(
    slot: FigureSlot, value: Decimal, unit: str, resolution: Decimal | None, limits: Limits | None
) -> Result:
    """A figure against its limits, which may be in another unit, and the whole as a sentence."""
    figure = Result(slot.key, slot.name, value, unit, resolution, limits)
    if limits is not None:
        verdict, margin = judge(value, resolution, in_unit(limits, unit))
        figure = replace(figure, verdict=verdict, margin=margin)
    return replace(figure, said=f"{stands(figure)}{_ENDS[figure.verdict](figure)}")


def of_sheet(
    sheet: MeasureSheet, slot: FigureSlot, one: Amount, key: str = "", unit: str = ""
) -> Result:
    """A figure of a sheet, in its unit or in `unit`, against the limits that the sheet gives under
    `key`, or under that of the figure itself."""
    held = amounts.limits(sheet, key or slot.key)
    return result(slot, one.value, unit or sheet.unit, one.step, held)


def in_unit(limits: Limits, unit: str) -> Limits:
    """The same limits in another unit."""
    if limits.unit == unit:
        return limits
    new_low, new_high, wear_low, wear_high = (
        None if side is None else converted(side, limits.unit, unit) for side in sides(limits)
    )
    return Limits(limits.key, new_low, new_high, wear_low, wear_high, unit)


def sides(limits: Limits) -> tuple[Decimal | None, ...]:
    """As new from and to, worn from and to."""
    return (limits.new_low, limits.new_high, limits.wear_low, limits.wear_high)


def stands(figure: Result) -> str:
    """`taper 0.03 mm, at most 0.05`: the figure and the limits that decide."""
    said = f"{figure.name} {_with_unit(figure.value, figure.unit)}"
    within = figure.limits and limits_said(figure.limits)
    if not within or not figure.limits:
        return said
    unit = "" if figure.limits.unit == figure.unit else f" {figure.limits.unit}"
    return f"{said}, {within}{unit}"


def limits_said(limits: Limits) -> str:
    """The limits that decide, in words, without the unit."""
    return span_said(low(limits), high(limits))


def span_said(least: Decimal | None, most: Decimal | None) -> str:
    """`0.05 to 0.20`, `at most 0.20`, `at least 12`, or nothing."""
    if least is not None and most is not None:
        return f"{show(least)} to {show(most)}"
    if most is not None:
        return f"at most {show(most)}"
    return "" if least is None else f"at least {show(least)}"


def _with_unit(value: Decimal, unit: str) -> str:
    return f"{show(value)} {unit}".strip()


def _to_spare(figure: Result) -> str:
    assert figure.margin is not None
    if not figure.margin:
        return "exactly at its limit, and that passes"
    unit = "" if figure.limits is None or figure.limits.unit == figure.unit else f" {figure.unit}"
    return f"{show(figure.margin)}{unit} to spare"


def _good(figure: Result) -> str:
    both = figure.limits and (figure.limits.new_low, figure.limits.new_high) != (None, None)
    return f": {'worn, ' if both else ''}within limits, {_to_spare(figure)}"


def _close(figure: Result) -> str:
    assert figure.resolution is not None
    best = _with_unit(figure.resolution, figure.unit)
    return f": too close to call, known to {best} at best; measure it with something finer"


def _out(figure: Result) -> str:
    assert figure.margin is not None
    return f": out of limits by {_with_unit(-figure.margin, figure.unit)}"


_ENDS = {
    Verdict.NEW: lambda figure: f": as new, {_to_spare(figure)}",
    Verdict.GOOD: _good,
    Verdict.UNKNOWN: lambda _: ", no limit given",
    Verdict.CLOSE: _close,
    Verdict.OUT: _out,
}
