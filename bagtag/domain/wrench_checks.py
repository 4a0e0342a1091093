"""A torque wrench as it may be kept."""

from dataclasses import replace
from math import isfinite

from bagtag.domain.adapter_reach import checked_grip
from bagtag.domain.clean import NAME_LIMIT, NOTE_LIMIT, clean_text
from bagtag.domain.errors import BadInput
from bagtag.domain.wrench import Wrench


def checked_wrench(wrench: Wrench) -> Wrench:
    """The wrench as it is kept, its texts made clean; BadInput says what cannot be."""
    name = clean_text(wrench.name, limit=NAME_LIMIT, field="name", what="The wrench's name")
    if not name:
        raise BadInput("Give the wrench a name: what is written on its handle?", field="name")
    _check_scale(wrench)
    if wrench.length is not None:
        checked_grip(wrench.length)
    note = clean_text(wrench.note, lines=True, limit=NOTE_LIMIT, field="note", what="The note")
    return replace(wrench, name=name, note=note)


def _check_scale(wrench: Wrench) -> None:
    low, high, step = wrench.low, wrench.high, wrench.step
    if not (isfinite(low) and low >= 0):
        raise BadInput("A wrench's scale starts at zero or above it. Correct it.", field="low")
    if not (isfinite(high) and high > 0):
        raise BadInput("A wrench's scale ends above zero. Give its highest torque.", field="high")
    if low == high:
        raise BadInput(
            f"The scale starts and ends at {low:g}. Give its lowest and its highest torque.",
            field="low",
        )
    if low > high:
        raise BadInput(
            f"The scale runs from {low:g} to {high:g}, the wrong way round. Give the lower end "
            "first.",
            field="low",
        )
    if step is not None and not (isfinite(step) and 0 < step <= high - low):
        raise BadInput(
            f"The marks of a scale from {low:g} to {high:g} stand more than nothing and at most "
            f"{high - low:g} apart; this is {step:g}. Correct it, or leave it empty.",
            field="step",
        )
