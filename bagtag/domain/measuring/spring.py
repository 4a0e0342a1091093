"""A spring: its free length, and its load where it is pressed to a length."""

from bagtag.domain.measuring.amounts import missing, taken
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place, SheetForm
from bagtag.domain.measuring.result import Results
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.verdict import of_sheet

LOAD_UNIT = "N"
_LENGTH = FigureSlot("length", "free length", low=True)
_LOAD = FigureSlot("load", "load", LOAD_UNIT, low=True)
_PLACES = (
    Place("free length", "free length", number=1),
    Place("load", "load at length", unit=LOAD_UNIT, number=2, needed=False),
)


def form(_: MeasureSheet) -> SheetForm:
    return SheetForm(
        SheetKind.SPRING,
        _PLACES,
        (_LENGTH, _LOAD),
        (GivenSlot("at length", "length it is pressed to"),),
        "Read the free length standing on a flat plate; the load with the spring pressed to the "
        "length the manual says. Wear glasses: a spring that slips flies.",
    )


def results(sheet: MeasureSheet) -> Results:
    figures = []
    for slot, key, unit in ((_LENGTH, "free length", sheet.unit), (_LOAD, "load", LOAD_UNIT)):
        one = taken(sheet, unit).get(key)
        if one is not None:
            figures.append(of_sheet(sheet, slot, one, unit=unit))
    return Results(tuple(figures), missing(form(sheet), sheet))
