"""What was likely meant where a torque cannot be right: another unit, or another decimal place."""

from collections.abc import Iterator

from bagtag.domain import clamp
from bagtag.domain.clamp import Sense
from bagtag.domain.friction import Friction
from bagtag.domain.hardware import HeldBy
from bagtag.domain.strength import Strength, strength
from bagtag.domain.threads import Thread
from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.domain.torque_pairs import mismatch
from bagtag.domain.torque_words import said

LIKELY = (0.3, 0.9)
"""Between these shares of the proof load a figure is offered as what was meant."""
_TYPED = (TorqueUnit.NEWTON_METRE, TorqueUnit.POUND_FOOT, TorqueUnit.POUND_INCH)
_SHIFTS = (10.0, 0.1, 100.0, 0.01)
_BY_WEIGHT = (TorqueUnit.KILOGRAM_METRE, TorqueUnit.KILOGRAM_CENTIMETRE)


def meant(line: HeldBy, found: Sense) -> str:
    """The likely slip in words; where a second print agrees the unit was read right."""
    assert line.torque is not None
    strong = found.strength or strength("8.8" if found.thread.is_metric else "5", found.thread)
    paired = line.also is not None and not mismatch(line.torque, line.also)
    likely = [] if paired else list(_likely(line.torque, found.thread, strong, found.friction))
    if not likely:
        return "Look at the figure, its unit, the thread and the class again. "
    return "".join(_slip(line.torque, other, share) for other, share in likely[:2])


def _likely(
    torque: Torque, thread: Thread, strong: Strength | None, rubs: Friction
) -> Iterator[tuple[Torque, float]]:
    """The figures that would suit, the likeliest slip first, with their share of the proof load."""
    usual, by_weight = (
        [Torque(torque.value, unit) for unit in units if unit is not torque.unit]
        for units in (_TYPED, _BY_WEIGHT)
    )
    shifted = (Torque(round(torque.value * by, 9), torque.unit) for by in _SHIFTS)
    for other in (*usual, *shifted, *by_weight):
        share = clamp.of(other, thread, strong, rubs).usual
        if LIKELY[0] <= share <= LIKELY[1]:
            yield other, share


def _slip(torque: Torque, other: Torque, share: float) -> str:
    would = f"{said(other)} would be about {share * 100:.0f} %: "
    if other.unit is torque.unit:
        return f"{would}is the decimal point in its place? "
    return f"{would}was {other.unit.value} meant, not {torque.unit.value}? "
