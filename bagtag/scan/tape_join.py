"""Fasteners and the words about them, joined into lines of hardware.

A torque, a drive, a threadlocker or a remark belongs to the fasteners of its own piece. In a piece
of its own it belongs to every fastener of the line where all have one thread and nothing competes;
otherwise to the nearest before it, because a torque on the wrong thread strips it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from bagtag.domain.hardware import HeldBy, Torque
from bagtag.scan.tape_fastener import PLAIN_KIND, Fastener
from bagtag.scan.tape_remark import Grade, Locking, Remark
from bagtag.scan.tape_text import fold
from bagtag.scan.tape_torque import Drive, Range

Said = Torque | Range | Drive | Remark | Grade | Locking | str
_Text = TypeVar("_Text", Drive, Remark, Grade, Locking)


@dataclass(frozen=True, slots=True)
class Part:
    """A fastener or a word about one: its value, its own words, its place and its piece."""

    value: Fastener | Said
    text: str
    start: int
    piece: int

    @property
    def group(self) -> str:
        """What can stand only once on a fastener."""
        if isinstance(self.value, Torque | Range):
            return "torque"
        if isinstance(self.value, Remark | Locking):
            return self.value.text
        return type(self.value).__name__


@dataclass(slots=True)
class _Draft:
    fastener: Fastener
    start: int
    piece: int
    said: list[Part] = field(default_factory=list)

    def lacks(self, group: str) -> bool:
        return all(part.group != group for part in self.said)

    def of(self, *kinds: type) -> list[Part]:
        return [part for part in self.said if isinstance(part.value, kinds)]


def joined(parts: Sequence[Part], name_kind: str, quantity: int) -> list[HeldBy]:
    """The hardware of a line; `name_kind` is what fastener the part itself is, if it is one."""
    drafts = _drafts(parts, name_kind, quantity)
    said = [part for part in parts if not isinstance(part.value, Fastener)]
    inside = [part for part in said if any(d.piece == part.piece for d in drafts)]
    for peers in (inside, [part for part in said if part not in inside]):
        for part in peers:
            for draft in _owners(part, peers, drafts):
                draft.said.append(part)
    return [_line(draft, name_kind, quantity) for draft in drafts]


def _drafts(parts: Sequence[Part], name_kind: str, quantity: int) -> list[_Draft]:
    drafts = [
        _Draft(part.value, part.start, part.piece)
        for part in parts
        if isinstance(part.value, Fastener)
    ]
    if not drafts and parts:
        return [_Draft(Fastener(), parts[0].start, -1)]
    return _merged(drafts)


def _merged(drafts: list[_Draft]) -> list[_Draft]:
    """`8 bolts, M6x30` is one line: one has no thread, the other nothing else."""
    if len(drafts) != 2:
        return drafts
    bare = [d for d in drafts if not d.fastener.thread]
    size = [d for d in drafts if d.fastener.count is None and not d.fastener.said]
    if len(bare) != 1 or len(size) != 1 or bare == size:
        return drafts
    kind, thread = bare[0].fastener, size[0].fastener
    both = Fastener(
        kind.count, kind.kind, kind.said, thread.thread, thread.length, thread.length_unit
    )
    return [_Draft(both, drafts[0].start, drafts[0].piece)]


def _owners(part: Part, peers: Sequence[Part], drafts: Sequence[_Draft]) -> list[_Draft]:
    scope = [d for d in drafts if d.piece == part.piece] or list(drafts)
    rivals = [p for p in peers if p.group == part.group and _same_scope(p, part, scope)]
    if len(rivals) == 1 and len({d.fastener.thread for d in scope}) == 1:
        free = [d for d in scope if d.lacks(part.group)]
        if free:
            return free
    return _nearest(part, scope)


def _same_scope(one: Part, other: Part, scope: Sequence[_Draft]) -> bool:
    return one.piece == other.piece or all(d.piece != other.piece for d in scope)


def _nearest(part: Part, scope: Sequence[_Draft]) -> list[_Draft]:
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


def _line(draft: _Draft, name_kind: str, quantity: int) -> HeldBy:
    fastener = draft.fastener
    own = bool(name_kind) and fastener.kind == PLAIN_KIND
    return HeldBy(
        count=_count(fastener, name_kind, quantity),
        kind=name_kind if own else fastener.kind,
        thread=fastener.thread,
        length=fastener.length,
        length_unit=fastener.length_unit,
        drive=", ".join(_texts(draft, Drive)),
        torque=_torque(draft),
        threadlocker=", ".join(dict.fromkeys(str(p.value) for p in draft.of(str))),
        note=", ".join(dict.fromkeys(_notes(draft))),
        grade=", ".join(filter(None, (fastener.grade, *_texts(draft, Grade)))),
        locking=", ".join(_texts(draft, Locking)),
    )


def _count(fastener: Fastener, name_kind: str, quantity: int) -> int | None:
    """As said; of the part itself its quantity; one for a kind in the singular; else uncounted."""
    if fastener.count:
        return fastener.count
    if name_kind and fastener.kind in (PLAIN_KIND, name_kind):
        return quantity
    return 1 if fastener.said and not fold(fastener.said).endswith("s") else None


def _texts(draft: _Draft, kind: type[_Text]) -> dict[str, None]:
    """What parts of one kind say, each once."""
    return dict.fromkeys(p.value.text for p in draft.said if isinstance(p.value, kind))


def _torque(draft: _Draft) -> Torque | None:
    """The one torque, be it given in two units; a range or stages are no single figure."""
    values = [part.value for part in draft.of(Torque, Range)]
    torques = list(dict.fromkeys(value for value in values if isinstance(value, Torque)))
    if len(torques) < len(set(values)) or not torques or not _is_one(torques):
        return None
    return torques[0]


def _is_one(torques: Sequence[Torque]) -> bool:
    """`10 lbf ft (13.5 Nm)`: as near as rounded figures in two units come."""
    figures = [torque.newton_metres() for torque in torques]
    units = {torque.unit for torque in torques}
    return len(units) == len(torques) and max(figures) <= 1.03 * min(figures)


def _notes(draft: _Draft) -> list[str]:
    remarks = list(_texts(draft, Remark))
    torque = _torque(draft)
    other = [part.text for part in draft.of(Torque, Range) if part.value != torque]
    if torque or not other:
        return [*other, *remarks]
    return [f"torque {', '.join(other)}", *remarks]
