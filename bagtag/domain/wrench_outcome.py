"""What a wrench is set to, or what it gives, in the words that the bench reads."""

from dataclasses import dataclass, replace
from datetime import date

from bagtag.domain.hardware import Adapter
from bagtag.domain.torque import Length, Torque
from bagtag.domain.torque_words import USUAL, read_off, said
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_use import (
    WrenchUse,
    at_fastener,
    checked_adapter,
    checked_grip,
    setting,
    use,
    with_drag,
)

_GRIP = "Give the length of the wrench, grip to square, or choose it from the list."
_NO_WRENCH = "No wrench is chosen, so this is not rounded to the marks of one."


@dataclass(frozen=True, slots=True)
class Rig:
    """What stands between the hand and the fastener. `grip` goes before the wrench's own length."""

    wrench: Wrench | None = None
    grip: Length | None = None
    adapter: Adapter | None = None
    drag: Torque | None = None

    @property
    def reach(self) -> Length | None:
        """The length it is reckoned with."""
        return self.grip or (self.wrench.length if self.wrench is not None else None)

    def check(self) -> None:
        """BadInput for lengths that cannot be."""
        if self.reach is not None:
            checked_grip(self.reach)
        if self.adapter is not None:
            checked_adapter(self.adapter, self.reach)


@dataclass(frozen=True, slots=True)
class Outcome:
    """The figure large, a sentence or two below it, and what warns of it."""

    large: str = ""
    below: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()


def to_set(torque: Torque, rig: Rig, today: date) -> Outcome:
    """What the wrench is set to for this torque at the fastener. BadInput for a rig that cannot
    be."""
    if rig.wrench is not None:
        one = replace(rig.wrench, length=rig.reach)
        found = use(torque, one, adapter=rig.adapter, drag=rig.drag, today=today)
        return _set_on(found, torque)
    wanted = with_drag(torque, rig.drag)
    if rig.adapter is not None and rig.grip is None:
        return Outcome(below=(_GRIP,))
    exact = setting(wanted, rig.grip, rig.adapter) if rig.grip is not None else wanted
    return Outcome(read_off(exact), (*_sum(wanted, torque), _NO_WRENCH))


def _set_on(found: WrenchUse, torque: Torque) -> Outcome:
    if found.set_to is None or found.exact is None or found.reached is None:
        return Outcome(warnings=found.warnings)
    exact, gives = read_off(found.exact), read_off(found.reached)
    below = [*_sum(found.wanted, torque)]
    if exact != said(found.set_to):
        below.append(f"It is the nearest mark to {exact}.")
    if gives != said(found.set_to) or found.reached != found.wanted:
        below.append(f"The fastener gets {gives}.")
    return Outcome(said(found.set_to), tuple(below), found.warnings)


def _sum(wanted: Torque, torque: Torque) -> tuple[str, ...]:
    is_more = wanted.value != torque.value
    return (f"With the drag the fastener needs {read_off(wanted)}.",) if is_more else ()


def to_get(shows: Torque, rig: Rig) -> Outcome:
    """What the fastener gets when the wrench shows this. BadInput for a rig that cannot be."""
    if rig.adapter is not None and rig.reach is None:
        return Outcome(below=(_GRIP,))
    gets = at_fastener(shows, rig.reach, rig.adapter) if rig.reach is not None else shows
    units = (gets.unit, *(unit for unit in USUAL if unit is not gets.unit))
    together = " = ".join(read_off(gets.to(unit)) for unit in units)
    return Outcome(read_off(gets), (together, *_left(gets, rig.drag)))


def _left(gets: Torque, drag: Torque | None) -> tuple[str, ...]:
    """What of a torque at the fastener turns no nut."""
    if drag is None:
        return ()
    rest = Torque(gets.value - drag.to(gets.unit).value, gets.unit)
    if rest.value <= 0:
        return (f"The drag alone takes {said(drag)}: nothing is left to tighten with.",)
    return (f"Of it the drag takes {said(drag)}: {read_off(rest)} are left.",)
