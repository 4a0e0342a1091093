"""A step's hardware: how many go back, and the torque in passes, with boxes to tick."""

from collections.abc import Iterator
from dataclasses import replace

from bagtag.domain.hardware import HeldBy
from bagtag.domain.passes import by_angle, passes
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.fonts import BOLD, MEDIUM
from bagtag.paper.pdf import MM
from bagtag.paper.step_setter import Field, Setter
from bagtag.paper.step_task import is_tightening

_COUNT = 8 * MM
_BY_ANGLE = "To yield or by angle: not in passes, by the maker's steps."


def set_hardware(setter: Setter, step: ChecklistStep) -> None:
    """Every line of hardware, then what is to be ticked, or what was."""
    for place, line in enumerate(step.held_by):
        setter.add(str(replace(line, torque=None)), before=2)
        if step.done is not None:
            _was_done(setter, step, place)
        else:
            _to_do(setter, [*_count(step, line)], [*_passes(step, line)])
            if _is_by_angle(step, line):
                setter.add(_BY_ANGLE, MEDIUM)
    if step.later:
        setter.add(two_stage(step), BOLD, 10.5, before=2)


def _to_do(setter: Setter, count: list[Field], torques: list[Field]) -> None:
    """In one row, or the torques in the next, so that the passes stay side by side."""
    for row in [count + torques] if setter.fits(count + torques) else (count, torques):
        setter.row(row)


def two_stage(step: ChecklistStep) -> str:
    """The sentence of the first of two stages; of one that is done, what is still to come."""
    first = "" if step.done is not None else "Run in by hand now. "
    return f"{first}Final torque after {step.later}."


def has_passes(step: ChecklistStep) -> bool:
    """Whether a step has a torque to reach in several passes."""
    return any(len(list(_passes(step, line))) > 1 for line in step.held_by)


def _count(step: ChecklistStep, line: HeldBy) -> Iterator[Field]:
    """A final tightening counts nothing: its fasteners are back already."""
    if is_tightening(step):
        return
    if line.count == 1:
        yield Field(after="back")
    else:
        yield Field(pen=_COUNT, after=f"of {line.count} back" if line.count else "back")


def _passes(step: ChecklistStep, line: HeldBy) -> Iterator[Field]:
    if step.later or step.done is not None:
        return
    torques = passes(line, said=f"{step.name} {step.note}")
    for torque in torques:
        yield Field(after=str(torque), is_bold=torque is torques[-1])


def _is_by_angle(step: ChecklistStep, line: HeldBy) -> bool:
    said = f"{step.name} {step.note}"
    return line.torque is not None and not step.later and by_angle(line, said=said)


def _was_done(setter: Setter, step: ChecklistStep, place: int) -> None:
    """The torque, and how many were counted back."""
    line = step.held_by[place]
    if line.torque is not None and not step.later:
        _behind(setter, str(line.torque), 11)
    for one in step.done.counts if step.done is not None else ():
        if one.held == place:
            setter.add(f"{one.back} of {one.off} back", BOLD if one.back != one.off else MEDIUM)


def _behind(setter: Setter, text: str, size: float) -> None:
    if not setter.beside(text, BOLD, size):
        setter.add(text, BOLD, size)
