"""An adapter on a torque wrench: what the wrench then shows, and which lengths can be.

An adapter makes the wrench longer by its length along the wrench's own line, so that the wrench is
set to T L / (L + A cos a) (TM 9-2350-261-20-1, p. 2-29; TM 9-254, para 4-1). A plain extension on
the axis of the drive changes nothing.
"""

from math import cos, isfinite, radians

from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import Adapter
from bagtag.domain.torque import Length, Torque

POINTS_BACK = "One that points back to the handle has an angle of 180 degrees."
LONGEST = 3000.0
"""No wrench, adapter or fastener of a bench is longer, in mm: a slip of the keys (our own)."""


def setting(torque: Torque, grip: Length, adapter: Adapter | None = None) -> Torque:
    """What the wrench shows when the fastener has this torque, unrounded, in the torque's unit.

    `grip` is from the middle of the grip to the wrench's square. BadInput for lengths that cannot
    be."""
    return Torque(torque.value / gain(grip, adapter), torque.unit)


def at_fastener(shown: Torque, grip: Length, adapter: Adapter | None = None) -> Torque:
    """What the fastener has when the wrench shows this, unrounded: the inverse of `setting`."""
    return Torque(shown.value * gain(grip, adapter), shown.unit)


def gain(grip: Length, adapter: Adapter | None) -> float:
    """How many times what the wrench shows the fastener gets: (L + A cos a) / L."""
    checked_grip(grip)
    if adapter is None:
        return 1.0
    checked_adapter(adapter, grip)
    return 1 + along(adapter) / grip.millimetres()


def along(adapter: Adapter) -> float:
    """How far an adapter reaches along the wrench's own line in mm, A cos a; square to it, 0."""
    return adapter.length.millimetres() * round(cos(radians(adapter.angle)), 12)


def checked_grip(grip: Length) -> Length:
    """A wrench's length, or BadInput."""
    what = "A wrench's length, from the middle of the grip to its square,"
    return _checked_length(grip, what, "length")


def checked_adapter(adapter: Adapter, grip: Length | None = None) -> Adapter:
    """An adapter that can be, on a wrench of this length where it is known; else BadInput."""
    _checked_length(adapter.length, "An adapter's length", "adapter")
    if not (isfinite(adapter.angle) and 0 <= adapter.angle <= 180):
        raise BadInput(
            f"An adapter stands at 0 (straight on) to 180 degrees (back to the handle); this is "
            f"{adapter.angle:g}. Correct it.",
            field="adapter",
        )
    if grip is not None:
        _check_reach(adapter, grip)
    return adapter


def _check_reach(adapter: Adapter, grip: Length) -> None:
    if grip.millimetres() + along(adapter) <= 1e-9 * grip.millimetres():
        raise BadInput(
            f"An adapter of {adapter.length} pointing back reaches to the grip of a wrench of "
            f"{grip} or past it: no setting gives that torque. Turn it forwards or square to the "
            "wrench.",
            field="adapter",
        )
    if adapter.length.millimetres() > grip.millimetres():
        raise BadInput(
            f"An adapter of {adapter.length} is longer than the wrench itself, {grip}. Measure it "
            "from the square to the fastener, and look at the unit.",
            field="adapter",
        )


def _checked_length(length: Length, what: str, field: str) -> Length:
    if length.unit not in ("mm", "in"):
        raise BadInput(f"{what} is in mm or in, not {length.unit!r}.", field=field)
    if not (isfinite(length.value) and length.value > 0):
        back = f" {POINTS_BACK}" if field == "adapter" and length.value < 0 else " Correct it."
        raise BadInput(f"{what} is above zero; this is {length.value:g}.{back}", field=field)
    if length.millimetres() > LONGEST:
        raise BadInput(
            f"{what} cannot be {length}. Measure it again, and look at the unit.", field=field
        )
    return length
