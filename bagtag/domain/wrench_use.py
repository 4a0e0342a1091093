"""What a torque wrench is set to: adapter, drag, the marks of its scale, and what warns of it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil, floor, isclose

from bagtag.domain.adapter_reach import (
    along,
    at_fastener,
    checked_adapter,
    checked_grip,
    gain,
    setting,
)
from bagtag.domain.days import months_since
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import Adapter
from bagtag.domain.torque import Torque
from bagtag.domain.torque_words import read_off, readable, said
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_checks import checked_wrench

__all__ = [
    "WrenchUse",
    "at_fastener",
    "best",
    "calibration",
    "checked_adapter",
    "checked_grip",
    "checked_wrench",
    "setting",
    "settable",
    "use",
    "with_drag",
]

LEAST_SHARE = 0.2
"""A wrench is right to ± 4 % from this share of its full scale up (TM 1-1500-204-23-9, 8-3)."""
BEST = (0.3, 0.8)
"""Where a wrench is best used, as shares of its full scale (same)."""
COARSEST = 0.1
"""Graduations are no wider than this share of the torque (same)."""
MONTHS = 12
"""A torque tool is calibrated at least this often (ISO 6789-1:2017, from memory)."""


@dataclass(frozen=True, slots=True)
class WrenchUse:
    """How one torque is set on one wrench.

    `wanted` is the torque at the fastener, drag included, in the unit it was given in. `exact` is
    what the wrench would have to show, unrounded, and `set_to` the nearest mark to it, both in the
    wrench's unit; `reached` is what the fastener gets at that mark, unrounded, in the unit of
    `wanted`. The three are None where the wrench's length is needed and not known. `line` is the
    name that its line of hardware has in a round, where it is told of one.
    """

    wrench: Wrench
    wanted: Torque
    exact: Torque | None = None
    set_to: Torque | None = None
    reached: Torque | None = None
    warnings: tuple[str, ...] = ()
    line: str = ""

    @property
    def said(self) -> str:
        """`set the 40–200 wrench to 24 N·m`, and what that comes to where it is not the same."""
        if self.set_to is None or self.reached is None:
            return f"the {self.wrench.name} cannot be set yet: its length is not known"
        if not _is_on_scale(self.set_to, self.wrench):
            return f"the {self.wrench.name} cannot be set to {said(self.set_to)}"
        words = f"set the {self.wrench.name} to {said(self.set_to)}"
        if self.set_to == self.wanted:
            return words
        if self.set_to == self.reached:
            return f"{words}, its nearest mark to {read_off(self.wanted)}"
        return f"{words}, which gives {read_off(self.reached)} at the fastener"


def settable(torque: Torque, wrench: Wrench) -> Torque:
    """The mark of the wrench nearest to a torque, in the wrench's unit, halves downwards; rounded
    once, from the unrounded value. A wrench without graduation is set as finely as one reads."""
    exact = torque.to(wrench.unit).value
    if not wrench.step:
        return Torque(readable(exact), wrench.unit)
    first = 0.0 if _is_multiple(wrench.low, wrench.step) else wrench.low
    steps = ceil(round((exact - first) / wrench.step - 0.5, 9))
    return Torque(round(first + steps * wrench.step, 9), wrench.unit)


def _is_multiple(value: float, step: float) -> bool:
    return abs(value / step - round(value / step)) < 1e-6


def use(
    line_torque: Torque,
    wrench: Wrench,
    *,
    adapter: Adapter | None = None,
    drag: Torque | None = None,
    today: date | None = None,
) -> WrenchUse:
    """How a line's torque is set on a wrench: drag added, adapter reckoned, the nearest mark.

    Drag is what turns a self-locking nut before it seats: added to the torque (AC 43.13-1B, para
    7-40). `today` adds a word on the wrench's calibration.
    """
    wanted = with_drag(line_torque, drag)
    dated = tuple(filter(None, (calibration(wrench, today) if today else "",)))
    if adapter is not None and wrench.length is None and along(adapter):
        return WrenchUse(wrench, wanted, warnings=(_LENGTH_WANTED, *dated))
    lever = gain(wrench.length, adapter) if wrench.length is not None else 1.0
    exact = Torque(wanted.to(wrench.unit).value / lever, wrench.unit)
    mark = settable(exact, wrench)
    reached = Torque(mark.value * lever, mark.unit).to(wanted.unit)
    if isclose(mark.value, exact.value, rel_tol=1e-9):
        reached = wanted
    return WrenchUse(wrench, wanted, exact, mark, reached, (*_warnings(mark, wrench), *dated))


_LENGTH_WANTED = (
    "The length of this wrench is not known, so its setting with the adapter cannot be worked out: "
    "measure it from the middle of the grip to the square, and note it with the wrench."
)


def with_drag(torque: Torque, drag: Torque | None) -> Torque:
    """The torque at the fastener with the drag added, in the torque's own unit."""
    if drag is None:
        return torque
    return Torque(round(torque.value + drag.to(torque.unit).value, 9), torque.unit)


