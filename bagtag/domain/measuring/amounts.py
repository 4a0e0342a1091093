"""What the readings of a sheet come to in one unit, each with how far off it may be."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from bagtag.domain.measuring.form import SheetForm
from bagtag.domain.measuring.sheet import Limits, MeasureSheet, Reading
from bagtag.domain.measuring.units import converted, dimension


@dataclass(frozen=True, slots=True)
class Amount:
    """A figure and the smallest step it was read in, None where nobody said with what, or where it
    is exact. Steps add up, as the worst case has them."""

    value: Decimal
    step: Decimal | None = None

    def __sub__(self, other: "Amount") -> "Amount":
        return Amount(self.value - other.value, added((self.step, other.step)))

    def __add__(self, other: "Amount") -> "Amount":
        return Amount(self.value + other.value, added((self.step, other.step)))

    def __abs__(self) -> "Amount":
        return Amount(abs(self.value), self.step)


def added(steps: Iterable[Decimal | None]) -> Decimal | None:
    """The sum of those that are known: that far off it may be at least. None where none is."""
    known = [one for one in steps if one]
    return sum(known, Decimal(0)) if known else None


def largest(amounts: Iterable[Amount]) -> Amount:
    """The largest of several, as far off as the coarsest of them."""
    found = list(amounts)
    return Amount(max(one.value for one in found), _coarsest(found))


def smallest(amounts: Iterable[Amount]) -> Amount:
    found = list(amounts)
    return Amount(min(one.value for one in found), _coarsest(found))


def _coarsest(amounts: Iterable[Amount]) -> Decimal | None:
    return max((one.step for one in amounts if one.step), default=None)


def taken(sheet: MeasureSheet, unit: str = "") -> dict[str, Amount]:
    """The readings by place, in `unit`, or in that of the sheet; those that are of another
    dimension are left out."""
    to = unit or sheet.unit
    return {
        one.key: _amount(one, to) for one in sheet.readings if dimension(one.unit) == dimension(to)
    }


def _amount(one: Reading, to: str) -> Amount:
    step = None if one.resolution is None else converted(one.resolution, one.unit, to)
    return Amount(converted(one.value, one.unit, to), step)


def exact_unit(sheet: MeasureSheet) -> str:
    """The unit that shims are told in: that of the sheet where all of it is in it, else mm. An inch
    turns into millimetres without a remainder; the other way round it does not."""
    units = (
        *(one.unit for one in sheet.readings),
        *(one.unit for one in sheet.limits),
        *(one.unit for one in sheet.given),
    )
    return sheet.unit if {*units} <= {sheet.unit, ""} else "mm"


def at(amounts: Mapping[str, Amount], *keys: str) -> list[Amount]:
    """Those of these places that were read, in this order."""
    return [amounts[key] for key in keys if key in amounts]


def missing(form: SheetForm, sheet: MeasureSheet) -> tuple[str, ...]:
    """The names of the places still to be read."""
    read = {one.key: dimension(one.unit) for one in sheet.readings}
    return tuple(
        place.name
        for place in form.places
        if place.needed and read.get(place.key) != dimension(place.unit or sheet.unit)
    )


def limits(sheet: MeasureSheet, *keys: str) -> Limits | None:
    """The limits given for a figure; of several keys the first that has any."""
    by_key = {one.key: one for one in sheet.limits}
    return next((by_key[key] for key in keys if key in by_key), None)


def given(sheet: MeasureSheet, key: str, unit: str = "") -> tuple[Decimal, ...]:
    """What is given under a key, in `unit`, as given where that is empty. One without a unit is in
    that of the sheet, where that is of the same dimension."""
    own = sheet.unit if dimension(sheet.unit) == dimension(unit) else unit
    found = [one for one in sheet.given if one.key == key]
    return tuple(
        converted(one.value, one.unit or own, unit) if unit else one.value for one in found
    )


def given_one(sheet: MeasureSheet, key: str, unit: str = "") -> Decimal | None:
    return next(iter(given(sheet, key, unit)), None)


def count(sheet: MeasureSheet, key: str, usual: int, most: int) -> int:
    """How many places a sheet has, as given, between 1 and `most`."""
    said = given_one(sheet, key)
    return usual if said is None else max(1, min(int(said), most))
