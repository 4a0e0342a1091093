"""What was likely meant where a torque cannot be right: another unit, or another decimal place."""

from collections.abc import Iterable

from bagtag.domain import clamp
from bagtag.domain.clamp import Sense
from bagtag.domain.hardware import HeldBy
from bagtag.domain.strength import Strength, strength
from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.domain.torque_pairs import mismatch
from bagtag.domain.torque_words import said

LIKELY = (0.3, 0.9)
"""Between these shares of the proof load a figure is offered as what was meant."""
_TYPED = (TorqueUnit.NEWTON_METRE, TorqueUnit.POUND_FOOT, TorqueUnit.POUND_INCH)
USUAL = 0.75
"""Bolts are tightened to about this share (SAE J429 torque-tension table)."""
_SHIFTS = (10.0, 0.1, 100.0, 0.01)
_BY_WEIGHT = (TorqueUnit.KILOGRAM_METRE, TorqueUnit.KILOGRAM_CENTIMETRE)

Meant = tuple[Torque, float]
"""A figure that would suit, and its share of the proof load."""


def meant(line: HeldBy, found: Sense) -> str:
    """The likely slip in words: another unit, another decimal place; where a second printed figure
    agrees, the unit was read right, and neither is offered."""
    assert line.torque is not None
    paired = line.also is not None and not mismatch(line.torque, line.also)
    likely = [] if paired else _likely(line.torque, found)
    if not likely:
        return "Look at the figure, its unit, the thread and the class again. "
    taken = "" if found.strength else f", were it {_strength(found).called}"
    return "".join(_slip(line.torque, other, share, taken) for other, share in likely)


def _strength(found: Sense) -> Strength:
    """The class as noted, else the commonest one for such a thread (common practice)."""
    commonest = strength("8.8" if found.thread.is_metric else "5", found.thread)
    chosen = found.strength or commonest
    assert chosen is not None
    return chosen


def _likely(torque: Torque, found: Sense) -> list[Meant]:
    """The likeliest other unit and the likeliest other decimal place, as far as any would suit."""
    shifted = [Torque(round(torque.value * by, 9), torque.unit) for by in _SHIFTS]
    likely = _likeliest(_in_units(torque, _TYPED), found) + _likeliest(shifted, found)
    return likely or _likeliest(_in_units(torque, _BY_WEIGHT), found)


def _in_units(torque: Torque, units: Iterable[TorqueUnit]) -> list[Torque]:
    return [Torque(torque.value, unit) for unit in units if unit is not torque.unit]


def _likeliest(others: Iterable[Torque], found: Sense) -> list[Meant]:
    """The one nearest to what bolts are usually tightened to, if any is likely."""
    strong = _strength(found)
    shares = [(one, clamp.of(one, found.thread, strong, found.friction).usual) for one in others]
    fit = [one for one in shares if LIKELY[0] <= one[1] <= LIKELY[1]]
    return sorted(fit, key=lambda one: abs(one[1] - USUAL))[:1]


def _slip(torque: Torque, other: Torque, share: float, taken: str) -> str:
    would = f"{said(other)} would be about {share * 100:.0f} %{taken}: "
    if other.unit is torque.unit:
        return f"{would}is the decimal point in its place? "
    return f"{would}was {other.unit.value} meant, not {torque.unit.value}? "
