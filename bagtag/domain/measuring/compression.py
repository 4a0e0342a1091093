"""Compression ratio and displacement, before and after a rebore."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from bagtag.domain.measuring import amounts
from bagtag.domain.measuring.amounts import Amount, count, given_one, limits
from bagtag.domain.measuring.figures import converted, show
from bagtag.domain.measuring.form import FigureSlot, GivenSlot, Place, SheetForm
from bagtag.domain.measuring.result import Result, Results
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.measuring.verdict import result
from bagtag.domain.measuring.volumes import Cylinder, disc, displacement
from bagtag.domain.phrases import listed

MOST_CYLINDERS = 16
LEAST_RATIO, MOST_RATIO = 3, 30
"""No engine that runs is outside these (common practice, no source)."""
_CC = "cm³"
_PLACES = (
    Place("chamber", "combustion chamber", unit=_CC, number=1),
    Place("deck", "piston below the face", number=2, needed=False),
    Place("crown", "dish or dome of the piston", unit=_CC, number=3, needed=False),
)
_RATIO = FigureSlot("ratio", "compression ratio", low=True, is_number=True)
_OVER = {"gasket": "a gasket", "deck": "a deck height", "crown": "a dish or dome"}
_GIVEN = (
    GivenSlot("bore", "bore", needed=True),
    GivenSlot("stroke", "stroke", needed=True),
    GivenSlot("cylinders", "number of cylinders", is_number=True),
    GivenSlot("rebore", "bore after the rebore"),
    GivenSlot("gasket", "head gasket, pressed thickness"),
    GivenSlot("gasket bore", "head gasket, bore"),
)


def form(sheet: MeasureSheet) -> SheetForm:
    figures = (_RATIO, FigureSlot("displacement", "displacement", _volume_unit(sheet), low=True))
    return SheetForm(
        SheetKind.COMPRESSION,
        _PLACES,
        figures,
        _GIVEN,
        "Fill the chamber from a burette through a greased plate, valves and plug in, the head "
        "level. A piston that stands proud of the face is read below zero, and so is a dome.",
    )


def results(sheet: MeasureSheet) -> Results:
    bore, stroke = (given_one(sheet, key, "mm") for key in ("bore", "stroke"))
    if bore is None or stroke is None:
        return Results(missing=(*_not_given(sheet), *amounts.missing(form(sheet), sheet)))
    before = _read(sheet, bore, stroke)
    rebore = given_one(sheet, "rebore", "mm")
    states = [_State(sheet, before, "", rebore is None)]
    if rebore is not None:
        states = [
            _State(sheet, before, " now", False),
            _State(sheet, before.at(rebore), " after the rebore", True),
        ]
    figures = tuple(figure for state in states for figure in state.figures())
    told = tuple(_advice(sheet, states))
    return Results(figures, amounts.missing(form(sheet), sheet), told)


def _not_given(sheet: MeasureSheet) -> tuple[str, ...]:
    return tuple(slot.name for slot in _GIVEN if slot.needed and given_one(sheet, slot.key) is None)


def _volume_unit(sheet: MeasureSheet) -> str:
    return "in³" if sheet.unit == "in" else _CC


@dataclass(frozen=True, slots=True)
class _Read:
    """A cylinder as read, and how far off what is left over its piston may be, in cm³, None where
    nobody said what it was read with; `has_chamber` is whether its chamber was read."""

    cylinder: Cylinder
    steps: tuple[Amount, ...]
    has_chamber: bool

    def at(self, bore: Decimal) -> "_Read":
        return _Read(self.cylinder.rebored(bore), self.steps, self.has_chamber)

    @property
    def step(self) -> Decimal | None:
        return amounts.added(one.step for one in self.steps)


def _read(sheet: MeasureSheet, bore: Decimal, stroke: Decimal) -> _Read:
    volumes, lengths = amounts.taken(sheet, _CC), amounts.taken(sheet, "mm")
    nothing = Amount(Decimal(0))
    chamber, crown = (volumes.get(key, nothing) for key in ("chamber", "crown"))
    deck = lengths.get("deck", nothing)
    cylinder = Cylinder(
        bore,
        stroke,
        chamber.value,
        given_one(sheet, "gasket", "mm") or Decimal(0),
        given_one(sheet, "gasket bore", "mm"),
        deck.value,
        crown.value,
    )
    over = Amount(disc(bore, deck.value), None if deck.step is None else disc(bore, deck.step))
    return _Read(cylinder, (chamber, crown, over), "chamber" in volumes)


@dataclass(frozen=True, slots=True)
class _State:
    """The cylinder now or after the rebore; only the state that the engine will have `counts`, and
    is held against the limits."""

    sheet: MeasureSheet
    read: _Read
    when: str
    counts: bool

    def figures(self) -> Iterator[Result]:
        swept, unit = self.swept, _volume_unit(self.sheet)
        yield self._figure("displacement", swept, self.displacement, unit, None)
        if self.squeezed is not None and self.ratio is not None:
            yield self._figure("ratio", self.squeezed, self.ratio, "", self._ratio_step())

    def _figure(
        self, key: str, exact: Decimal, told: Decimal, unit: str, step: Decimal | None
    ) -> Result:
        """The figure as it is told; with all its digits where rounding would pass what is out."""
        slot = next(one for one in form(self.sheet).figures if one.key == key)
        named = FigureSlot(f"{key}{self.when}", f"{slot.name}{self.when}", unit, slot.low)
        held = limits(self.sheet, key) if self.counts else None
        rounded, true = (result(named, value, unit, step, held) for value in (told, exact))
        return rounded if rounded.verdict is true.verdict else true

    @property
    def swept(self) -> Decimal:
        """The displacement of all cylinders, in the sheet's unit of volume."""
        cylinder = self.read.cylinder
        number = count(self.sheet, "cylinders", 1, MOST_CYLINDERS)
        exact = displacement(cylinder.bore, cylinder.stroke, number)
        return converted(exact, _CC, _volume_unit(self.sheet))

    @property
    def displacement(self) -> Decimal:
        return round(self.swept, 2)

    @property
    def squeezed(self) -> Decimal | None:
        """The compression ratio with all its digits; None while the chamber is not read."""
        return self.read.cylinder.ratio if self.read.has_chamber else None

    @property
    def ratio(self) -> Decimal | None:
        return None if self.squeezed is None else round(self.squeezed, 3)

    def _ratio_step(self) -> Decimal | None:
        """How much higher the ratio is where what is left is smaller by all the steps."""
        cylinder, step = self.read.cylinder, self.read.step
        if step is None or cylinder.left <= step:
            return None
        return round(cylinder.swept / (cylinder.left - step) - cylinder.swept / cylinder.left, 3)


