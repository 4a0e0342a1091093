"""What was likely meant where a torque cannot be right: another unit, or another decimal place."""

from collections.abc import Iterable

from bagtag.domain import clamp
from bagtag.domain.clamp import Sense
from bagtag.domain.hardware import HeldBy
from bagtag.domain.sealing import only_seals
from bagtag.domain.strength import Strength, strength
from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.domain.torque_pairs import mismatch
from bagtag.domain.torque_words import said

LIKELY = (0.3, 0.9)
"""Between these shares of the proof load a figure is offered as what was meant."""
LIKELY_OF_A_SEAL = (0.05, 0.4)
"""The same of what only seals (common practice, no source)."""
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
    within = LIKELY_OF_A_SEAL if only_seals(line) else LIKELY
    likely = [] if paired else _likely(line.torque, found, within)
    if not likely:
        return "Look at the figure, its unit, the thread and the class again. "
    taken = "" if found.strength else f" of the proof load, were it {_strength(found).called}"
    return "".join(_slip(line.torque, other, share, taken) for other, share in likely)


def _strength(found: Sense) -> Strength:
    """The class as noted, else the commonest one for such a thread (common practice)."""
    commonest = strength("8.8" if found.thread.is_metric else "5", found.thread)
    chosen = found.strength or commonest
    assert chosen is not None
    return chosen


def _likely(torque: Torque, found: Sense, within: tuple[float, float]) -> list[Meant]:
    """The likeliest other unit and the likeliest other decimal place, as far as any would suit."""
    shifted = [Torque(round(torque.value * by, 9), torque.unit) for by in _SHIFTS]
    by_unit = _likeliest(_in_units(torque, _TYPED), found, within)
    likely = by_unit + _likeliest(shifted, found, within)
    return likely or _likeliest(_in_units(torque, _BY_WEIGHT), found, within)


def _in_units(torque: Torque, units: Iterable[TorqueUnit]) -> list[Torque]:
    return [Torque(torque.value, unit) for unit in units if unit is not torque.unit]


def _likeliest(others: Iterable[Torque], found: Sense, within: tuple[float, float]) -> list[Meant]:
    """The one nearest to what bolts are usually tightened to, if any is likely."""
    strong = _strength(found)
    shares = [(one, clamp.of(one, found.thread, strong, found.friction).usual) for one in others]
    usual = USUAL if within == LIKELY else sum(within) / 2
    fit = [one for one in shares if within[0] <= one[1] <= within[1]]
    return sorted(fit, key=lambda one: abs(one[1] - usual))[:1]


def _slip(torque: Torque, other: Torque, share: float, taken: str) -> str:
    would = f"{said(other)} would be about {share * 100:.0f} %{taken}: "
    if other.unit is torque.unit:
        return f"{would}is the decimal point in its place? "
    return f"{would}was {other.unit.value} meant, not {torque.unit.value}? "
