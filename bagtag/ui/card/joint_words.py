"""What is said of a joint while it is tightened: the pass now due, the wrench, the fasteners."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from bagtag.domain.hole_check import counts, holes_of, marked, spanned
from bagtag.domain.phrases import capital
from bagtag.domain.schedule import turned

if TYPE_CHECKING:
    from bagtag.domain.hardware import HeldBy
    from bagtag.domain.joint import Joint
    from bagtag.domain.schedule import Round

NBSP = "\u00a0"
_UNIT = re.compile(r"(?<=\d) (?=%|[a-zA-Z]+·)|(?<==) ")


def round_words(one: Round) -> str:
    """`Torque to 60 % = 24 N·m`, or what is done where that says it all."""
    said, found = one.said, one.figures
    words = said if not found or found in said else f"{said} = {found}"
    return whole(words)


def whole(words: str) -> str:
    """The same, no figure torn from its unit at the end of a line."""
    return _UNIT.sub(NBSP, words)


def due_words(joint: Joint) -> tuple[str, str]:
    """`Pass 2 of 4`, and what is done in it; what there is to say where all are done."""
    many, due = len(joint.rounds), joint.due
    if not many:
        return "", ""
    if due is None:
        return ("It is tightened", "") if many == 1 else (f"All {many} passes are done", "")
    words = round_words(joint.rounds[due])
    return (f"Pass {due + 1} of {many}" if many > 1 else "Tighten", words)


def setting_words(joint: Joint, place: int) -> tuple[str, ...]:
    """What to set which wrench to for a round, and what warns of it, a sentence each. Where the
    lines of hardware are set differently each is named."""
    uses = joint.uses[place] if place < len(joint.uses) else ()
    names = [name for name, _ in joint.rounds[place].torques]
    said = [whole(f"{capital(use.said)}.") for use in uses]
    if len(set(said)) > 1 and len(said) == len(names):
        said = [f"{name}: {words}" for name, words in zip(names, said, strict=True)]
    said += [warning for use in uses for warning in use.warnings if warning]
    return tuple(dict.fromkeys(said))


def order_words(one: Round) -> str:
    """`Order of the holes: 1, 5, 3, 7`; nothing where there is no map."""
    numbers = ", ".join(map(str, one.order))
    return f"Order of the holes: {numbers}" if numbers else ""


def hole_words(joint: Joint) -> tuple[str, ...]:
    """Which fastener goes into which holes, a line of hardware each."""
    if joint.hole_map is None:
        return ()
    said = []
    for line in marked(joint.held_by):
        own = spanned(hole.number for hole in holes_of(joint.hole_map, line.mark))
        if own:
            holes = "hole" if own.isdecimal() else "holes"
            said.append(f"{line.mark}: {line.called()}, {holes} {own}")
    return tuple(said)


def miscounted(joint: Joint) -> tuple[str, ...]:
    """Where holes and fasteners do not add up, a sentence each."""
    return counts(joint.hole_map, joint.held_by) if joint.hole_map is not None else ()


def also_words(joint: Joint) -> tuple[str, ...]:
    """What must not be forgotten beside the figures: new fasteners, drag, adapter, angles."""
    if not joint.rounds:
        return ()
    angles = turned([one.step for one in joint.rounds])
    said = [f"Turned by {angles:g}° in all"] if angles and len(joint.rounds) > 1 else []
    return (*said, *dict.fromkeys(words for line in joint.held_by for words in _also(line)))


def _also(line: HeldBy) -> Iterable[str]:
    what = f"{line.kind or 'fastener'} {line.size()}".strip()
    if line.one_time:
        yield f"New each time: {what}. Do not put the old ones in again"
    if line.lubrication:
        yield f"Threads of {what}: {line.lubrication}"
    if line.drag is not None:
        drag = whole(str(line.drag))
        yield f"Drag of {what}: {drag} on top of each torque; a wrench setting here has it in"
    if line.adapter is not None:
        yield f"{capital(str(line.adapter))} on the wrench, for {what}"
    if line.stretch is not None:
        yield f"{capital(str(line.stretch))} when it is tight: {what}"
    if line.tool:
        yield f"Special tool: {line.tool}"
