"""What a cylinder sweeps and what is left over the piston: displacement and compression ratio."""

from dataclasses import dataclass, replace
from decimal import Decimal
from math import pi

PI = Decimal(repr(pi))
_CUBIC = Decimal(1000)
"""Cubic millimetres in a cubic centimetre."""


def disc(bore: Decimal, height: Decimal) -> Decimal:
    """The volume of a round space in cm³, its bore and height in mm; below zero where the height
    is."""
    return PI / 4 * bore * bore * height / _CUBIC


def displacement(bore: Decimal, stroke: Decimal, cylinders: int = 1) -> Decimal:
    """pi/4 x bore² x stroke x cylinders, in cm³; bore and stroke in mm."""
    return disc(bore, stroke) * cylinders


def ratio(swept: Decimal, left: Decimal) -> Decimal | None:
    """(swept + left) / left; None where nothing is left, which no engine has."""
    return (swept + left) / left if left > 0 else None


@dataclass(frozen=True, slots=True)
class Cylinder:
    """One cylinder, lengths in mm and volumes in cm³. `deck` is how far the piston stays below the
    face, below zero where it stands proud; `crown` is what a dish adds, below zero for a dome;
    `gasket_bore` None is a gasket as wide as the bore."""

    bore: Decimal
    stroke: Decimal
    chamber: Decimal
    gasket: Decimal = Decimal(0)
    gasket_bore: Decimal | None = None
    deck: Decimal = Decimal(0)
    crown: Decimal = Decimal(0)

    @property
    def swept(self) -> Decimal:
        return displacement(self.bore, self.stroke)

    @property
    def left(self) -> Decimal:
        """What is left over the piston at the top of its stroke."""
        gasket = disc(self.gasket_bore or self.bore, self.gasket)
        return self.chamber + gasket + disc(self.bore, self.deck) + self.crown

    @property
    def ratio(self) -> Decimal | None:
        return ratio(self.swept, self.left)

    def rebored(self, bore: Decimal) -> "Cylinder":
        """The same with another bore: stroke, chamber, gasket, deck and crown stay."""
        return replace(self, bore=bore)
