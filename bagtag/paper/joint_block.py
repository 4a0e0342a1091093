"""How a joint is tightened, on its step: the holes with their turns, the order as a list, and every
pass with a box to tick, its figure and what the wrench is set to."""

from bagtag.domain.hole_check import counts, marked
from bagtag.domain.schedule import Round, turned
from bagtag.domain.tightening import PassKind
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR
from bagtag.paper.ink import SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.step_setter import NBSP, SMALL, Setter

MAP = 62 * MM
"""How high a hole map is printed at most."""
_INDENT = 10 * MM


def set_joint(setter: Setter, step: ChecklistStep) -> None:
    """All of it while the step is to be done; afterwards only which passes were ticked."""
    if step.done is not None:
        _was_ticked(setter, step)
        return
    _new_ones(setter, step)
    _map(setter, step)
    for one in step.rounds:
        _round(setter, step, one)
    angles = turned([one.step for one in step.rounds])
    if angles and len([one for one in step.rounds if one.step.kind is PassKind.ANGLE]) > 1:
        setter.add(f"Turned by {angles:g}° in all.", MEDIUM, before=2)


def is_joint(step: ChecklistStep) -> bool:
    """Whether there is more to show than torques in a row."""
    return bool(step.rounds) or step.hole_map is not None


def _new_ones(setter: Setter, step: ChecklistStep) -> None:
    for line in step.held_by:
        if line.one_time:
            setter.caution(f"New ones go in: {line.called()}.", MEDIUM)


def _map(setter: Setter, step: ChecklistStep) -> None:
    """With turns in the order of the first pass; with the holes' numbers where there is none."""
    if step.hole_map is None or not step.hole_map.holes:
        return
    from bagtag.domain.hole_picture import draw

    order = step.rounds[0].order if step.rounds else ()
    lines = marked(step.held_by)
    setter.drawing(
        draw(step.hole_map, lines, order=order or None, label="turn" if order else "number"), MAP
    )
    if step.hole_map.seen_from:
        setter.add(f"Seen from {step.hole_map.seen_from}.", REGULAR, 8.5, SOFT)
    for lacking in counts(step.hole_map, step.held_by):
        setter.caution(lacking, MEDIUM)
    if order:
        setter.add(f"Order of the holes: {_listed(order)}", MEDIUM, before=2)


def _listed(order: tuple[int, ...]) -> str:
    return ", ".join(map(str, order))


def _round(setter: Setter, step: ChecklistStep, one: Round) -> None:
    """A box, the pass in bold, then the wrench; the order where it is another than the first's."""
    done = one.place in step.ticked
    setter.tick(round_words(one), number=str(one.place + 1), done=done, indent=0, font=BOLD)
    if one.place < len(step.uses) and step.uses[one.place]:
        setter.add(step.uses[one.place], REGULAR, SMALL, indent=_INDENT)
    first = step.rounds[0].order
    if one.order and one.order != first:
        said = "back to front" if one.order == first[::-1] else _listed(one.order)
        setter.add(f"Order: {said}", REGULAR, SMALL, indent=_INDENT)


def round_words(one: Round) -> str:
    """`Torque to 60 %: 24 N·m`; a figure never leaves its unit, and is not said twice."""
    figures, said = one.figures, one.said
    tied = figures.replace(" ", NBSP).replace(f",{NBSP}", ", ")
    return said.replace(figures, tied) if figures in said else f"{said}: {tied}"


def _was_ticked(setter: Setter, step: ChecklistStep) -> None:
    if step.rounds and step.ticked:
        count = len([one for one in step.rounds if one.place in step.ticked])
        all_of_them = count == len(step.rounds)
        setter.add(f"{count} of {len(step.rounds)} passes ticked", MEDIUM if all_of_them else BOLD)
