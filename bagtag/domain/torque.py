"""A torque in the unit the manual gives it in, and a length in the unit it was measured in."""

from dataclasses import dataclass
from enum import StrEnum


class TorqueUnit(StrEnum):
    NEWTON_METRE = "N·m"
    POUND_FOOT = "lbf·ft"
    POUND_INCH = "lbf·in"
    KILOGRAM_METRE = "kgf·m"
    KILOGRAM_CENTIMETRE = "kgf·cm"
    OUNCE_INCH = "ozf·in"
    NEWTON_CENTIMETRE = "N·cm"
    DECANEWTON_METRE = "daN·m"


INCH = 25.4
"""Millimetres, exactly."""

# One inch is 0.0254 m, one pound 0.45359237 kg, standard gravity 9.80665 m/s² (NIST SP 811, B.8).
_NEWTON_METRES = {
    TorqueUnit.NEWTON_METRE: 1.0,
    TorqueUnit.POUND_FOOT: 0.3048 * 0.45359237 * 9.80665,
    TorqueUnit.POUND_INCH: 0.0254 * 0.45359237 * 9.80665,
    TorqueUnit.KILOGRAM_METRE: 9.80665,
    TorqueUnit.KILOGRAM_CENTIMETRE: 0.0980665,
    TorqueUnit.OUNCE_INCH: 0.0254 * 0.45359237 * 9.80665 / 16,
    TorqueUnit.NEWTON_CENTIMETRE: 0.01,
    TorqueUnit.DECANEWTON_METRE: 10.0,
}


@dataclass(frozen=True, slots=True)
class Torque:
    """A tightening torque in the unit the manual gives it in."""

    value: float
    unit: TorqueUnit = TorqueUnit.NEWTON_METRE

    def newton_metres(self) -> float:
        """The torque in N·m, by the exact inch, pound and standard gravity."""
        return self.value * _NEWTON_METRES[self.unit]

    def to(self, unit: TorqueUnit) -> "Torque":
        """The same torque in another unit, unrounded; in its own unit exactly as it was given."""
        if unit is self.unit:
            return self
        return Torque(self.newton_metres() / _NEWTON_METRES[unit], unit)

    def __str__(self) -> str:
        return f"{self.value:g} {self.unit.value}"


@dataclass(frozen=True, slots=True)
class Length:
    """A length as it was measured; `unit` is mm or in."""

    value: float
    unit: str = "mm"

    def millimetres(self) -> float:
        return self.value * INCH if self.unit == "in" else self.value

    def __str__(self) -> str:
        return f"{self.value:g} {self.unit}"
