"""Tightening in passes: half, two thirds, then the full torque, so that a joint closes evenly.

"Three steps - 1/2, 2/3, and 1/1 torque", not for torque-to-yield bolts (marine diesel service
manual, "Engine reassembly").
"""

import re
from math import ceil, floor, log10

from bagtag.domain.hardware import HeldBy, Torque

SHARES = (1 / 2, 2 / 3)
"""What comes before the full torque, as shares of it."""

FINEST = 20
"""An early pass is set to a mark no wider than the full torque over this: rounding to it moves the
pass by at most a fortieth of the full torque, less than a wrench of ± 4 % may be off."""

_BY_ANGLE = re.compile(
    r"\byield|\btty\b|\bstretch|\bangle|[°º]|\bdeg(?:rees?)?\b"
    r"|(?:\bquarter|\bhalf|\b1/[24]|[¼½])[- ]?turn",
    re.IGNORECASE,
)


def passes(line: HeldBy, *, said: str = "") -> tuple[Torque, ...]:
    """The torques to go round with, in turn; the last is the full one, exactly as it was given.

    None without a torque; the full one alone for a single fastener and for what is tightened to
    yield or by angle, as the line or `said` (what its part's name and note say) tells. Fasteners
    that nobody counted are taken for several. Early passes are rounded to the nearest mark of 1 or
    5 in any power of ten that is no wider than a twentieth of the full torque, halves downwards.
    """
    if line.torque is None:
        return ()
    if line.count in (0, 1) or line.torque.value <= 0 or by_angle(line, said=said):
        return (line.torque,)
    full = line.torque
    return (*(share_of(full, share) for share in SHARES), full)


def share_of(full: Torque, share: float) -> Torque:
    """That share of the full torque on a mark that a wrench can be set to, never above the full
    torque; the whole as it is."""
    if share >= 1:
        return full
    return Torque(min(full.value, _settable(full.value, share)), full.unit)


def by_angle(line: HeldBy, *, said: str = "") -> bool:
    """Whether a line of hardware is tightened to yield, to a stretch or by an angle, as its
    figures, its own words or `said` tell: then the torque is where the angle starts, and the
    maker's steps are the only ones. That new ones go in each time does not say it: many such are
    coated with threadlocker and tightened by torque alone (common practice, no source)."""
    if line.angle is not None or line.stretch is not None:
        return True
    words = "\n".join((line.kind, line.grade, line.locking, line.note, said))
    return _BY_ANGLE.search(words) is not None


def _settable(full: float, share: float) -> float:
    """That share of the full torque, on a mark of a wrench, in the same unit; a small share on a
    finer mark, so that it is never nothing."""
    mark = _mark(min(full / FINEST, full * share / 4))
    return round(ceil(round(full * share / mark - 0.5, 6)) * mark, 9)


def _mark(widest: float) -> float:
    """The widest step of 1 or 5 in a power of ten that is not above `widest`."""
    power = 10.0 ** floor(log10(widest) + 1e-9)
    return 5 * power if widest >= 5 * power * (1 - 1e-9) else power
