"""Units a figure can be measured in, by dimension, and how one turns into another."""

from decimal import Decimal

from bagtag.domain.errors import BadInput

INCH = Decimal("25.4")
"""Millimetres, exactly (NIST SP 811, B.8)."""

LENGTH, FORCE, VOLUME, ANGLE, NUMBER = "length", "force", "volume", "angle", "number"

# A pound is 0.45359237 kg and standard gravity 9.80665 m/s², both exactly (NIST SP 811, B.8).
_UNITS: dict[str, tuple[str, Decimal]] = {
    "mm": (LENGTH, Decimal(1)),
    "in": (LENGTH, INCH),
    "N": (FORCE, Decimal(1)),
    "kgf": (FORCE, Decimal("9.80665")),
    "lbf": (FORCE, Decimal("4.4482216152605")),
    "cm³": (VOLUME, Decimal(1)),
    "in³": (VOLUME, INCH**3 / 1000),
    "°": (ANGLE, Decimal(1)),
    "": (NUMBER, Decimal(1)),
}
_SPELT = {
    "millimetre": "mm",
    "millimetres": "mm",
    "inch": "in",
    "inches": "in",
    "in.": "in",
    '"': "in",
    "″": "in",
    "”": "in",
    "''": "in",
    "n": "N",
    "kg": "kgf",
    "lb": "lbf",
    "lbs": "lbf",
    "cc": "cm³",
    "ccm": "cm³",
    "ml": "cm³",
    "cm3": "cm³",
    "in3": "in³",
    "deg": "°",
}


def dimension(unit: str) -> str:
    """Length, force, volume, angle or number; empty for a unit that is none."""
    return _UNITS[unit][0] if unit in _UNITS else ""


def of_dimension(kind: str) -> tuple[str, ...]:
    """The units of a dimension, as they are written."""
    return tuple(unit for unit, (one, _) in _UNITS.items() if one == kind)


def spelt(text: str) -> str:
    """A unit as it is written here: `inch` and `"` are `in`. What is none comes back as it is."""
    word = text.strip()
    lower = word.casefold()
    known = {unit.casefold(): unit for unit in _UNITS}
    return _SPELT.get(lower) or known.get(lower, word)


def converted(value: Decimal, unit: str, to: str) -> Decimal:
    """A figure in another unit of its dimension; exact wherever the outcome has an end within 28
    figures, without zeros at its end. BadInput for units that do not turn into one another."""
    if unit == to:
        return value
    if not dimension(unit) or dimension(unit) != dimension(to):
        raise BadInput(f"{unit or 'A number'} cannot be turned into {to or 'a number'}.")
    return (value * _UNITS[unit][1] / _UNITS[to][1]).normalize()
