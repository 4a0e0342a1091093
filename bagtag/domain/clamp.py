"""What a torque comes to on a thread: the clamp load by T = K d F, as a share of the proof load."""

from dataclasses import dataclass

from bagtag.domain.friction import Friction
from bagtag.domain.strength import STRONGEST, WEAKEST, Strength
from bagtag.domain.threads import Thread
from bagtag.domain.torque import Torque


@dataclass(frozen=True, slots=True)
class Sense:
    """What a torque comes to on one fastener.

    The clamp load in N and its share of the proof load, at the usual friction and from the highest
    friction to the lowest. Where nobody noted the class, shares run over classes 4.6 to 12.9, and
    `usual` is that of 4.6. `assumed` is what was taken for granted, in words.
    """

    thread: Thread
    clamp_low: float
    clamp_usual: float
    clamp_high: float
    share_low: float
    usual: float
    share_high: float
    strength: Strength | None
    friction: Friction
    assumed: tuple[str, ...] = ()

    @property
    def said(self) -> str:
        """`clamps with about 16 kN (10 to 31 kN), 74 % of its proof load (49 to 147 %)`."""
        loads = (self.clamp_usual, self.clamp_low, self.clamp_high)
        usual, low, high = (_figure(load / 1000) for load in loads)
        load = f"clamps with about {usual} kN ({low} to {high} kN)"
        if self.strength is None:
            return load
        usual, low, high = (_figure(x * 100) for x in (self.usual, self.share_low, self.share_high))
        return f"{load}, {usual} % of its proof load ({low} to {high} %)"


def of(torque: Torque, thread: Thread, strong: Strength | None, rubs: Friction) -> Sense:
    """What a torque comes to on a thread of this strength, None where unknown, and friction."""
    turned = torque.newton_metres() / (thread.diameter / 1000)
    weakest, strongest = (strong.proof,) * 2 if strong else (WEAKEST, STRONGEST)
    low, usual, high = (turned / factor for factor in (rubs.high, rubs.usual, rubs.low))
    return Sense(
        thread,
        low,
        usual,
        high,
        low / (strongest * thread.stress_area),
        usual / (weakest * thread.stress_area),
        high / (weakest * thread.stress_area),
        strong,
        rubs,
        _assumed(strong, rubs),
    )


def _assumed(strong: Strength | None, rubs: Friction) -> tuple[str, ...]:
    by_class = strong.called if strong else "class not noted: 4.6 to 12.9"
    return (by_class, f"{rubs.called}: K from {rubs.low:.2g} to {rubs.high:.2g}")


def _figure(value: float) -> str:
    return f"{value:.0f}" if value >= 10 else f"{value:.2g}"