def _warnings(mark: Torque, wrench: Wrench) -> Iterable[str]:
    """One sentence for each thing that is wrong with a setting on a wrench."""
    least, here = Torque(wrench.high * LEAST_SHARE, wrench.unit), said(mark)
    if not _is_on_scale(mark, wrench):
        end = "below" if mark.value < wrench.low else "above"
        scale = f"{wrench.low:g} to {said(wrench.full_scale)}"
        yield f"{here} is {end} the scale of this wrench, {scale}: take another wrench."
        return
    if mark.value < least.value * (1 - 1e-9):
        yield (
            f"{here} is under a fifth of this wrench's full scale, {read_off(least)}, and it is "
            "not to be trusted there: take a smaller wrench."
        )
    if wrench.step and wrench.step > mark.value * COARSEST * (1 + 1e-9):
        step = said(Torque(wrench.step, wrench.unit))
        yield f"Its marks stand {step} apart, more than a tenth of {here}: take a finer wrench."


def best(
    torques: Sequence[Torque],
    wrenches: Iterable[Wrench],
    *,
    adapter: Adapter | None = None,
    drag: Torque | None = None,
    today: date | None = None,
) -> WrenchUse | None:
    """The wrench that suits these torques best, as set for the highest of them; None where none of
    them can be set to that one. One that suits all comes first, then one in the best of its
    range, then the one with the finer marks, then the smaller. A wrench that the adapter cannot be
    set on is none of them. With `today`, one whose calibration is out of date comes after one in
    date that suits as well."""
    if not torques:
        return None
    highest = max(torques, key=Torque.newton_metres)
    able = [one for one in wrenches if adapter is None or _takes(one, adapter)]
    fit = [one for one in able if _reaches(use(highest, one, adapter=adapter, drag=drag))]
    if not fit:
        return None

    def rank(wrench: Wrench) -> tuple[float, ...]:
        uses = [use(one, wrench, adapter=adapter, drag=drag, today=today) for one in torques]
        top = use(highest, wrench, adapter=adapter, drag=drag)
        full = wrench.full_scale.newton_metres()
        step = Torque(wrench.step or full / 100, wrench.unit).newton_metres()
        return sum(len(one.warnings) for one in uses), _off_best(top), step, full

    return use(highest, min(fit, key=rank), adapter=adapter, drag=drag, today=today)


def _takes(wrench: Wrench, adapter: Adapter) -> bool:
    try:
        use(Torque(1), wrench, adapter=adapter)
    except BadInput:
        return False
    return True


def _reaches(found: WrenchUse) -> bool:
    return found.set_to is not None and _is_on_scale(found.set_to, found.wrench)


def _is_on_scale(mark: Torque, wrench: Wrench) -> bool:
    return wrench.low <= mark.value <= wrench.high


def _off_best(found: WrenchUse) -> float:
    """How far a setting lies outside the best of the scale, as a share of it, in tenths."""
    assert found.set_to is not None
    share = found.set_to.value / found.wrench.high
    return floor(10 * max(BEST[0] - share, share - BEST[1], 0.0))


def calibration(wrench: Wrench, today: date) -> str:
    """What is to be said of a wrench's calibration on a day; nothing where it is in date."""
    on = wrench.calibrated_on
    if on is None:
        return (
            "Nobody noted when this wrench was last calibrated: have it checked, and note the day."
        )
    if on > today:
        return f"The calibration of this wrench is dated {on.isoformat()}, a day still to come."
    if months_since(on, today) < MONTHS:
        return ""
    return (
        f"This wrench was last calibrated on {on.isoformat()}, {MONTHS} months ago or more: "
        "have it checked before it is trusted."
    )
