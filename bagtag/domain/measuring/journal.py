"""A journal: two sections, two directions at right angles; size, taper, out of round.

Size is the smallest reading; taper is what one direction differs by from section to section; out
of round is what the two directions of one section differ by; the worst of each (common practice,
no source).
"""

from bagtag.domain.measuring import oversize
from bagtag.domain.measuring.amounts import Amount, largest, missing, smallest, taken
from bagtag.domain.measuring.form import FigureSlot, SheetForm, grid
from bagtag.domain.measuring.result import Results
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.verdict import of_sheet

_SECTIONS, _WAYS = ("one end", "other end"), ("first way", "square to it")
_PLACES = grid(_SECTIONS, _WAYS)
_SIZE = FigureSlot("size", "journal", low=True)
_TAPER = FigureSlot("taper", "taper")
_ROUND = FigureSlot("out of round", "out of round")


def form(_: MeasureSheet) -> SheetForm:
    return SheetForm(
        SheetKind.JOURNAL,
        _PLACES,
        (_SIZE, _TAPER, _ROUND),
        (oversize.STANDARD, oversize.UNDERSIZES, oversize.ALLOWANCE),
        "Read near both ends of the journal, clear of the fillets and of the oil hole, in two "
        "directions square to one another.",
    )


def results(sheet: MeasureSheet) -> Results:
    still = missing(form(sheet), sheet)
    if still:
        return Results(missing=still)
    read = taken(sheet)
    worst = smallest(read.values())
    by_slot = ((_SIZE, worst), (_TAPER, _taper(read)), (_ROUND, _round(read)))
    figures = tuple(of_sheet(sheet, slot, one) for slot, one in by_slot)
    told = oversize.of_journal(sheet, worst, figures)
    return Results(figures, (), told.said, told.work)


def _taper(read: dict[str, Amount]) -> Amount:
    one, other = _SECTIONS
    return largest(abs(read[f"{one}, {way}"] - read[f"{other}, {way}"]) for way in _WAYS)


def _round(read: dict[str, Amount]) -> Amount:
    first, square = _WAYS
    return largest(abs(read[f"{end}, {first}"] - read[f"{end}, {square}"]) for end in _SECTIONS)
