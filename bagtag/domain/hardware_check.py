"""What can be said of the fasteners of a part, checked figure by figure."""

from dataclasses import replace

from bagtag.domain.adapter_reach import LONGEST, checked_adapter
from bagtag.domain.clean import TEXT_LIMIT, clean_text, is_above_zero, whole
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import Adapter, HeldBy, Length, Stretch, Torque
from bagtag.domain.torque_words import said

WASHERS = 99
"""No more washers lie under one fastener: a slip of the keys."""
MOST_TORQUE = 100_000.0
"""No bench tightens further, in N·m: a slip of the keys (common practice, no source)."""
TURN = 360.0
"""Degrees."""


def checked_line(line: HeldBy) -> HeldBy:
    """The line with its texts made clean; BadInput, of the field "held_by", for what cannot be."""
    if line.count is not None:
        whole(line.count, "The number of fasteners", field="held_by")
    _check_length(line)
    for what, torque in _torques(line):
        _check_torque(what, torque)
    _check_washers(line.washers)
    _check_angle(line.angle)
    _check_stretch(line.stretch)
    _check_adapter(line.adapter)
    texts = {
        name: clean_text(
            getattr(line, name), limit=TEXT_LIMIT, field="held_by", what=f"The {label}"
        )
        for name, label in _LINE_TEXTS.items()
    }
    return replace(line, **texts)  # type: ignore[arg-type]  # a mapping's keys are no field names


_LINE_TEXTS = {
    "kind": "kind of fastener",
    "thread": "thread",
    "drive": "drive",
    "threadlocker": "threadlocker",
    "grade": "grade",
    "locking": "locking",
    "note": "note on the fastener",
    "head": "head",
    "washer": "kind of washer",
    "lubrication": "lubrication",
    "tool": "special tool",
    "mark": "mark",
}


def _check_length(line: HeldBy) -> None:
    if line.length_unit not in ("mm", "in"):
        raise BadInput(
            f"A fastener's length is in mm or in, not {line.length_unit!r}. Correct the unit.",
            field="held_by",
        )
    if line.length is None:
        return
    if not is_above_zero(line.length):
        raise BadInput(
            f"A fastener's length is above zero; this is {line.length:g}. Correct it, or leave it "
            "empty.",
            field="held_by",
        )
    length = Length(line.length, line.length_unit)
    if length.millimetres() > LONGEST:
        raise BadInput(
            f"No fastener is {length} long. Look at the figure and its unit again.",
            field="held_by",
        )


def _torques(line: HeldBy) -> tuple[tuple[str, Torque | None], ...]:
    return (
        ("A torque", line.torque),
        ("The torque as it is printed a second time", line.also),
        ("A drag", line.drag),
    )


def _check_torque(what: str, torque: Torque | None) -> None:
    if torque is None:
        return
    if not is_above_zero(torque.value):
        raise BadInput(
            f"{what} is above zero; this is {torque.value:g}. Leave it empty if it is not known.",
            field="held_by",
        )
    if torque.newton_metres() > MOST_TORQUE:
        raise BadInput(
            f"{what} cannot be {said(torque)}. Look at the figure and its unit again.",
            field="held_by",
        )


def _check_washers(washers: int) -> None:
    if isinstance(washers, bool) or not isinstance(washers, int) or not 0 <= washers <= WASHERS:
        raise BadInput(
            f"Under one fastener lie 0 to {WASHERS} washers; this is {washers}. Correct it.",
            field="held_by",
        )


def _check_angle(angle: float | None) -> None:
    if angle is not None and not (is_above_zero(angle) and angle <= TURN):
        raise BadInput(
            f"An angle after a torque is above zero and at most one turn, {TURN:g} degrees; this "
            f"is {angle:g}. Give a larger one as several passes.",
            field="held_by",
        )


def _check_stretch(stretch: Stretch | None) -> None:
    if stretch is None:
        return
    if stretch.unit not in ("mm", "in"):
        raise BadInput(f"A stretch is in mm or in, not {stretch.unit!r}.", field="held_by")
    if not (is_above_zero(stretch.low) and is_above_zero(stretch.high)):
        raise BadInput("A stretch is above zero. Correct it, or leave it empty.", field="held_by")
    if stretch.low > stretch.high:
        raise BadInput(
            f"The limits of the stretch are the wrong way round: {stretch.low:g} is above "
            f"{stretch.high:g}. Give the lower one first.",
            field="held_by",
        )


def _check_adapter(adapter: Adapter | None) -> None:
    if adapter is None:
        return
    try:
        checked_adapter(adapter)
    except BadInput as wrong:
        raise BadInput(wrong.sentence, field="held_by") from wrong
