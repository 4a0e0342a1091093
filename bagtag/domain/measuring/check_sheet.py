"""A measuring sheet as it may be kept; what cannot be is BadInput with one sentence."""

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from bagtag.domain.clean import NAME_LIMIT, NOTE_LIMIT, clean_text
from bagtag.domain.errors import BadInput
from bagtag.domain.measuring import (
    clearance,
    compression,
    deck,
    forms,
    plain,
    ring_gap,
    units,
    valves,
)
from bagtag.domain.measuring.figures import MOST, show
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place
from bagtag.domain.measuring.sheet import Given, Limits, MeasureSheet, Reading, SheetKind
from bagtag.domain.measuring.verdict import sides
from bagtag.domain.phrases import capital

_SIGNED = {SheetKind.RUN_OUT, SheetKind.DECK, SheetKind.COMPRESSION}
"""Kinds whose figures may be below zero: a dial's, a crown below its deck."""
_SIZES = {
    SheetKind.SIZE,
    SheetKind.BORE,
    SheetKind.JOURNAL,
    SheetKind.BEARING,
    SheetKind.PISTON,
    SheetKind.SPRING,
}
"""Kinds whose readings are sizes of a part, so that none of them is zero."""
COLDEST, HOTTEST = Decimal(-40), Decimal(200)
"""Of a part that is measured, in °C."""
MOST_GIVEN = 200
_COUNTS = {
    (SheetKind.SIZE, "places"): plain.MOST_PLACES,
    (SheetKind.PLASTIC_GAUGE, "places"): clearance.MOST_PLACES,
    (SheetKind.RING_GAP, "rings"): ring_gap.MOST_RINGS,
    (SheetKind.VALVES, "cylinders"): valves.MOST_CYLINDERS,
    (SheetKind.VALVES, "inlet"): valves.MOST_VALVES,
    (SheetKind.VALVES, "exhaust"): valves.MOST_VALVES,
    (SheetKind.DECK, "cylinders"): deck.MOST_CYLINDERS,
    (SheetKind.COMPRESSION, "cylinders"): compression.MOST_CYLINDERS,
}
"""Givens that are counts, and how many there are at most."""


def checked(sheet: MeasureSheet) -> MeasureSheet:
    """The sheet with its texts made clean; BadInput names "title", "note", "unit", "given",
    "readings" or "limits"."""
    if units.dimension(sheet.unit) != units.LENGTH:
        raise BadInput(f"A sheet is in mm or in, not in {sheet.unit or 'nothing'}.", field="unit")
    _check_given(sheet)
    asked = forms.form(sheet)
    _check_readings(sheet, {place.key: place for place in asked.places})
    _check_limits(sheet, {slot.key: slot for slot in asked.figures})
    return replace(
        sheet,
        title=clean_text(sheet.title, limit=NAME_LIMIT, field="title", what="The title"),
        note=clean_text(sheet.note, lines=True, limit=NOTE_LIMIT, field="note", what="The note"),
        readings=tuple(replace(one, instrument=_instrument(one)) for one in sheet.readings),
    )


def _instrument(one: Reading) -> str:
    what = "The instrument's name"
    return clean_text(one.instrument, limit=NAME_LIMIT, field="readings", what=what)


def _check_given(sheet: MeasureSheet) -> None:
    for one in sheet.given:
        _check_figure(one.value, f"What is given as {one.key}", "given")
    slots = {slot.key: slot for slot in forms.form(sheet).given}
    if len(sheet.given) > MOST_GIVEN:
        raise BadInput(f"A sheet takes {MOST_GIVEN} given figures at most.", field="given")
    for one in sheet.given:
        _check_one_given(sheet, one, slots.get(one.key))
    _check_once(
        (one.key for one in sheet.given if not slots[one.key].several),
        {key: slot.name for key, slot in slots.items()},
        "given",
    )


def _check_one_given(sheet: MeasureSheet, one: Given, slot: GivenSlot | None) -> None:
    if slot is None:
        raise BadInput(f"This sheet has no use for {one.key}. Take it out.", field="given")
    wanted = "" if slot.is_number else slot.unit or sheet.unit
    if one.unit and units.dimension(one.unit) != units.dimension(wanted):
        raise _foreign(one.unit, slot.name, wanted, "given")
    most = _COUNTS.get((sheet.kind, one.key))
    if most is not None and one.value not in range(1, most + 1):
        raise BadInput(
            f"{capital(slot.name)}: give a whole number from 1 to {most}, not {show(one.value)}.",
            field="given",
        )
    if one.value < 0 and sheet.kind not in _SIGNED:
        raise BadInput(
            f"{capital(slot.name)} cannot be {show(one.value)}, below zero.", field="given"
        )


def _check_readings(sheet: MeasureSheet, places: dict[str, Place]) -> None:
    names = {key: place.name for key, place in places.items()}
    for one in sheet.readings:
        if one.key not in places:
            raise BadInput(
                f"This sheet has no place {one.key}, and one is read there. Take that reading out "
                "first.",
                field="readings",
            )
        _check_reading(sheet, one, places[one.key])
    _check_once((one.key for one in sheet.readings), names, "readings")


