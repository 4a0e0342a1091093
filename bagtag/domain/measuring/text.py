"""A measuring sheet in one line, for lists and cards."""

from bagtag.domain.measuring import forms
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.result import Result, Results, Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.verdict import in_unit, stands
from bagtag.domain.phrases import listed

_SET = {SheetKind.VALVES, SheetKind.STACK, SheetKind.DECK, SheetKind.COMPRESSION}
"""Kinds of what is set at the build and does not wear itself."""

NAMED = 2
"""How many figures without a limit are named; more are counted."""


def summary(sheet: MeasureSheet) -> str:
    """`worn: bore 76.31 mm, at most 76.20`, `measured, within limits`, `4 of 6 readings still to
    take`, `too close to call: taper 0.05 mm, at most 0.05`."""
    found = results(sheet)
    worst = _worst(found, wears=sheet.kind not in _SET)
    if worst:
        return f"{worst}; {_still(sheet, found)}" if found.missing else worst
    return _still(sheet, found) if found.missing or not found.figures else _measured(found)


def _worst(found: Results, *, wears: bool) -> str:
    """The first figure that is out, else the first that is too close, else nothing."""
    for verdict in (Verdict.OUT, Verdict.CLOSE):
        for one in found.figures:
            if one.verdict is verdict:
                return f"{_word(one, wears)}: {stands(one)}"
    return ""


def _word(figure: Result, wears: bool) -> str:
    if figure.verdict is Verdict.CLOSE:
        return "too close to call"
    return "worn" if wears and _is_worn(figure) else "out of limits"


def _is_worn(figure: Result) -> bool:
    """Whether it is beyond a limit of wear, and not only beyond one of a new part."""
    assert figure.limits is not None
    held = in_unit(figure.limits, figure.unit)
    if held.wear_high is not None and figure.value > held.wear_high:
        return True
    return held.wear_low is not None and figure.value < held.wear_low


def _still(sheet: MeasureSheet, found: Results) -> str:
    needed = [place for place in forms.form(sheet).places if place.needed]
    named = {place.name for place in needed}
    not_given = [one for one in found.missing if one not in named]
    if not_given:
        return f"{listed(not_given)} still to be given"
    left = len(found.missing)
    if left and left < len(needed):
        return f"{left} of {len(needed)} readings still to take"
    return f"{len(needed)} reading{'s' if len(needed) != 1 else ''} to take"


def _measured(found: Results) -> str:
    open_ones = [one for one in found.figures if one.limits is None]
    if len(open_ones) == len(found.figures):
        first = found.figures[0]
        return f"measured, no limit given: {first.name} {show(first.value)} {first.unit}".strip()
    word = "as new" if found.verdict is Verdict.NEW else "within limits"
    if not open_ones:
        return f"measured, {word}"
    names = [one.name for one in open_ones]
    which = listed(names) if len(names) <= NAMED else f"{len(names)} more figures"
    return f"measured, {word}; no limit given for {which}"
