"""The audit of what is tightened: torques that can hardly be right, holes, passes."""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from bagtag.domain import schedule_questions
from bagtag.domain.audit_fasteners import called, wants_torque
from bagtag.domain.audit_finding import Finding, Lack, Look
from bagtag.domain.audit_words import listed
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_check import counts, marked
from bagtag.domain.holes import HoleMap
from bagtag.domain.model import Removal
from bagtag.domain.phrases import capital
from bagtag.domain.schedule import checked, rounds
from bagtag.domain.sense import questions
from bagtag.domain.tightening import Pass, PassKind

_NO_MORE = 'To be asked no more, write "as in the manual" in the note.'
_AS_PRINTED = re.compile(r"\b(?:as in|as per|by) the manual\b", re.IGNORECASE)


def doubtful(look: Look) -> Iterator[Finding]:
    """Torques that can hardly be right for their thread, and printed figures that do not agree, all
    of a removal in one finding. What is noted "as in the manual" is not asked again."""
    for removal in look.live:
        asked = [_asked(line, look) for line in removal.held_by if _is_open(line, removal)]
        told = [words for words in asked if words]
        if told:
            said = f"{' '.join(told)} {_NO_MORE}"
            yield Finding(Lack.FIGURE, said, removal.id)


def _is_open(line: HeldBy, removal: Removal) -> bool:
    return line.torque is not None and not _AS_PRINTED.search(f"{line.note}\n{removal.note}")


def _asked(line: HeldBy, look: Look) -> str:
    told = _questions(line, look.stripped.threads)
    return f"{capital(called(line))}: {' '.join(told)}" if told else ""


_questions = lru_cache(maxsize=1024)(questions)
"""A job has many bolts of one kind, and is looked through again after every answer."""


def holes(look: Look) -> Iterator[Finding]:
    """Holes and fasteners of a part that do not agree."""
    maps = look.stripped.maps
    for removal in look.live:
        told = counts(maps[removal.id], removal.held_by) if removal.id in maps else ()
        if told:
            said = f"{' '.join(told)} Put it right in the hole map or the hardware."
            yield Finding(Lack.HOLES, said, removal.id)


def passes(look: Look) -> Iterator[Finding]:
    """Passes that no longer go with their hardware or end elsewhere than it says, and shares of a
    torque that is not logged.

    Where the audit asks for that torque already, they are not asked about as well.
    """
    for removal in look.live:
        said = _passes(removal, look) if removal.passes else ""
        if said:
            yield Finding(Lack.PASSES, said, removal.id)


def _passes(removal: Removal, look: Look) -> str:
    hole_map = look.stripped.maps.get(removal.id)
    try:
        steps = checked(removal.passes, removal.held_by, hole_map)
    except BadInput as wrong:
        return wrong.sentence
    lacking = [
        str(one.place + 1)
        for one in rounds(removal.held_by, steps, hole_map)
        if one.step.kind is PassKind.TORQUE and one.step.share is not None and not one.torques
    ]
    if not lacking:
        return _ends(removal, steps, hole_map)
    if any(wants_torque(line, look) for line in removal.held_by):
        return ""
    return (
        f"{'Pass' if len(lacking) == 1 else 'Passes'} {listed(lacking)} "
        f"{'is' if len(lacking) == 1 else 'are'} a share of a torque, and none is logged: give the "
        "fasteners theirs, or the passes figures."
    )


def _ends(removal: Removal, steps: Sequence[Pass], hole_map: HoleMap | None) -> str:
    """Passes that do not end at what the hardware says."""
    lines = [line for line in marked(removal.held_by) if _is_open(line, removal)]
    told = schedule_questions.questions(lines, steps, hole_map)
    return f"{' '.join(map(capital, told))} {_NO_MORE}" if told else ""
