"""Shims for an end float: which of those at hand give the float wanted, as few as can be."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from bagtag.domain.measuring import verdict
from bagtag.domain.measuring.amounts import Amount, exact_unit, given, limits, missing, taken
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place, SheetForm
from bagtag.domain.measuring.result import Result, Results, Verdict
from bagtag.domain.measuring.sheet import Limits, MeasureSheet, SheetKind
from bagtag.domain.phrases import capital, listed

MOST = 8
"""How many shims a stack may have: more make a spring of it (common practice, no source)."""
AFTERWARDS = "Read the float again before it is closed up."
_FLOAT = FigureSlot("end float", "end float", low=True)
_AS_IT_IS = Place("end float", "end float, as it is", number=1)
_DEPTH = Place("depth", "depth of the housing", number=1)
_HEIGHT = Place("height", "height of what goes in", number=2)


@dataclass(frozen=True, slots=True)
class StackPlan:
    """`gap` is what shims and float share; `shims` what to put in, None where none of those at hand
    do, and an empty row where none is needed; `after` is the float then. All in one unit.
    `thinnest` to `thickest` is what the shims may come to in all, `wanted` gives the middle of the
    range; `there` is in now, and `stays` is whether it does."""

    gap: Decimal
    thinnest: Decimal
    wanted: Decimal
    thickest: Decimal
    shims: tuple[Decimal, ...] | None = None
    after: Decimal | None = None
    there: tuple[Decimal, ...] = ()
    stays: bool = False

    @property
    def added(self) -> tuple[Decimal, ...]:
        return tuple((Counter(self.shims or ()) - Counter(self.there)).elements())

    @property
    def removed(self) -> tuple[Decimal, ...]:
        return tuple((Counter(self.there) - Counter(self.shims or ())).elements())


def form(sheet: MeasureSheet) -> SheetForm:
    """The float is read with the shims that are in, or reckoned from a depth and a height without
    any: what is read first decides which is asked for."""
    by_depth = {reading.key for reading in sheet.readings} & {_DEPTH.key, _HEIGHT.key}
    by_float = {reading.key for reading in sheet.readings} & {_AS_IT_IS.key}
    asks_depth = bool(by_depth) and not by_float
    places = [_AS_IT_IS, _DEPTH, _HEIGHT]
    return SheetForm(
        SheetKind.STACK,
        tuple(
            _numbered(one, n, (one is not _AS_IT_IS) == asks_depth) for n, one in enumerate(places)
        ),
        (_FLOAT,),
        (
            GivenSlot("in now", "shims in now", several=True),
            GivenSlot("at hand", "other shims at hand", several=True),
            GivenSlot("gasket", "gasket, pressed thickness"),
        ),
        "Read the float with the shims that are in; or, without any, the depth of the housing and "
        "the height of what goes into it, both from the face.",
    )


def _numbered(place: Place, n: int, needed: bool) -> Place:
    return Place(place.key, place.row, number=n + 1, needed=needed)


def results(sheet: MeasureSheet) -> Results:
    still = missing(form(sheet), sheet)
    if still:
        return Results(missing=still)
    return Results((_figure(sheet),), (), tuple(_advice(sheet)))


def _figure(sheet: MeasureSheet) -> Result:
    return verdict.of_sheet(sheet, _FLOAT, _now(sheet, sheet.unit))


def _now(sheet: MeasureSheet, unit: str) -> Amount:
    """The float with what is in now."""
    read = taken(sheet, unit)
    if _AS_IT_IS.key in read:
        return read[_AS_IT_IS.key]
    shims, gasket = (
        Amount(sum(given(sheet, key, unit), Decimal(0))) for key in ("in now", "gasket")
    )
    return read[_DEPTH.key] + gasket - read[_HEIGHT.key] - shims


def plan_of(sheet: MeasureSheet) -> StackPlan | None:
    """Which shims give the float wanted; None while a reading or one of the limits is missing."""
    held = limits(sheet, _FLOAT.key)
    if missing(form(sheet), sheet) or held is None:
        return None
    unit = exact_unit(sheet)
    low, high = range_of(verdict.in_unit(held, unit))
    if low is None or high is None:
        return None
    there, spare = (given(sheet, key, unit) for key in ("in now", "at hand"))
    return plan(_now(sheet, unit).value, low, high, there, spare)


def range_of(held: Limits) -> tuple[Decimal | None, Decimal | None]:
    """What is set to: as new where that is given, else what is still good."""
    low = held.wear_low if held.new_low is None else held.new_low
    return low, held.wear_high if held.new_high is None else held.new_high


def plan(
    now: Decimal, low: Decimal, high: Decimal, there: Sequence[Decimal], spare: Sequence[Decimal]
) -> StackPlan:
    """`now` is the float with the shims that are `there`; `spare` lie ready. What is in stays where
    it gives a float within the range; else the fewest shims that do, nearest the middle."""
    gap = now + sum(there, Decimal(0))
    thinnest, thickest = gap - high, gap - low
    wanted = (thinnest + thickest) / 2
    if low <= now <= high:
        return StackPlan(
            gap, thinnest, wanted, thickest, tuple(there), now, tuple(there), stays=True
        )
    found = choose(thinnest, thickest, (*there, *spare))
    after = None if found is None else gap - sum(found, Decimal(0))
    return StackPlan(gap, thinnest, wanted, thickest, found, after, tuple(there))


def choose(
    thinnest: Decimal, thickest: Decimal, shims: Sequence[Decimal]
) -> tuple[Decimal, ...] | None:
    """The fewest of these shims that come to a thickness from `thinnest` to `thickest`, of as many
    the nearest to the middle, the thicker first; None where none do."""
    low, high, *whole = _whole((thinnest, thickest, *shims))
    for stacks in _by_count(high, whole):
        fit = [total for total in stacks if low <= total <= high]
        if fit:
            best = min(fit, key=lambda total: (abs(2 * total - low - high), total))
            return tuple(sorted((shims[one] for one in stacks[best]), reverse=True))
    return None


def _whole(figures: Sequence[Decimal]) -> list[int]:
    """The same as whole numbers of the finest step among them, which add up ten times as fast."""
    finest = min(int(one.as_tuple().exponent) for one in figures)
    return [int(one.scaleb(-finest)) for one in figures]


def _by_count(thickest: int, shims: Sequence[int]) -> list[dict[int, tuple[int, ...]]]:
    """For 0, 1, 2 … shims every total that they can come to, each with one way to it: which of the
    shims."""
    by_count: list[dict[int, tuple[int, ...]]] = [{} for _ in range(MOST + 1)]
    by_count[0][0] = ()
    for at, shim in enumerate(shims):
        for count in range(MOST, 0, -1):
            for total, way in by_count[count - 1].items():
                if total + shim <= thickest:
                    by_count[count].setdefault(total + shim, (*way, at))
    return by_count


def _advice(sheet: MeasureSheet) -> Iterator[str]:
    found, unit = plan_of(sheet), exact_unit(sheet)
    if found is None:
        return
    if found.stays:
        yield _stays(sheet)
    elif found.thickest < 0:
        yield (
            f"There is no room: without any shim the float would be {show(found.gap)} {unit}. Look "
            "for what is not seated."
        )
    elif found.shims is None:
        yield _none_does(found, unit)
    else:
        yield _put_in(found, unit)
        yield AFTERWARDS


def _none_does(found: StackPlan, unit: str) -> str:
    span = f"{show(max(found.thinnest, Decimal(0)))} to {show(found.thickest)} {unit}"
    return (
        f"Shims of {span} in all are wanted, {show(found.wanted)} for the middle; those at hand do "
        "not make it."
    )


def _stays(sheet: MeasureSheet) -> str:
    if _figure(sheet).verdict is Verdict.CLOSE:
        return (
            "What is in now gives a float too close to its limit to call: read it again with "
            "something finer before it is left."
        )
    return "What is in now gives a float within the range: leave it."


def _put_in(found: StackPlan, unit: str) -> str:
    assert found.after is not None
    added, removed = found.added, found.removed
    steps = [
        *([f"take out {_sizes(removed)} {unit}"] if removed else []),
        *([f"put in {_sizes(added)} {unit}"] if added else []),
    ]
    total = sum(found.shims or (), Decimal(0))
    made = f", {show(total)} in all" if len(found.shims or ()) > 1 else ""
    return f"{capital(listed(steps))}{made}: the float is {show(found.after)} {unit} then."


def _sizes(shims: Sequence[Decimal]) -> str:
    return listed([show(one) for one in shims])
