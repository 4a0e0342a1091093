"""Readings that look like a slip: inches in a field of millimetres, a point in the wrong place."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from statistics import median_low

from bagtag.domain.measuring import forms, ring_gap
from bagtag.domain.measuring.amounts import given_one, limits, taken
from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import Place
from bagtag.domain.measuring.sheet import Limits, MeasureSheet, Reading, SheetKind
from bagtag.domain.measuring.units import INCH, LENGTH, dimension
from bagtag.domain.measuring.valves import SIDES
from bagtag.domain.measuring.verdict import in_unit, sides
from bagtag.domain.phrases import capital

ALIKE = {
    SheetKind.SIZE,
    SheetKind.BORE,
    SheetKind.JOURNAL,
    SheetKind.BEARING,
    SheetKind.PISTON,
}
"""Kinds whose readings are all of about one size."""
_LIMITED_BY = {
    SheetKind.SIZE: "size",
    SheetKind.BORE: "size",
    SheetKind.JOURNAL: "size",
    SheetKind.PLASTIC_GAUGE: "clearance",
    SheetKind.RING_GAP: "gap",
    SheetKind.END_FLOAT: "end float",
    SheetKind.BACKLASH: "backlash",
    SheetKind.RUN_OUT: "run-out",
    SheetKind.FLATNESS: "flatness",
}
"""The figure whose limits a reading of the kind can itself be held against."""
_OF_SPRING = {"free length": "length", "load": "load"}
_POINTS = tuple(map(Decimal, ("10", "0.1", "100", "0.01", "1000", "0.001")))


@dataclass(frozen=True, slots=True)
class Expected:
    """Where a reading is expected: `low` to `high`, in the unit of its place. `wide` is how far
    outside still passes for wear, `near` how near a mended slip must come; both are factors. `what`
    is what may itself be in the wrong unit."""

    low: Decimal
    high: Decimal
    words: str
    wide: Decimal = Decimal("1.25")
    near: Decimal = Decimal("1.04")
    what: str = ""

    def takes(self, value: Decimal) -> bool:
        return self.low / self.wide <= value <= self.high * self.wide

    def mended(self, value: Decimal, factors: Sequence[Decimal]) -> Decimal | None:
        """The first slip that brings a reading among those expected, else near them; the last of
        them is tried after all."""
        within = ((one, Decimal(1)) for one in factors[:-1])
        tried = (*within, *((one, self.near) for one in factors))
        return next((one for one, near in tried if self._is_near(value * one, near)), None)

    def _is_near(self, value: Decimal, near: Decimal) -> bool:
        return self.low / near <= value <= self.high * near


@dataclass(frozen=True, slots=True)
class _Slip:
    place: Place
    reading: Reading
    factor: Decimal | None
    expected: Expected


def questions(sheet: MeasureSheet) -> tuple[str, ...]:
    places = {place.key: place for place in forms.form(sheet).places}
    known = [one for one in sheet.readings if one.key in places and one.value]
    slips = [_slip(sheet, places[one.key], one) for one in known]
    by_kind: dict[tuple[Decimal | None, str], list[_Slip]] = {}
    for slip in slips:
        if slip is not None:
            by_kind.setdefault((slip.factor, slip.expected.words), []).append(slip)
    return tuple(filter(None, map(_said, by_kind.values())))


def _slip(sheet: MeasureSheet, place: Place, reading: Reading) -> _Slip | None:
    unit = place.unit or sheet.unit
    one = taken(sheet, unit).get(place.key)
    if one is None:
        return None
    value = abs(one.value)
    for expected in _expected(sheet, place, unit):
        if expected.takes(value):
            continue
        found = expected.mended(value, _factors(reading.unit, unit))
        if found is not None or sheet.kind in ALIKE:
            return _Slip(place, reading, found, expected)
    return None


def _factors(typed: str, unit: str) -> Sequence[Decimal]:
    """The other unit first, then the point, then the other unit for what it is held against."""
    if dimension(unit) != LENGTH:
        return _POINTS
    of_reading, of_others = (INCH, 1 / INCH) if typed == "mm" else (1 / INCH, INCH)
    return (of_reading, *_POINTS, of_others)


def _expected(sheet: MeasureSheet, place: Place, unit: str) -> Iterable[Expected]:
    """What a reading is held against, the surest first."""
    standard = given_one(sheet, "standard", unit) if sheet.kind in _LIMITED_BY else None
    if standard and sheet.kind in ALIKE:
        words = f"beside the standard size {show(standard)} {unit}"
        yield Expected(standard, standard, words, what="the standard size")
    held = limits(sheet, *_keys(sheet.kind, place))
    if held is not None:
        yield from _by_limits(in_unit(held, unit), sheet.kind)
    elif sheet.kind is SheetKind.RING_GAP and (usual := ring_gap.usual_of(sheet, place.number)):
        words = f"beside the usual {show(usual)} {unit} of this bore"
        yield Expected(usual, usual, words, Decimal(5), Decimal(2), what="the bore")
    if sheet.kind is SheetKind.VALVES and place.column == "shim":
        yield from _by_other_shims(sheet, place, unit)
    others = _others(sheet, place, unit)
    if others is not None:
        yield Expected(others, others, f"among readings of {show(others)} {unit}")


def _keys(kind: SheetKind, place: Place) -> tuple[str, ...]:
    if kind is SheetKind.SPRING:
        return (_OF_SPRING[place.key],)
    if kind is SheetKind.VALVES:
        return tuple(side for side in SIDES if f" {side}" in place.row and "shim" not in place.key)
    if kind is SheetKind.DECK:
        return ("deck",)
    if kind is SheetKind.RING_GAP:
        return (f"gap {place.number}", "gap")
    return (_LIMITED_BY.get(kind, place.key),)


def _by_limits(held: Limits, kind: SheetKind) -> Iterable[Expected]:
    known = [side for side in sides(held) if side]
    if not known or min(known) < 0:
        return
    words = f"beside limits of {_span(min(known), max(known))} {held.unit}"
    if kind in ALIKE or kind is SheetKind.SPRING:
        yield Expected(min(known), max(known), words, what="the limits")
    else:
        low, high = _small(held)
        yield Expected(low, high, words, Decimal(3), Decimal(2), what="the limits")


def _small(held: Limits) -> tuple[Decimal, Decimal]:
    """Where a gap or a float is expected: a tenth of what it may be at most where nothing is said
    of the least, and ten times the least where nothing is said of the most."""
    lows = [one for one in (held.new_low, held.wear_low) if one]
    highs = [one for one in (held.new_high, held.wear_high) if one]
    low = min(lows) if lows else min(highs) / 10
    return low, max(highs) if highs else max(lows) * 10


def _by_other_shims(sheet: MeasureSheet, place: Place, unit: str) -> Iterable[Expected]:
    """Shims of one engine differ, and none is twice another."""
    rest = [
        one.value
        for key, one in taken(sheet, unit).items()
        if key.endswith("shim") and key != place.key and one.value
    ]
    if rest:
        low, high = min(rest), max(rest)
        words = f"beside shims of {_span(low, high)} {unit}"
        yield Expected(low, high, words, Decimal(2), Decimal("1.5"))


def _span(low: Decimal, high: Decimal) -> str:
    return show(low) if low == high else f"{show(low)} to {show(high)}"


def _others(sheet: MeasureSheet, place: Place, unit: str) -> Decimal | None:
    """The size most of the readings have; of only two, the first is held to be right."""
    read = taken(sheet, unit)
    if sheet.kind not in ALIKE or len(read) < 2:
        return None
    if len(read) > 2:
        return median_low([one.value for one in read.values()])
    first, second = read
    return read[first if place.key == second else second].value


def _said(slips: list[_Slip]) -> str:
    first = slips[0]
    also = f" and {len(slips) - 1} more" if len(slips) > 1 else ""
    value = f"{show(first.reading.value)} {first.reading.unit}".strip()
    start = f"{capital(first.place.name)}{also}: {value} {first.expected.words}"
    if first.factor is None:
        return f"{start} is far off. Read it again."
    if first.factor in (INCH, 1 / INCH):
        return _of_unit(first, start)
    meant = show((first.reading.value * first.factor).normalize())
    return f"{start}: was {meant} meant? Look at the point."


def _of_unit(slip: _Slip, start: str) -> str:
    unit = slip.reading.unit
    other = "in" if unit == "mm" else "mm"
    if (slip.factor == INCH) is (unit == "mm"):
        assert slip.factor is not None
        turned = round(slip.reading.value * slip.factor, 3 if unit == "mm" else 4).normalize()
        return (
            f"{start}: {show(slip.reading.value)} {other} is {show(turned)} {unit}. Say the unit."
        )
    if not slip.expected.what:
        return ""
    inches = "inches" if other == "in" else "millimetres"
    return f"{start}: {slip.expected.what} would fit in {inches}. Look at the unit."
