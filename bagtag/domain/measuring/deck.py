"""Deck height: how far each piston stays below the face at the top of its stroke, and the squish.

It is read over the gudgeon pin, at both ends of it, where rocking does not show (common practice,
no source); a piston that stands proud is below zero.
"""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from bagtag.domain.measuring.amounts import (
    Amount,
    at,
    count,
    given_one,
    largest,
    missing,
    smallest,
    taken,
)
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place, SheetForm
from bagtag.domain.measuring.result import Result, Results
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.verdict import of_sheet

MOST_CYLINDERS = 16
_ENDS = ("front", "rear")
_DECK = FigureSlot("deck", "deck height", low=True)
_TILT = FigureSlot("tilt", "front to rear")
_SQUISH = FigureSlot("squish", "squish", low=True)
_SPREAD = FigureSlot("spread", "between cylinders")


def form(sheet: MeasureSheet) -> SheetForm:
    number = _cylinders(sheet)
    places = (
        Place(f"{one}, {end}", _row(one, number), end, number=2 * one - 1 + _ENDS.index(end))
        for one in range(1, number + 1)
        for end in _ENDS
    )
    return SheetForm(
        SheetKind.DECK,
        tuple(places),
        (_DECK, _TILT, _SQUISH, *((_SPREAD,) if number > 1 else ())),
        (
            GivenSlot("cylinders", "number of cylinders", is_number=True),
            GivenSlot("gasket", "head gasket, pressed thickness"),
        ),
        "Turn to the top of the stroke by the dial, and read over both ends of the gudgeon pin. A "
        "piston that stands proud of the face is read below zero.",
    )


def _cylinders(sheet: MeasureSheet) -> int:
    return count(sheet, "cylinders", 1, MOST_CYLINDERS)


def _row(one: int, number: int) -> str:
    return f"cylinder {one}" if number > 1 else "over the pin"


def results(sheet: MeasureSheet) -> Results:
    read, number = taken(sheet), _cylinders(sheet)
    pairs = {one: at(read, *(f"{one}, {end}" for end in _ENDS)) for one in range(1, number + 1)}
    whole = {one: pair for one, pair in pairs.items() if len(pair) == len(_ENDS)}
    figures = [figure for one, pair in whole.items() for figure in _of(sheet, one, pair)]
    decks = [_middle(pair) for pair in whole.values()]
    if number > 1 and len(decks) == number:
        figures.append(of_sheet(sheet, _SPREAD, largest(decks) - smallest(decks)))
    return Results(tuple(figures), missing(form(sheet), sheet), tuple(_advice(sheet, decks)))


def _of(sheet: MeasureSheet, one: int, pair: list[Amount]) -> Iterator[Result]:
    """The figures of one cylinder; named by it where there are several."""
    deck, tilt, squish = (_named(slot, sheet, one) for slot in (_DECK, _TILT, _SQUISH))
    yield of_sheet(sheet, deck, _middle(pair), _DECK.key)
    yield of_sheet(sheet, tilt, abs(pair[0] - pair[1]), _TILT.key)
    gasket = given_one(sheet, "gasket", sheet.unit)
    if gasket is not None:
        yield of_sheet(sheet, squish, _middle(pair) + Amount(gasket), _SQUISH.key)


def _named(slot: FigureSlot, sheet: MeasureSheet, one: int) -> FigureSlot:
    if _cylinders(sheet) == 1:
        return slot
    return replace(slot, key=f"{slot.key} {one}", name=f"cylinder {one}, {slot.name}")


def _middle(pair: list[Amount]) -> Amount:
    total = pair[0] + pair[1]
    return Amount(total.value / 2, None if total.step is None else total.step / 2)


def _advice(sheet: MeasureSheet, decks: list[Amount]) -> Iterator[str]:
    proud = -min((one.value for one in decks), default=Decimal(0))
    if proud <= 0:
        return
    gasket = given_one(sheet, "gasket", sheet.unit)
    if gasket is None:
        yield (
            f"A piston stands {show(proud)} {sheet.unit} proud: give the gasket's pressed "
            "thickness to see what is left to the head."
        )
    elif gasket <= proud:
        yield (
            f"A piston stands {show(proud)} {sheet.unit} proud and the gasket is {show(gasket)}: "
            "it would strike the head. Take a thicker gasket."
        )
