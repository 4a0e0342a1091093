"""Which oversize a worn bore is bored to, which undersize a worn journal is ground to."""

from collections.abc import Sequence
from decimal import Decimal

from bagtag.domain.measuring.amounts import given, given_one
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import GivenSlot
from bagtag.domain.measuring.result import Result, Verdict
from bagtag.domain.measuring.sheet import MeasureSheet

STANDARD = GivenSlot("standard", "standard size")
ALLOWANCE = GivenSlot("allowance", "to be left for finishing")
OVERSIZES = GivenSlot("oversizes", "oversizes made", several=True)
UNDERSIZES = GivenSlot("undersizes", "undersizes made", several=True)
WHOLE = Decimal("0.5")
"""From this share of the standard size on, what is made is given as the whole size."""


def smallest_that_cleans(
    worst: Decimal, standard: Decimal, made: Sequence[Decimal], allowance: Decimal = Decimal(0)
) -> Decimal | None:
    """The smallest size made that is at least `worst` and the allowance, None where none is. All in
    one unit; what is made may be given as an oversize (0.50) or as the whole size (76.50)."""
    sizes = (standard + one if one < standard * WHOLE else one for one in made)
    return min((one for one in sizes if one >= worst + allowance), default=None)


def largest_that_cleans(
    worst: Decimal, standard: Decimal, made: Sequence[Decimal], allowance: Decimal = Decimal(0)
) -> Decimal | None:
    """The same of a journal: the largest size that is at most `worst` less the allowance."""
    sizes = (standard - one if one < standard * WHOLE else one for one in made)
    return max((one for one in sizes if one <= worst - allowance), default=None)


def of_bore(sheet: MeasureSheet, worst: Decimal, figures: Sequence[Result]) -> tuple[str, ...]:
    """What to bore to, where a standard size and the oversizes made are given and the bore is out
    of its limits, or nearly, or has none; `worst` is its largest place in the sheet's unit."""
    standard, made, allowance = _given(sheet, OVERSIZES.key)
    if standard is None or not made or _is_good(figures):
        return ()
    size = smallest_that_cleans(worst, standard, made, allowance)
    if size is None:
        return ("No oversize made cleans it up: have it sleeved, or renew it.",)
    to = f"{show(size)} {sheet.unit} (+{show(size - standard)})"
    if _is_out(figures):
        return (f"Rebore to {to}: the smallest oversize that cleans it up.",)
    return (f"If it is rebored, {to} is the smallest oversize that cleans it up.",)


def of_journal(sheet: MeasureSheet, worst: Decimal, figures: Sequence[Result]) -> tuple[str, ...]:
    """What to grind to; `worst` is the smallest place in the sheet's unit."""
    standard, made, allowance = _given(sheet, UNDERSIZES.key)
    if standard is None or not made or _is_good(figures):
        return ()
    size = largest_that_cleans(worst, standard, made, allowance)
    if size is None:
        return ("No undersize made cleans it up: have it built up and ground, or renew it.",)
    to = f"{show(size)} {sheet.unit} (−{show(standard - size)})"
    if _is_out(figures):
        return (f"Grind to {to}: the largest undersize that cleans it up.",)
    return (f"If it is ground, {to} is the largest undersize that cleans it up.",)


def _given(sheet: MeasureSheet, key: str) -> tuple[Decimal | None, tuple[Decimal, ...], Decimal]:
    allowance = given_one(sheet, ALLOWANCE.key, sheet.unit) or Decimal(0)
    return given_one(sheet, STANDARD.key, sheet.unit), given(sheet, key, sheet.unit), allowance


def _is_good(figures: Sequence[Result]) -> bool:
    verdicts = {one.verdict for one in figures if one.limits}
    return bool(verdicts) and verdicts <= {Verdict.NEW, Verdict.GOOD}


def _is_out(figures: Sequence[Result]) -> bool:
    return any(one.verdict is Verdict.OUT for one in figures)
