"""A face under a straight edge: the widest gap over four to six lines.

Where the maker gives no limit but a rate, the limit is the rate times the span (0.00075 in per
inch is published for one cylinder head; see tests/check_values/measuring.json).
"""

from decimal import Decimal

from bagtag.domain.measuring.amounts import Amount, given_one, largest, limits, missing, taken
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place, SheetForm
from bagtag.domain.measuring.result import Result, Results, Verdict
from bagtag.domain.measuring.sheet import Limits, MeasureSheet, SheetKind
from bagtag.domain.measuring.verdict import result

_LINES = ("along", "across", "first diagonal", "second diagonal", "along, again", "across, again")
_NEEDED = 4
_FLATNESS = FigureSlot("flatness", "out of flat")


def allowed(span: Decimal, rate: Decimal) -> Decimal:
    """How far out of flat a face may be over its span, in the span's unit."""
    return span * rate


def form(_: MeasureSheet) -> SheetForm:
    return SheetForm(
        SheetKind.FLATNESS,
        tuple(
            Place(line, line, number=number, needed=number <= _NEEDED)
            for number, line in enumerate(_LINES, 1)
        ),
        (_FLATNESS,),
        (
            GivenSlot("span", "length of the face"),
            GivenSlot("rate", "allowed per unit of length (such as 0.00075)", is_number=True),
        ),
        "Clean the face, stand the straight edge on its edge along each line, and read the "
        "thickest feeler that goes under it; 0 where none does.",
    )


def results(sheet: MeasureSheet) -> Results:
    still = missing(form(sheet), sheet)
    if still:
        return Results(missing=still)
    read = taken(sheet)
    worst = largest(read.values())
    figure = result(_FLATNESS, worst.value, sheet.unit, worst.step, _limits(sheet))
    line = next(place for place in form(sheet).places if _is(read, place.key, worst.value))
    where = (f"Widest under the straight edge: {line.name}.",) if worst.value else ()
    skim = _skim(figure)
    return Results((figure,), (), (*where, *skim), skim)


def _is(read: dict[str, Amount], key: str, value: Decimal) -> bool:
    return key in read and read[key].value == value


def _limits(sheet: MeasureSheet) -> Limits | None:
    span, rate = given_one(sheet, "span", sheet.unit), given_one(sheet, "rate")
    held = limits(sheet, _FLATNESS.key)
    if held is not None or span is None or rate is None:
        return held
    return Limits(_FLATNESS.key, wear_high=allowed(span, rate), unit=sheet.unit)


def _skim(figure: Result) -> tuple[str, ...]:
    if figure.verdict is not Verdict.OUT:
        return ()
    return (
        f"At least {show(figure.value)} {figure.unit} must come off to make it flat: look in the "
        "maker's manual how much may.",
    )
