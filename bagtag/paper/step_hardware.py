"""A step's hardware: how many go back, and the torque in passes, with boxes to tick."""

from dataclasses import replace
from functools import lru_cache

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_counts import holes_of_line
from bagtag.domain.passes import by_angle, passes
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.fonts import BOLD, MEDIUM
from bagtag.paper.joint_block import is_block, set_new_ones, set_passes
from bagtag.paper.pdf import MM
from bagtag.paper.step_setter import Field, Setter
from bagtag.paper.step_task import is_tightening

_COUNT = 8 * MM
_BY_ANGLE = "To yield or by angle: not in passes, by the maker's steps."


def set_hardware(setter: Setter, step: ChecklistStep) -> None:
    """Every line of hardware, then what is to be ticked, or what was."""
    for place, line in enumerate(step.held_by):
        setter.add(_said(step, line), before=2)
        if step.done is not None:
            _was_done(setter, step, place)
        else:
            _to_do(setter, step, line)
    set_new_ones(setter, step)
    _tightened(setter, step)
    if step.tools and step.done is None:
        setter.add(f"Special tools: {step.tools}", MEDIUM, before=2)
    if step.later:
        setter.add(two_stage(step), BOLD, 10.5, before=2)


def _tightened(setter: Setter, step: ChecklistStep) -> None:
    """The passes of a joint, unless they stand beside the picture of its holes; without any, what
    a wrench is set to."""
    if step.rounds and not is_block(step):
        set_passes(setter, step)
    elif not step.rounds and step.done is None:
        for use in step.uses:
            setter.add(use)


def _to_do(setter: Setter, step: ChecklistStep, line: HeldBy) -> None:
    """Count and torques in one row, or the torques in the next, so that passes stay side by side.

    A final tightening counts nothing: its fasteners are back already.
    """
    torques = _torques(step, line)
    count = () if is_tightening(step) else (_count(line),)
    for row in [count + torques] if setter.fits(count + torques) else (count, torques):
        setter.row(row)
    if torques and _is_by_angle(step, line):
        setter.add(_BY_ANGLE, MEDIUM)


def two_stage(step: ChecklistStep) -> str:
    """The sentence of the first of two stages; of one that is done, what is still to come."""
    first = "" if step.done is not None else "Run in by hand now. "
    return f"{first}Final torque after {step.later}."


def has_passes(step: ChecklistStep) -> bool:
    """Whether a step has a torque to reach in several passes."""
    return any(len(_torques(step, line)) > 1 for line in step.held_by)


def _said(step: ChecklistStep, line: HeldBy) -> str:
    """A line of hardware, with its letter and holes where there is a map; in full where its figures
    are not ticked in a row, and without any where it is only run in by hand."""
    holes = holes_of_line(step.hole_map, line)
    said = str(line) if step.rounds and step.done is None else _called(line, bool(step.later))
    return f"{holes}: {said}" if holes else said


@lru_cache(maxsize=2048)
def _called(line: HeldBy, by_hand: bool) -> str:
    """A line of hardware without its torque; the same ones come again all over a machine."""
    if by_hand:
        return str(replace(line, torque=None, also=None, angle=None, drag=None, stretch=None))
    return str(replace(line, torque=None, angle=None))


@lru_cache(maxsize=2048)
def _count(line: HeldBy) -> Field:
    if line.count == 1:
        return Field(after="back")
    return Field(pen=_COUNT, after=f"of {line.count} back" if line.count else "back")


def _torques(step: ChecklistStep, line: HeldBy) -> tuple[Field, ...]:
    """None where it is only run in by hand now or done already, or in the passes of a joint."""
    if line.torque is None or step.later or step.done is not None or step.rounds:
        return ()
    return _passes(line, _is_by_angle(step, line))


@lru_cache(maxsize=2048)
def _passes(line: HeldBy, is_by_angle: bool) -> tuple[Field, ...]:
    *early, full = passes(line, said="by angle" if is_by_angle else "")
    last = f"{full} ({line.also})" if line.also else str(full)
    return (*(Field(after=str(torque)) for torque in early), Field(after=last, is_bold=True))


def _is_by_angle(step: ChecklistStep, line: HeldBy) -> bool:
    return by_angle(line, said=f"{step.name}\n{step.note}")


def _was_done(setter: Setter, step: ChecklistStep, place: int) -> None:
    """The torque, and how many were counted back."""
    line = step.held_by[place]
    if line.torque is not None and not step.later:
        _behind(setter, line.tightened(), 11)
    for one in step.done.counts if step.done is not None else ():
        if one.held == place:
            setter.add(f"{one.back} of {one.off} back", BOLD if one.back != one.off else MEDIUM)


def _behind(setter: Setter, text: str, size: float) -> None:
    if not setter.beside(text, BOLD, size):
        setter.add(text, BOLD, size)
