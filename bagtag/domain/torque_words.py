"""One torque in all its units, for reading."""

from collections.abc import Iterable
from math import floor, log10

from bagtag.domain.torque import Torque, TorqueUnit

UNITS = (
    TorqueUnit.NEWTON_METRE,
    TorqueUnit.POUND_FOOT,
    TorqueUnit.POUND_INCH,
    TorqueUnit.KILOGRAM_METRE,
    TorqueUnit.KILOGRAM_CENTIMETRE,
    TorqueUnit.OUNCE_INCH,
)
"""The units that are shown together."""

USUAL = UNITS[:4]
SMALL_UNITS = (
    TorqueUnit.NEWTON_METRE,
    TorqueUnit.POUND_INCH,
    TorqueUnit.KILOGRAM_CENTIMETRE,
    TorqueUnit.OUNCE_INCH,
)
SMALL = 2.0
"""Up to this many N·m a torque is told in the small units."""


def together(torque: Torque, units: Iterable[TorqueUnit] = UNITS) -> tuple[Torque, ...]:
    """The torque as it was given, then in each other unit, each rounded once from the exact value
    to three figures; whole numbers keep all of theirs."""
    others = (torque.to(unit) for unit in units if unit is not torque.unit)
    return (torque, *(Torque(readable(one.value), one.unit) for one in others))


def shown(torque: Torque, units: Iterable[TorqueUnit] | None = None) -> str:
    """`40 N·m = 29.5 lbf·ft = 354 lbf·in = 4.08 kgf·m`; without `units` those that suit its size,
    each figure rounded once, the given one exactly as it was given."""
    if units is None:
        units = SMALL_UNITS if torque.newton_metres() <= SMALL else USUAL
    return " = ".join(said(one) for one in together(torque, units))


def said(torque: Torque) -> str:
    """`1500000 lbf·in`, never in powers of ten."""
    return f"{torque.value:.10g} {torque.unit.value}"


def read_off(torque: Torque) -> str:
    """A worked-out torque in words, rounded once for reading: `29.5 lbf·ft`."""
    return said(Torque(readable(torque.value), torque.unit))


def readable(value: float) -> float:
    """A worked-out figure to three figures, whole ones kept: 29.502 -> 29.5, 1234.4 -> 1234."""
    if value == 0:
        return 0.0
    return round(value, max(0, 2 - floor(log10(abs(value)))))
