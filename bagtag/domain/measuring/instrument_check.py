"""An instrument as it may be kept, and what is to be said of its calibration."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from bagtag.domain.clean import NAME_LIMIT, NOTE_LIMIT, clean_text
from bagtag.domain.days import months_since
from bagtag.domain.errors import BadInput
from bagtag.domain.measuring import units
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.phrases import capital

UNITS = tuple(
    unit
    for kind in (units.LENGTH, units.FORCE, units.VOLUME, units.ANGLE)
    for unit in units.of_dimension(kind)
)
"""What an instrument of a bench shows."""
MONTHS = 12
"""How long a calibration is taken to hold (common practice, no source)."""


def checked_instrument(one: Instrument) -> Instrument:
    """The instrument as it is kept, its texts made clean; BadInput says what cannot be."""
    name = clean_text(one.name, limit=NAME_LIMIT, field="name", what="The instrument's name")
    if not name:
        raise BadInput("Give the instrument a name: micrometer 50–75, dial gauge.", field="name")
    if one.unit not in UNITS:
        known = ", ".join(UNITS)
        raise BadInput(f"{one.unit or 'Nothing'} is no unit here. Choose: {known}.", field="unit")
    if not one.resolution.is_finite() or one.resolution <= 0:
        raise BadInput(
            "The smallest step of an instrument is above zero: 0.01 mm for most micrometers.",
            field="resolution",
        )
    note = clean_text(one.note, lines=True, limit=NOTE_LIMIT, field="note", what="The note")
    return replace(one, name=name, note=note)


def calibration(one: Instrument, today: date) -> str:
    """What is to be said of an instrument's calibration on a day; nothing where it is in date."""
    on = one.calibrated_on
    if on is None:
        return (
            f"{capital(one.name)}: nobody noted when it was last calibrated. Try it on a known "
            "size, and note the day."
        )
    if on > today:
        return f"{capital(one.name)}: calibrated on {on.isoformat()}, a day still to come."
    if months_since(on, today) < MONTHS:
        return ""
    return (
        f"{capital(one.name)}: last calibrated on {on.isoformat()}, {MONTHS} months ago or more. "
        "Try it on a known size before it decides a part."
    )


def step_in(one: Instrument, unit: str) -> Decimal:
    """The smallest step of an instrument in the unit of a reading; BadInput where it shows
    something else, a force where a length is wanted."""
    if units.dimension(one.unit) != units.dimension(unit):
        raise BadInput(
            f"The {one.name} reads {one.unit}, and this place is read in {unit}. Choose another.",
            field="instrument",
        )
    return units.converted(one.resolution, one.unit, unit)
