"""Figures that are read as they are: one size, an end float, a backlash, a run-out."""

from bagtag.domain.measuring.amounts import Amount, at, count, largest, missing, smallest, taken
from bagtag.domain.measuring.clearance import spread
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place, SheetForm, numbered
from bagtag.domain.measuring.result import Result, Results
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.verdict import of_sheet

MOST_PLACES = 12
_SIZE = FigureSlot("size", "size", low=True)
_FLOAT = FigureSlot("end float", "end float", low=True)
_BACKLASH = FigureSlot("backlash", "backlash", low=True)
_VARIATION = FigureSlot("variation", "variation round the wheel")
_RUN_OUT = FigureSlot("run-out", "run-out")


def form(sheet: MeasureSheet) -> SheetForm:
    return _FORMS[sheet.kind] if sheet.kind in _FORMS else _of_size(sheet)


def _of_size(sheet: MeasureSheet) -> SheetForm:
    return SheetForm(
        SheetKind.SIZE,
        numbered(count(sheet, "places", 1, MOST_PLACES)),
        (_SIZE,),
        (
            GivenSlot("places", "places read", is_number=True),
            GivenSlot("standard", "standard size"),
        ),
        "Read the one size that wears, at as many places as it may differ.",
    )


_FORMS = {
    SheetKind.END_FLOAT: SheetForm(
        SheetKind.END_FLOAT,
        (Place("end float", "end float", number=1),),
        (_FLOAT,),
        how="Push the shaft to one end, set the dial to nothing, push it to the other end and "
        "read; or slip feelers in at the thrust face.",
    ),
    SheetKind.BACKLASH: SheetForm(
        SheetKind.BACKLASH,
        numbered(4, needed=3),
        (_BACKLASH, _VARIATION),
        how="Hold one wheel, rock the other against a dial set square to the tooth at the pitch "
        "circle; turn on by a third or a quarter and read again.",
    ),
    SheetKind.RUN_OUT: SheetForm(
        SheetKind.RUN_OUT,
        (
            Place("highest", "dial, highest", number=1),
            Place("lowest", "dial, lowest", number=2, needed=False),
        ),
        (_RUN_OUT,),
        how="Turn once round and read the dial's highest and lowest; one reading is enough where "
        "the dial was set to nothing at the lowest. The whole swing counts; where the manual gives "
        "an eccentricity, that is half of it.",
    ),
}


def results(sheet: MeasureSheet) -> Results:
    asked = form(sheet)
    still = missing(asked, sheet)
    if still:
        return Results(missing=still)
    read = taken(sheet)
    if sheet.kind is SheetKind.RUN_OUT:
        return Results((_run_out(sheet, read),))
    return Results(_spread(sheet, asked, at(read, *(place.key for place in asked.places))))


def _run_out(sheet: MeasureSheet, read: dict[str, Amount]) -> Result:
    highest, lowest = read["highest"], read.get("lowest")
    total = abs(highest if lowest is None else highest - lowest)
    return of_sheet(sheet, _RUN_OUT, total)


def _spread(sheet: MeasureSheet, asked: SheetForm, read: list[Amount]) -> tuple[Result, ...]:
    most, least = largest(read), smallest(read)
    figures = spread(sheet, asked.figures[0], most, least)
    if _VARIATION not in asked.figures:
        return figures
    return (*figures, of_sheet(sheet, _VARIATION, most - least))
