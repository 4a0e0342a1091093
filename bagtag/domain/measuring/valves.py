"""Valve clearances, and the shims that bring them into their range."""

from collections.abc import Iterator
from decimal import Decimal

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring import amounts, shims, shims_told, verdict
from bagtag.domain.measuring.amounts import (
    count,
    exact_unit,
    given,
    given_one,
    limits,
    taken,
)
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place, SheetForm
from bagtag.domain.measuring.result import Result, Results, Verdict
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.shims import ShimPlan, Source, ValvePlace
from bagtag.domain.measuring.stack import range_of
from bagtag.domain.phrases import capital, listed

MOST_CYLINDERS, MOST_VALVES = 16, 4
SIDES = ("inlet", "exhaust")
_SERIES = ("series from", "series to", "series step")
_GIVEN = (
    GivenSlot("cylinders", "number of cylinders", is_number=True),
    GivenSlot("inlet", "inlet valves to a cylinder", is_number=True),
    GivenSlot("exhaust", "exhaust valves to a cylinder", is_number=True),
    GivenSlot("at hand", "shims at hand", several=True),
    GivenSlot("series from", "shims made, thinnest"),
    GivenSlot("series to", "shims made, thickest"),
    GivenSlot("series step", "shims made, in steps of"),
)


def form(sheet: MeasureSheet) -> SheetForm:
    """Clearances first, as they are read before the camshaft comes out; then the shims, where there
    are any."""
    names = [name for name, _ in valves(sheet)]
    return SheetForm(
        SheetKind.VALVES,
        (
            *(_place(name, "clearance", n + 1) for n, name in enumerate(names)),
            *(_place(name, "shim", n + 1 + len(names)) for n, name in enumerate(names)),
        ),
        tuple(FigureSlot(side, f"{side} clearance", low=True) for side in SIDES),
        _GIVEN,
        "Engine cold. Turn each valve's cam away from it and read with feelers: the thickest that "
        "goes through with a slight drag. Then the thickness of each shim.",
    )


def _place(name: str, what: str, number: int) -> Place:
    return Place(f"{name}, {what}", name, what, number=number, needed=what == "clearance")


def valves(sheet: MeasureSheet) -> tuple[tuple[str, str], ...]:
    """Each valve with its side, cylinder by cylinder: ("2 inlet", "inlet"), ("2 inlet b", …)."""
    numbers = {side: count(sheet, side, 1, MOST_VALVES) for side in SIDES}
    return tuple(
        (f"{one} {side}{_letter(n, numbers[side])}", side)
        for one in range(1, count(sheet, "cylinders", 1, MOST_CYLINDERS) + 1)
        for side in SIDES
        for n in range(numbers[side])
    )


def _letter(n: int, of: int) -> str:
    return f" {'abcd'[n]}" if of > 1 else ""


def results(sheet: MeasureSheet) -> Results:
    figures, plan = tuple(_figures(sheet)), plan_of(sheet)
    told = tuple(_advice(sheet, plan))
    moves = shims_told.moves(plan, exact_unit(sheet)) if plan is not None else ()
    return Results(figures, amounts.missing(form(sheet), sheet), told, moves=moves)


def _figures(sheet: MeasureSheet) -> Iterator[Result]:
    read = taken(sheet)
    for name, side in valves(sheet):
        one = read.get(f"{name}, clearance")
        if one is not None:
            slot = FigureSlot(f"{name}, clearance", name, low=True)
            yield verdict.result(slot, one.value, sheet.unit, one.step, limits(sheet, side))


def plan_of(sheet: MeasureSheet) -> ShimPlan | None:
    """Which shim goes where, over the valves whose clearance, shim and range are known; None while
    there is none. A valve without any clearance is left alone: how far it is short is not known.
    A series that cannot be is as none; the sheet's results say what is wrong with it."""
    places = tuple(_places(sheet))
    if not places:
        return None
    made, _ = _series_or_why(sheet)
    return shims.plan(places, given(sheet, "at hand", exact_unit(sheet)), made)


def _series_or_why(sheet: MeasureSheet) -> tuple[tuple[Decimal, ...], str]:
    try:
        return series_of(sheet), ""
    except BadInput as wrong:
        return (), wrong.sentence


def series_of(sheet: MeasureSheet) -> tuple[Decimal, ...]:
    """The sizes that are made, none where that is not said; BadInput for what cannot be."""
    low, high, step = (given_one(sheet, key, exact_unit(sheet)) for key in _SERIES)
    if low is None or high is None or step is None:
        return ()
    return shims.series(low, high, step)


def _places(sheet: MeasureSheet) -> Iterator[ValvePlace]:
    unit = exact_unit(sheet)
    read = taken(sheet, unit)
    for name, side in valves(sheet):
        clearance, shim = (read.get(f"{name}, {what}") for what in ("clearance", "shim"))
        held = limits(sheet, side)
        if clearance is None or shim is None or held is None or clearance.value <= 0:
            continue
        low, high = range_of(verdict.in_unit(held, unit))
        if low is not None and high is not None:
            yield ValvePlace(name, clearance.value, shim.value, low, high)


def _advice(sheet: MeasureSheet, found: ShimPlan | None) -> Iterator[str]:
    tight = [name for name, _ in valves(sheet) if _is_tight(sheet, name)]
    if tight:
        yield (
            f"No clearance at {listed(tight)}: how far it is short is not known. Fit a thinner "
            "shim and read again; a valve that is held open burns."
        )
    made, wrong = _series_or_why(sheet)
    if wrong:
        yield wrong
    if found is not None:
        yield from _close(sheet, found)
        yield from _left_out(sheet, tight)
        yield from shims_told.told(found, exact_unit(sheet), has_series=bool(made))


def _close(sheet: MeasureSheet, found: ShimPlan) -> Iterator[str]:
    """Those that the plan leaves as they are, though nobody can tell whether they are in range."""
    stay = {move.place.name for move in found.moves if move.source is Source.STAYS}
    figures = (one for one in _figures(sheet) if one.verdict is Verdict.CLOSE)
    names = [one.name for one in figures if one.name in stay]
    if names:
        stands = "stands" if len(names) == 1 else "stand"
        yield (
            f"{capital(listed(names))} {stands} too close to a limit to call: read again with "
            "something finer before the shim stays."
        )


def _is_tight(sheet: MeasureSheet, name: str) -> bool:
    one = taken(sheet).get(f"{name}, clearance")
    return one is not None and one.value <= 0


def _left_out(sheet: MeasureSheet, tight: list[str]) -> Iterator[str]:
    """Those that the plan cannot count with."""
    known = {place.name for place in _places(sheet)}
    rest = [name for name, _ in valves(sheet) if name not in known and name not in tight]
    if rest:
        is_are = "is" if len(rest) == 1 else "are"
        yield (
            f"{capital(listed(rest))} {is_are} left out of the plan: clearance, shim or range is "
            "not given."
        )