def _check_reading(sheet: MeasureSheet, one: Reading, place: Place) -> None:
    wanted = place.unit or sheet.unit
    if units.dimension(one.unit) != units.dimension(wanted):
        raise _foreign(one.unit, place.name, wanted, "readings")
    _check_figure(one.value, f"The reading {place.name}", "readings")
    if one.value < 0 and sheet.kind not in _SIGNED:
        raise _too_small(place, one, "is below zero")
    if not one.value and sheet.kind in _SIZES:
        raise _too_small(place, one, "is no size")
    _check_step(one, place)
    _check_temperature(one, place)


def _too_small(place: Place, one: Reading, why: str) -> BadInput:
    said = f"The reading {place.name} {why}: {show(one.value)} {one.unit}. Read it again."
    return BadInput(said, field="readings")


def _check_step(one: Reading, place: Place) -> None:
    if one.resolution is None or (one.resolution.is_finite() and one.resolution > 0):
        return
    raise BadInput(
        f"The smallest step {place.name} was read in is above zero: 0.01 mm for most micrometers. "
        "Leave it empty where nobody knows.",
        field="readings",
    )


def _check_temperature(one: Reading, place: Place) -> None:
    warm = one.temperature
    if warm is None or (warm.is_finite() and COLDEST <= warm <= HOTTEST):
        return
    raise BadInput(
        f"The temperature {place.name} is {show(warm)} °C; a part is measured between "
        f"{show(COLDEST)} and {show(HOTTEST)} °C.",
        field="readings",
    )


def _check_limits(sheet: MeasureSheet, slots: dict[str, FigureSlot]) -> None:
    for one in sheet.limits:
        slot = slots.get(one.key)
        if slot is None:
            raise BadInput(
                f"This sheet has no figure {one.key}. Take its limits out.", field="limits"
            )
        wanted = "" if slot.is_number else slot.unit or sheet.unit
        if units.dimension(one.unit) != units.dimension(wanted):
            raise _foreign(one.unit, slot.name, wanted, "limits")
        _check_sides(sheet, one, slot)
    names = {key: slot.name for key, slot in slots.items()}
    _check_once((one.key for one in sheet.limits), names, "limits")


def _check_sides(sheet: MeasureSheet, one: Limits, slot: FigureSlot) -> None:
    for side in sides(one):
        if side is not None:
            _check_figure(side, f"A limit of {slot.name}", "limits")
            if side < 0 and sheet.kind not in _SIGNED:
                raise BadInput(
                    f"A limit of {slot.name} is {show(side)}, below zero. Correct it.",
                    field="limits",
                )
    _check_turned(slot, "as new", one.new_low, one.new_high)
    _check_turned(slot, "of wear", one.wear_low, one.wear_high)
    _check_tighter(slot, one)


def _check_turned(slot: FigureSlot, which: str, low: Decimal | None, high: Decimal | None) -> None:
    if low is not None and high is not None and low > high:
        raise BadInput(
            f"The limits of {slot.name} {which} are the wrong way round: at least {show(low)} and "
            f"at most {show(high)}. Change them over.",
            field="limits",
        )


def _check_tighter(slot: FigureSlot, one: Limits) -> None:
    """A limit of wear lies beyond that of a new part, or on it; and both ends leave room."""
    if one.wear_high is not None:
        _check_beyond(slot, one.wear_high, one.new_high, is_above=True)
        _check_beyond(slot, one.wear_high, one.new_low, is_above=True)
    if one.wear_low is not None:
        _check_beyond(slot, one.wear_low, one.new_low, is_above=False)
        _check_beyond(slot, one.wear_low, one.new_high, is_above=False)


def _check_beyond(slot: FigureSlot, wear: Decimal, new: Decimal | None, *, is_above: bool) -> None:
    if new is None or (wear >= new if is_above else wear <= new):
        return
    raise BadInput(
        f"The wear limit of {slot.name}, {show(wear)}, is tighter than {show(new)} of a new part. "
        "Change them over, or correct one.",
        field="limits",
    )


def _check_figure(value: Decimal, what: str, field: str) -> None:
    if not value.is_finite():
        raise BadInput(f"{what} is no figure. Give it again.", field=field)
    if abs(value) > MOST:
        raise BadInput(f"{what} cannot be {show(value)}. Give it again.", field=field)


def _check_once(keys: Iterable[str], names: dict[str, str], field: str) -> None:
    seen: set[str] = set()
    for key in keys:
        if key in seen:
            raise BadInput(f"{capital(names[key])} is there twice. Take one out.", field=field)
        seen.add(key)


def _foreign(unit: str, what: str, wanted: str, field: str) -> BadInput:
    known = " or ".join(units.of_dimension(units.dimension(wanted))) or "no unit at all"
    said = f"{unit or 'Nothing'} is no unit for {what}. Give it in {known}."
    return BadInput(said, field=field)
