"""What is said of a joint while it is tightened: the pass now due, the wrench, the fasteners.

The card, the checklist and the terminal say it in the same words.
"""

from collections.abc import Iterable, Sequence

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_counts import counts, holes_of_line, marked
from bagtag.domain.joint import Joint
from bagtag.domain.phrases import capital, whole
from bagtag.domain.schedule import Round, turned
from bagtag.domain.wrench_use import WrenchUse


def due_words(joint: Joint) -> tuple[str, str]:
    """`Pass 2 of 4`, and what is done in it; what there is to say where all are done."""
    many, due = len(joint.rounds), joint.due
    if not many:
        return "", ""
    if due is None:
        return ("It is tightened", "") if many == 1 else (f"All {many} passes are done", "")
    words = whole(joint.rounds[due].words)
    return (f"Pass {due + 1} of {many}" if many > 1 else "Tighten", words)


def setting_words(joint: Joint, place: int) -> tuple[str, ...]:
    """What to set which wrench to for a round, and what warns of it, a sentence each."""
    uses = joint.uses[place] if place < len(joint.uses) else ()
    said = (*settings_said(joint.rounds[place], uses), *warnings_said(uses))
    return tuple(map(whole, said))


def settings_said(one: Round, uses: Sequence[WrenchUse]) -> tuple[str, ...]:
    """`Set the small wrench to 24 N·m.`; where the lines of a round are set differently, or no
    wrench reaches some of them, each with its line: `A: set the small wrench to 24 N·m.`"""
    said = [f"{use.said}." for use in uses]
    if len(set(said)) > 1 or (said and len(said) < len(one.torques)):
        said = [f"{use.line}: {words}" for use, words in zip(uses, said, strict=True)]
    return tuple(dict.fromkeys(map(capital, said)))


def warnings_said(uses: Iterable[WrenchUse]) -> tuple[str, ...]:
    """What warns of the wrenches of a round, a sentence each."""
    return tuple(dict.fromkeys(words for use in uses for words in use.warnings))


def order_words(one: Round) -> str:
    """`Order of the holes: 1, 5, 3, 7`; nothing where there is no map."""
    return f"Order of the holes: {in_turn(one.order)}" if one.order else ""


def in_turn(order: Iterable[int]) -> str:
    """`1, 5, 3, 7`."""
    return ", ".join(map(str, order))


def turned_words(rounds: Iterable[Round]) -> str:
    """`Turned by 180° in all`; nothing where no pass turns by an angle."""
    angle = turned([one.step for one in rounds])
    return f"Turned by {angle:g}° in all" if angle else ""


def hole_words(joint: Joint) -> tuple[str, ...]:
    """`A, holes 1–6: 6 bolts M8x35`, for each line of hardware that goes into a hole."""
    said = ((holes_of_line(joint.hole_map, line), line) for line in marked(joint.held_by))
    return tuple(f"{where}: {line.called()}" for where, line in said if where)


def miscounted(joint: Joint) -> tuple[str, ...]:
    """Where holes and fasteners do not add up, a sentence each."""
    return counts(joint.hole_map, joint.held_by) if joint.hole_map is not None else ()


def also_words(joint: Joint) -> tuple[str, ...]:
    """What must not be forgotten beside the figures: new fasteners, drag, adapter, angles."""
    if not joint.rounds:
        return ()
    said = [turned_words(joint.rounds)] if len(joint.rounds) > 1 else []
    said += [words for line in joint.held_by for words in _also(line)]
    return tuple(dict.fromkeys(filter(None, said)))


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
