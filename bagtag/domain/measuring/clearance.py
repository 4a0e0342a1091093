"""A clearance: a bearing on its journal, a piston in its bore, or read off a plastic gauge.

A clearance runs from (smallest outside less largest inside) to (largest outside less smallest
inside); both ends are held against the limits.
"""

from collections.abc import Sequence
from dataclasses import replace

from bagtag.domain.measuring.amounts import Amount, at, count, largest, missing, smallest, taken
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place, SheetForm, numbered
from bagtag.domain.measuring.result import Result, Results
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.verdict import of_sheet

CLEARANCE = FigureSlot("clearance", "clearance", low=True)
MOST_PLACES = 8
_TAPER = FigureSlot("taper", "taper over the length")
_BEARING = (
    Place("bearing, up and down", "bearing", "up and down", number=1),
    Place("bearing, across", "bearing", "across", number=2),
    Place("journal, up and down", "journal", "up and down", number=3),
    Place("journal, across", "journal", "across", number=4, needed=False),
)
_PISTON = (
    Place("bore, across", "bore", "across", number=1),
    Place("bore, along", "bore", "along", number=2),
    Place("skirt, across the pin", "skirt", "across the pin", number=3),
    Place("skirt, lower down", "skirt", "lower down", number=4, needed=False),
)
_HOW = {
    SheetKind.BEARING: "Read the bearing in its housing with the cap tightened as it will run, "
    "clear of the parting line; then the journal.",
    SheetKind.PISTON: "Read the bore where the skirt runs, and the skirt square to the pin at the "
    "height the manual says, both at the temperature of the room.",
    SheetKind.PLASTIC_GAUGE: "Lay the strip along the dry journal, tighten the cap fully, turn "
    "nothing, take it off and read the width of the strip against its scale.",
}


def form(sheet: MeasureSheet) -> SheetForm:
    if sheet.kind is SheetKind.PLASTIC_GAUGE:
        return _gauge(sheet)
    places = _BEARING if sheet.kind is SheetKind.BEARING else _PISTON
    return SheetForm(sheet.kind, places, (CLEARANCE,), how=_HOW[sheet.kind])


def _gauge(sheet: MeasureSheet) -> SheetForm:
    places = numbered(count(sheet, "places", 2, MOST_PLACES))
    figures = (CLEARANCE, _TAPER) if len(places) > 1 else (CLEARANCE,)
    asked = (GivenSlot("places", "places read along the strip", is_number=True),)
    return SheetForm(sheet.kind, places, figures, asked, _HOW[sheet.kind])


def results(sheet: MeasureSheet) -> Results:
    asked = form(sheet)
    still = missing(asked, sheet)
    if still:
        return Results(missing=still)
    read = taken(sheet)
    if sheet.kind is SheetKind.PLASTIC_GAUGE:
        return _of_gauge(sheet, asked, read)
    return Results(_between(sheet, *_sides(asked, read)))


def _sides(asked: SheetForm, read: dict[str, Amount]) -> tuple[list[Amount], list[Amount]]:
    outer = asked.places[0].row
    outside = at(read, *(place.key for place in asked.places if place.row == outer))
    return outside, at(read, *(place.key for place in asked.places if place.row != outer))


def _between(
    sheet: MeasureSheet, outside: Sequence[Amount], inside: Sequence[Amount]
) -> tuple[Result, ...]:
    most = largest(outside) - smallest(inside)
    return spread(sheet, CLEARANCE, most, smallest(outside) - largest(inside))


def _of_gauge(sheet: MeasureSheet, asked: SheetForm, read: dict[str, Amount]) -> Results:
    widths = at(read, *(place.key for place in asked.places))
    most, least = largest(widths), smallest(widths)
    figures = spread(sheet, CLEARANCE, most, least)
    if len(widths) == 1:
        return Results(figures)
    return Results((*figures, of_sheet(sheet, _TAPER, most - least)))


def spread(
    sheet: MeasureSheet, slot: FigureSlot, most: Amount, least: Amount
) -> tuple[Result, ...]:
    """The largest and the smallest of a figure, both against its limits; one where they are
    alike."""
    if most.value == least.value:
        return (of_sheet(sheet, slot, most),)
    small = replace(slot, key=f"{slot.key}, least", name=f"smallest {slot.name}")
    large = replace(slot, name=f"largest {slot.name}")
    return (of_sheet(sheet, large, most), of_sheet(sheet, small, least, slot.key))