def _advice(sheet: MeasureSheet, states: list[_State]) -> Iterator[str]:
    yield from _unlikely(states[-1])
    if len(states) == 2:
        yield from _rebored(sheet, states)
    if states[-1].ratio is not None:
        yield from _left_out(sheet)
    yield from _narrow(sheet, states[-1].read.cylinder)


def _unlikely(state: _State) -> Iterator[str]:
    """What no engine has."""
    if state.read.has_chamber and state.read.cylinder.left <= 0:
        yield (
            "Nothing would be left over the piston: look at the signs of the deck and of the "
            "dish. Below zero is proud of the face, or a dome."
        )
    if state.ratio is not None and not LEAST_RATIO <= state.ratio <= MOST_RATIO:
        yield f"No engine runs at {show(state.ratio)} to 1: look at the points and the units."


def _rebored(sheet: MeasureSheet, states: list[_State]) -> Iterator[str]:
    before, after = states
    yield _both(sheet, states)
    if after.read.cylinder.bore <= before.read.cylinder.bore:
        yield "A rebore makes the bore larger, and this one does not: look at both figures."
    if after.ratio is not None:
        yield "Crown and deck are taken as they are now: read them again with the new piston."


def _left_out(sheet: MeasureSheet) -> Iterator[str]:
    """What is over the piston and was neither read nor given, so that the ratio is not that of the
    engine."""
    known = {*(one.key for one in sheet.readings), *(one.key for one in sheet.given)}
    names = [name for key, name in _OVER.items() if key not in known]
    if names:
        yield (
            f"Reckoned without {listed(names)}: the ratio is only right where there is none. Give "
            "0 then."
        )


def _narrow(sheet: MeasureSheet, cylinder: Cylinder) -> Iterator[str]:
    if cylinder.gasket_bore is None or cylinder.gasket_bore >= cylinder.bore:
        return
    narrow, bore = (
        show(converted(one, "mm", sheet.unit)) for one in (cylinder.gasket_bore, cylinder.bore)
    )
    yield (
        f"The gasket's bore, {narrow} {sheet.unit}, is smaller than the cylinder's, {bore}: it "
        "would stand in the flame. Take a gasket for this bore."
    )


def _both(sheet: MeasureSheet, states: list[_State]) -> str:
    before, after = states
    unit = _volume_unit(sheet)
    said = (
        f"Bored from {_bore(before)} to {_bore(after)} {sheet.unit}: "
        f"{show(before.displacement)} to {show(after.displacement)} {unit}"
    )
    if before.ratio is None or after.ratio is None:
        return f"{said}."
    return f"{said}, ratio {show(before.ratio)} to {show(after.ratio)}."


def _bore(state: _State) -> str:
    return show(converted(state.read.cylinder.bore, "mm", state.sheet.unit))
