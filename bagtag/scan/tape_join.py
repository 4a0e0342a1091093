"""Fasteners and the words about them, joined into lines of hardware.

A torque, a drive, a threadlocker or a remark belongs to the fasteners of its own piece. In a piece
of its own it belongs to every fastener of the line where all have one thread and nothing competes;
otherwise to the nearest before it, because a torque on the wrong thread strips it.
"""

from collections.abc import Sequence
from dataclasses import replace

from bagtag.domain.hardware import HeldBy
from bagtag.scan.tape_draft import Draft, Part, line
from bagtag.scan.tape_fastener import Fastener


def joined(parts: Sequence[Part], name_kind: str, quantity: int) -> list[HeldBy]:
    """The hardware of a line; `name_kind` is what fastener the part itself is, if it is one."""
    drafts = _drafts(parts)
    said = [part for part in parts if not isinstance(part.value, Fastener)]
    inside = [part for part in said if any(d.piece == part.piece for d in drafts)]
    for peers in (inside, [part for part in said if part not in inside]):
        for part in peers:
            for draft in _owners(part, peers, drafts):
                draft.said.append(part)
    return [line(draft, name_kind, quantity) for draft in drafts]


def _drafts(parts: Sequence[Part]) -> list[Draft]:
    drafts = [
        Draft(part.value, part.start, part.piece)
        for part in parts
        if isinstance(part.value, Fastener)
    ]
    if not drafts and parts:
        return [Draft(Fastener(), parts[0].start, -1)]
    return _merged(drafts)


def _merged(drafts: list[Draft]) -> list[Draft]:
    """`8 bolts, M6x30` is one line: one has no thread, the other nothing else."""
    if len(drafts) != 2:
        return drafts
    bare = [d for d in drafts if not d.fastener.thread]
    size = [d for d in drafts if d.fastener.count is None and not d.fastener.said]
    if len(bare) != 1 or len(size) != 1 or bare == size:
        return drafts
    kind, thread = bare[0].fastener, size[0].fastener
    both = replace(kind, thread=thread.thread, length=thread.length, length_unit=thread.length_unit)
    return [Draft(both, drafts[0].start, drafts[0].piece)]


def _owners(part: Part, peers: Sequence[Part], drafts: Sequence[Draft]) -> list[Draft]:
    scope = [d for d in drafts if d.piece == part.piece] or list(drafts)
    rivals = [p for p in peers if p.group == part.group and _same_scope(p, part, scope)]
    if len(rivals) == 1 and len({d.fastener.thread for d in scope}) == 1:
        free = [d for d in scope if d.lacks(part.group)]
        if free:
            return free
    return _nearest(part, scope)


def _same_scope(one: Part, other: Part, scope: Sequence[Draft]) -> bool:
    return one.piece == other.piece or all(d.piece != other.piece for d in scope)


def _nearest(part: Part, scope: Sequence[Draft]) -> list[Draft]:
    """The last before it, with those of the same thread just before that one; else the first."""
    before = [d for d in scope if d.start < part.start]
    if not before:
        return list(scope[:1])
    nearest, *earlier = reversed(before)
    owners = [nearest]
    for draft in earlier:
        if draft.fastener.thread != nearest.fastener.thread or not draft.lacks(part.group):
            break
        owners.append(draft)
    return owners
