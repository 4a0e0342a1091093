"""A bore: three heights, two directions at each; size, taper, out of round, and what follows.

Size is the largest of six readings; taper is what the largest at the top and at the bottom differ
by; out of round is the largest across less the smallest along, or the other way round where that
is more (the formulas makers print; see tests/check_values/measuring.json).
"""

from bagtag.domain.measuring import oversize
from bagtag.domain.measuring.amounts import Amount, at, largest, missing, smallest, taken
from bagtag.domain.measuring.form import FigureSlot, SheetForm, grid
from bagtag.domain.measuring.result import Result, Results
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.verdict import of_sheet

_HEIGHTS, _WAYS = ("top", "middle", "bottom"), ("across", "along")
_PLACES = grid(_HEIGHTS, _WAYS)
_SIZE = FigureSlot("size", "bore", low=True)
_TAPER = FigureSlot("taper", "taper")
_ROUND = FigureSlot("out of round", "out of round")


def form(_: MeasureSheet) -> SheetForm:
    return SheetForm(
        SheetKind.BORE,
        _PLACES,
        (_SIZE, _TAPER, _ROUND),
        (oversize.STANDARD, oversize.OVERSIZES, oversize.ALLOWANCE),
        "Read at three heights, across the crankshaft's line and along it: the top just below "
        "where the top ring turns, the bottom above where the skirt ends.",
    )


def results(sheet: MeasureSheet) -> Results:
    still = missing(form(sheet), sheet)
    if still:
        return Results(missing=still)
    figures = _figures(sheet)
    worst = largest(taken(sheet).values())
    told = oversize.of_bore(sheet, worst, figures)
    return Results(figures, (), (_where(sheet), *told.said), told.work)


def _figures(sheet: MeasureSheet) -> tuple[Result, ...]:
    read = taken(sheet)
    by_slot = ((_SIZE, largest(read.values())), (_TAPER, _taper(read)), (_ROUND, _round(read)))
    return tuple(of_sheet(sheet, slot, one) for slot, one in by_slot)


def _taper(read: dict[str, Amount]) -> Amount:
    return abs(largest(_row(read, "top")) - largest(_row(read, "bottom")))


def _row(read: dict[str, Amount], height: str) -> list[Amount]:
    return at(read, *(f"{height}, {way}" for way in _WAYS))


def _round(read: dict[str, Amount]) -> Amount:
    across, along = (_column(read, way) for way in _WAYS)
    ways = (largest(across) - smallest(along), largest(along) - smallest(across))
    return max(ways, key=lambda one: one.value)


def _column(read: dict[str, Amount], way: str) -> list[Amount]:
    return at(read, *(f"{height}, {way}" for height in _HEIGHTS))


def _where(sheet: MeasureSheet) -> str:
    """Where it is worn to, in words."""
    read = taken(sheet)
    most = largest(read.values()).value
    if all(one.value == most for one in read.values()):
        return "Alike at all six places."
    places = [place for place in _PLACES if read[place.key].value == most]
    also = f", and {len(places) - 1} more alike" if len(places) > 1 else ""
    return f"Largest at the {places[0].row}, {places[0].column}{also}."
