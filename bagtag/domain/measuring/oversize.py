"""Which oversize a worn bore is bored to, which undersize a worn journal is ground to."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from bagtag.domain.measuring import verdict
from bagtag.domain.measuring.amounts import Amount, given, given_one
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


def oversized(standard: Decimal, made: Sequence[Decimal]) -> list[Decimal]:
    """The whole sizes of what is made, given as an oversize (0.50) or as the whole size (76.50)."""
    return [standard + one if one < standard * WHOLE else one for one in made]


def undersized(standard: Decimal, made: Sequence[Decimal]) -> list[Decimal]:
    """The same of a journal: 0.25 under 40.00 is 39.75."""
    return [standard - one if one < standard * WHOLE else one for one in made]


def smallest_that_cleans(
    worst: Decimal, standard: Decimal, made: Sequence[Decimal], allowance: Decimal = Decimal(0)
) -> Decimal | None:
    """The smallest size made that is at least `worst` and the allowance, None where none is. All in
    one unit."""
    sizes = oversized(standard, made)
    return min((one for one in sizes if one >= worst + allowance), default=None)


def largest_that_cleans(
    worst: Decimal, standard: Decimal, made: Sequence[Decimal], allowance: Decimal = Decimal(0)
) -> Decimal | None:
    """The same of a journal: the largest size that is at most `worst` less the allowance."""
    sizes = undersized(standard, made)
    return max((one for one in sizes if one <= worst - allowance), default=None)


LEAVES = "That leaves"


@dataclass(frozen=True, slots=True)
class Told:
    """What is said, a sentence each, and what of it a shop is asked to do."""

    said: tuple[str, ...] = ()
    work: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Work:
    """The words of a work; `grows` is whether wear and work make the size larger."""

    grows: bool
    made: str
    to: str
    if_: str
    which: str
    none: str
    unworn: str
    care: str


_BORING = _Work(
    True,
    OVERSIZES.key,
    "Rebore to",
    "If it is rebored,",
    "the smallest oversize that cleans it up",
    "No oversize made cleans it up: have it sleeved, or renew it.",
    "It is smaller than its limit, and a bore does not wear smaller: read it again, and look at "
    "the limits.",
    "Finish it to the new piston as measured, with the clearance of the maker's manual, which also "
    "says how far the wall may be bored.",
)
_GRINDING = _Work(
    False,
    UNDERSIZES.key,
    "Grind to",
    "If it is ground,",
    "the largest undersize that cleans it up",
    "No undersize made cleans it up: have it built up and ground, or renew it.",
    "It is larger than its limit, and a journal does not wear larger: read it again, and look at "
    "the limits.",
    "The maker's manual says whether it may be ground, how far, and whether it is hardened again; "
    "the fillets keep their radius.",
)


def of_bore(sheet: MeasureSheet, worst: Amount, figures: Sequence[Result]) -> Told:
    """What to bore to, where a standard size and the oversizes made are given and the bore is out
    of its limits, or nearly, or has none; `worst` is its largest place in the sheet's unit."""
    return _advice(sheet, worst, figures, _BORING)


def of_journal(sheet: MeasureSheet, worst: Amount, figures: Sequence[Result]) -> Told:
    """What to grind to; `worst` is the smallest place in the sheet's unit."""
    return _advice(sheet, worst, figures, _GRINDING)


def _advice(sheet: MeasureSheet, worst: Amount, figures: Sequence[Result], work: _Work) -> Told:
    said = {_verdict(one, work) for one in figures if one.limits}
    if any(_is_unworn(one, work) and one.verdict is Verdict.OUT for one in figures):
        return Told((work.unworn,))
    standard = given_one(sheet, STANDARD.key, sheet.unit)
    made = given(sheet, work.made, sheet.unit)
    if standard is None or not made or (said and said <= {Verdict.NEW, Verdict.GOOD}):
        return Told()
    size = _size(sheet, worst, standard, made, work)
    if size is None:
        return Told((work.none,), (work.none,))
    to = _to(sheet, size, standard, work, is_out=Verdict.OUT in said)
    return Told((to, *_left(sheet, worst, size), work.care), (to, work.care))


def _verdict(figure: Result, work: _Work) -> Verdict:
    """A size as it left the maker is not called worn, however near it is to that limit."""
    return Verdict.GOOD if _is_unworn(figure, work) else figure.verdict


def _is_unworn(figure: Result, work: _Work) -> bool:
    """Whether a size is nearer to the limit that wear leads away from."""
    if figure.key != "size" or figure.limits is None:
        return False
    held = verdict.in_unit(figure.limits, figure.unit)
    ends = (verdict.low(held), verdict.high(held))
    start, end = ends if work.grows else ends[::-1]
    if start is None:
        return False
    return end is None or abs(figure.value - start) < abs(figure.value - end)


def _size(
    sheet: MeasureSheet, worst: Amount, standard: Decimal, made: Sequence[Decimal], work: _Work
) -> Decimal | None:
    """What cleans up even where the worst place is worse by a step of what it was read with; a size
    that it has already takes nothing off."""
    allowance = given_one(sheet, ALLOWANCE.key, sheet.unit) or Decimal(0)
    choose, whole = (
        (smallest_that_cleans, oversized) if work.grows else (largest_that_cleans, undersized)
    )
    sizes = [one for one in whole(standard, made) if one != worst.value]
    return choose(worst.value, standard, sizes, allowance + (worst.step or 0))


def _to(sheet: MeasureSheet, size: Decimal, standard: Decimal, work: _Work, *, is_out: bool) -> str:
    sign = "+" if work.grows else "−"
    to = f"{show(size)} {sheet.unit} ({sign}{show(abs(size - standard))})"
    if is_out:
        return f"{work.to} {to}: {work.which}."
    return f"{work.if_} {to} is {work.which}."


def _left(sheet: MeasureSheet, worst: Amount, size: Decimal) -> tuple[str, ...]:
    """What there is to take, where nobody said how much is wanted for finishing."""
    if given_one(sheet, ALLOWANCE.key, sheet.unit) is not None:
        return ()
    left = f"{show(abs(size - worst.value))} {sheet.unit}"
    return (
        f"{LEAVES} {left} of diameter to take at the worst place: ask the shop whether it is "
        "enough, as wear to one side wants more.",
    )
