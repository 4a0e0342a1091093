"""How a joint is tightened, on its step: the holes with their turns, the order as a list, and every
pass with a box to tick, its figure and what the wrench is set to."""

from math import inf
from typing import NamedTuple

from bagtag.domain.hole_check import counts, marked
from bagtag.domain.holes import HoleMap
from bagtag.domain.joint_words import in_turn, order_words, turned_words
from bagtag.domain.schedule import Round
from bagtag.domain.shapes import Picture
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR
from bagtag.paper.pdf import MM
from bagtag.paper.step_marks import Marks, moved
from bagtag.paper.step_setter import SMALL, Rooms, Setter, past_tick

LEFT, WIDTH = 15 * MM, 167 * MM
"""The block runs below picture and words of its step, right of the tick box."""
MAP_WIDE, MAP_HIGH = 80 * MM, 72 * MM
MANY, MANY_HIGH = 20, 112 * MM
"""So many holes have a picture of the whole width, so that their turns can be read."""
_GAP = 5 * MM
_FOOT = 2 * MM
_LETTERING = 3.1 * MM


class JointBlock(NamedTuple):
    """Marks whose top is at 0."""

    marks: Marks
    height: float
    was_cut: bool


def is_block(step: ChecklistStep) -> bool:
    """Whether a step has a picture of its holes to print, and its passes beside that."""
    return step.done is None and step.hole_map is not None and bool(step.hole_map.holes)


def block(step: ChecklistStep, most_high: float) -> JointBlock:
    """Picture and passes side by side, or below each other where there are many holes."""
    assert step.hole_map is not None
    is_wide = len(step.hole_map.holes) > MANY
    size = (WIDTH, MANY_HIGH) if is_wide else (MAP_WIDE, MAP_HIGH)
    left = _setter(LEFT, size[0], most_high)
    left.drawing(_picture(step, step.hole_map, *size), size[1])
    if is_wide:
        _beside_map(left, step, step.hole_map)
        return JointBlock(left.marks, left.y + _FOOT, left.was_cut)
    right = _setter(LEFT + MAP_WIDE + _GAP, WIDTH - MAP_WIDE - _GAP, most_high)
    _beside_map(right, step, step.hole_map)
    marks = moved(right.marks, 0.0, onto=left.marks)
    return JointBlock(marks, max(left.y, right.y) + _FOOT, left.was_cut or right.was_cut)


def _setter(left: float, room: float, most_high: float) -> Setter:
    return Setter(0.0, left, most_high, Rooms(room, room, inf))


def _beside_map(setter: Setter, step: ChecklistStep, hole_map: HoleMap) -> None:
    for lacking in counts(hole_map, step.held_by):
        setter.caution(lacking, MEDIUM)
    set_passes(setter, step)


def _picture(step: ChecklistStep, hole_map: HoleMap, wide: float, most_high: float) -> Picture:
    """Turns in the order of the first pass; the holes' numbers where nothing is tightened now."""
    from bagtag.domain.hole_picture import draw

    order = step.rounds[0].order if step.rounds else ()
    lines = marked(step.held_by)
    rows = 1 + len(lines)
    high = min(most_high, wide * _steepness(hole_map) + (rows + 2) * 1.9 * _LETTERING)
    return draw(
        hole_map,
        lines,
        order=order or None,
        label="turn" if order else "number",
        aspect=wide / high,
        lettering_size=_LETTERING / high,
    )


def _steepness(hole_map: HoleMap) -> float:
    """How high the holes lie against how wide."""
    points = [(hole.x, hole.y) for hole in hole_map.holes] + list(hole_map.outline)
    wide = max(x for x, _ in points) - min(x for x, _ in points)
    high = max(y for _, y in points) - min(y for _, y in points)
    return high / wide if wide else 1.0


def set_passes(setter: Setter, step: ChecklistStep) -> None:
    """The order of the holes, every pass, the sum of the angles; of a step that is done only how
    many passes were ticked."""
    if step.done is not None:
        _was_ticked(setter, step)
        return
    if step.rounds and step.rounds[0].order:
        setter.add(order_words(step.rounds[0]), MEDIUM, before=2)
    for one in step.rounds:
        _round(setter, step, one)
    angles = turned_words(step.rounds)
    if angles:
        setter.add(f"{angles}.", MEDIUM, before=2)


def set_new_ones(setter: Setter, step: ChecklistStep) -> None:
    """What must not go in a second time."""
    for line in step.held_by if step.done is None else ():
        if line.one_time:
            setter.caution(f"New ones go in: {line.called()}.", MEDIUM)


def _round(setter: Setter, step: ChecklistStep, one: Round) -> None:
    """A box, the pass in bold, then the wrench; the order where it is another than the first's."""
    done = one.place in step.ticked
    setter.tick(one.words, number=str(one.place + 1), done=done, indent=0, font=BOLD)
    indent = past_tick(str(one.place + 1))
    if one.place < len(step.uses) and step.uses[one.place]:
        setter.add(step.uses[one.place], REGULAR, SMALL, indent=indent)
    first = step.rounds[0].order
    if one.order and one.order != first:
        said = "back to front" if one.order == first[::-1] else in_turn(one.order)
        setter.add(f"Order: {said}", REGULAR, SMALL, indent=indent)


def _was_ticked(setter: Setter, step: ChecklistStep) -> None:
    count = len([one for one in step.rounds if one.place in step.ticked])
    if count:
        font = MEDIUM if count == len(step.rounds) else BOLD
        setter.add(f"{count} of {len(step.rounds)} passes ticked", font)
