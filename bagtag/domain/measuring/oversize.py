"""Which oversize a worn bore is bored to."""

from collections.abc import Sequence
from decimal import Decimal

from bagtag.domain.measuring.amounts import given, given_one
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.result import Result, Verdict
from bagtag.domain.measuring.sheet import MeasureSheet


def smallest_that_cleans(
    worst: Decimal, standard: Decimal, made: Sequence[Decimal], allowance: Decimal = Decimal(0)
) -> Decimal | None:
    """The smallest size made that is at least `worst` and the allowance, None where none is. All in
    one unit; what is made may be given as an oversize (0.50) or as the whole size (76.50)."""
    sizes = (standard + one if one < standard / 2 else one for one in made)
    return min((one for one in sizes if one >= worst + allowance), default=None)


def advice(sheet: MeasureSheet, worst: Decimal, figures: Sequence[Result]) -> tuple[str, ...]:
    """What to bore to, where a standard size and the oversizes made are given and the bore is out
    of its limits, or nearly, or has none; `worst` is its largest place in the sheet's unit."""
    verdicts = {one.verdict for one in figures if one.limits}
    standard, made = given_one(sheet, "standard", sheet.unit), given(sheet, "oversizes", sheet.unit)
    if standard is None or not made or (verdicts and verdicts <= {Verdict.NEW, Verdict.GOOD}):
        return ()
    allowance = given_one(sheet, "allowance", sheet.unit) or Decimal(0)
    size = smallest_that_cleans(worst, standard, made, allowance)
    if size is None:
        return ("No oversize made cleans it up: have it sleeved, or renew it.",)
    to = f"{show(size)} {sheet.unit} (+{show(size - standard)})"
    if Verdict.OUT in verdicts:
        return (f"Rebore to {to}: the smallest oversize that cleans it up.",)
    return (f"If it is rebored, {to} is the smallest oversize that cleans it up.",)
