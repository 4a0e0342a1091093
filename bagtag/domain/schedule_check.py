"""The passes of a joint looked over: figures and groups that cannot be."""

from collections.abc import Sequence
from dataclasses import replace
from math import isfinite

from bagtag.domain.entry import NAME_LIMIT, TEXT_LIMIT, clean_text
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.hardware_check import MOST_TORQUE
from bagtag.domain.hole_check import marked
from bagtag.domain.holes import HoleMap
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.torque import Torque
from bagtag.domain.torque_words import said

MOST_PASSES = 40
FULL_TURN = 360.0
MOST_LOOSENED = 3600.0


def checked(
    passes: Sequence[Pass], held_by: Sequence[HeldBy], hole_map: HoleMap | None = None
) -> tuple[Pass, ...]:
    """The passes with their texts made clean; BadInput names the pass by its place from 1."""
    if len(passes) > MOST_PASSES:
        raise _wrong(f"A joint has {MOST_PASSES} passes at most, and these are {len(passes)}.")
    known = _groups(held_by, hole_map)
    clean = tuple(_pass(place, step, known) for place, step in enumerate(passes, 1))
    for place, step in enumerate(clean, 1):
        if step.kind is PassKind.ANGLE:
            _check_started(place, step, clean[: place - 1])
    return clean


def _groups(held_by: Sequence[HeldBy], hole_map: HoleMap | None) -> set[str]:
    holes = hole_map.holes if hole_map else ()
    marks = {line.mark for line in marked(held_by)}
    return marks | {hole.group for hole in holes} | {hole.mark for hole in holes} | {""}


def _pass(place: int, step: Pass, known: set[str]) -> Pass:
    what = f"of pass {place}"
    group = clean_text(step.group, limit=NAME_LIMIT, field="passes", what=f"The group {what}")
    note = clean_text(step.note, limit=TEXT_LIMIT, field="passes", what=f"The note {what}")
    if group not in known:
        raise _wrong(
            f"Pass {place} is for {group}, which is neither a group of holes nor the letter of a "
            "line. Choose one of those, or leave it empty for all."
        )
    _CHECKS[step.kind](place, step)
    return replace(step, group=group, note=note)


def _torque(place: int, step: Pass) -> None:
    if (step.torque is None) == (step.share is None):
        raise _wrong(f"Pass {place} needs a torque, or a share of the full one, and not both.")
    _check_none(place, step.angle, "turns by a torque; give the angle a pass of its own")
    _check_figure(place, step.torque)
    if step.share is not None and not 0 < step.share <= 1:
        raise _wrong(
            f"Pass {place} is {step.share * 100:g} % of the full torque; give more than 0 and at "
            "most 100."
        )


def _angle(place: int, step: Pass) -> None:
    _check_none(place, step.torque or step.share, "turns by an angle; give the torque its own pass")
    if not _is_above_zero(step.angle):
        raise _wrong(f"Pass {place} turns by an angle. Give degrees above zero.")
    if step.angle is not None and step.angle > FULL_TURN:
        raise _wrong(
            f"Pass {place} turns {step.angle:g}°, more than a full turn. Correct it, or give it "
            "as two passes."
        )


def _loosen(place: int, step: Pass) -> None:
    _check_none(place, step.torque or step.share, "loosens; it has no torque")
    if step.angle is None:
        return
    if not (_is_above_zero(step.angle) and step.angle <= MOST_LOOSENED):
        raise _wrong(
            f"Pass {place} loosens by {step.angle:g}°. Give degrees above zero, ten turns at most, "
            "or none to loosen until free."
        )


def _verify(place: int, step: Pass) -> None:
    _check_none(place, step.share or step.angle, "checks a torque; it has no share and no angle")
    if step.torque is None:
        raise _wrong(f"Pass {place} checks a torque. Say which it must reach.")
    _check_figure(place, step.torque)


_CHECKS = {
    PassKind.TORQUE: _torque,
    PassKind.ANGLE: _angle,
    PassKind.LOOSEN: _loosen,
    PassKind.VERIFY: _verify,
}


def _check_started(place: int, step: Pass, before: Sequence[Pass]) -> None:
    """An angle starts from a torque: one on these fasteners, since they were last loosened."""
    for earlier in reversed(before):
        if earlier.group and step.group and earlier.group != step.group:
            continue
        if earlier.kind is PassKind.TORQUE:
            return
        if earlier.kind is PassKind.LOOSEN:
            break
    raise _wrong(f"Pass {place} turns by an angle, and no torque comes before it. Put one there.")


def _check_figure(place: int, torque: Torque | None) -> None:
    if torque is not None and not _is_above_zero(torque.value):
        raise _wrong(f"The torque of pass {place} is {torque.value:g}; give one above zero.")
    if torque is not None and torque.newton_metres() > MOST_TORQUE:
        raise _wrong(
            f"The torque of pass {place} cannot be {said(torque)}. Look at its unit again."
        )


def _check_none(place: int, figure: object, words: str) -> None:
    if figure is not None:
        raise _wrong(f"Pass {place} {words}.")


def _is_above_zero(figure: float | None) -> bool:
    return figure is not None and isfinite(figure) and figure > 0


def _wrong(sentence: str) -> BadInput:
    return BadInput(sentence, field="passes")
