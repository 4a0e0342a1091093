"""What is renewed: every new part that a job needs, why, and how far it has come.

A line stands for itself as soon as a part's fate, its hardware or a person says that something new
is bought; it is written down when somebody says more of it: a supplier, a price, an order.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum

from bagtag.domain import renewal_words as words
from bagtag.domain.hardware import HeldBy
from bagtag.domain.kinds import Kinds, is_always_renewed
from bagtag.domain.model import Away, Container, Fate, Removal, Replacement
from bagtag.domain.new_part import NewPart


class Why(StrEnum):
    """Why a new part is bought, or may have to be."""

    FATE = "to be renewed"
    KIND = "renewed whenever it has been off"
    MEASURED = "measured out of its limits"
    ONE_TIME = "new each time"
    ADDED = "added to the list"


@dataclass(frozen=True, slots=True)
class RenewLine:
    """One line to renew. `new_part.id` is 0 while nothing is written of it; `code` is on the tag of
    the part it is for. `because` says more of `why` where there is more to say.

    A suggestion is for a person to accept: its part's fate is something else yet. `step` is the
    place in the build of the step it is needed for, from 1, and `before` what that is called, both
    empty for a line of no part. `old_part` says where the old one is kept until both have been
    compared, empty when there is nothing to compare; `said` is the state in words. `is_in` is a
    line whose part is fitted; one not `is_needed` was bought or written for a part that is not
    renewed any more, or for hardware that it no longer has.
    """

    new_part: NewPart
    removal: Removal | None = None
    code: str = ""
    why: Why = Why.ADDED
    because: str = ""
    is_suggestion: bool = False
    step: int | None = None
    before: str = ""
    old_part: str = ""
    said: str = ""
    is_in: bool = False
    is_needed: bool = True

    @property
    def state(self) -> Replacement:
        return self.new_part.state

    @property
    def is_open(self) -> bool:
        """Whether something of it is still to be ordered."""
        wanted = self.is_needed and not self.is_in and not self.is_suggestion
        return wanted and self.state is Replacement.WANTED

    @property
    def still(self) -> int:
        """How many pieces are still to come."""
        return self.new_part.still


@dataclass(frozen=True, slots=True)
class RenewRows:
    """What the lines of a job are gathered from. `places` has the place in the build of each
    removal's step; `out` says of a removal what was measured out of its limits and not decided,
    `decided` what was measured of one decided to be renewed."""

    job_id: int
    log: Sequence[Removal]
    written: Sequence[NewPart] = ()
    kinds: Kinds = field(default_factory=Kinds)
    places: Mapping[int, int] = field(default_factory=dict)
    fitted: frozenset[int] = frozenset()
    codes: Mapping[int, str] = field(default_factory=dict)
    containers: Mapping[int, Container] = field(default_factory=dict)
    away: Mapping[int, Away] = field(default_factory=dict)
    out: Mapping[int, str] = field(default_factory=dict)
    decided: Mapping[int, str] = field(default_factory=dict)


def line_of(held: HeldBy) -> str:
    """What tells one line of a part's hardware from its others: `bolt M8x30 8.8`."""
    said = " ".join(part for part in (held.kind, held.size(), held.grade) if part)
    return said or "fastener"


def gather(rows: RenewRows, today: date) -> tuple[RenewLine, ...]:
    """Every line of a job, what is needed first in the build first, then what is of no part, then
    what is only suggested."""
    asked = [*_implied(rows), *_suggested(rows)]
    found = [*asked, *_others(rows, {line.new_part.id for line in asked})]
    told = [_told(rows, line, today) for line in found]
    return tuple(sorted(told, key=_rank))


def _rank(line: RenewLine) -> tuple[bool, bool, int, int]:
    place = line.step if line.step is not None else 0
    return line.is_suggestion, line.step is None, place, line.new_part.id


def _implied(rows: RenewRows) -> Iterator[RenewLine]:
    """Parts whose fate is renew, and hardware that is new each time, of what still goes in."""
    written = _by_line(rows.written)
    for removal in rows.log:
        if removal.fate is Fate.RENEW:
            part = written.get((removal.id, "")) or own_line(removal)
            why, because = _why(rows, removal)
            yield RenewLine(part, removal, why=why, because=because)
        if removal.fate is not Fate.SCRAP:
            yield from _hardware(rows, removal, written)


def _hardware(
    rows: RenewRows, removal: Removal, written: Mapping[tuple[int | None, str], NewPart]
) -> Iterator[RenewLine]:
    for line, held in one_time(removal).items():
        part = written.get((removal.id, line))
        if part is None and removal.id in rows.fitted:
            continue
        because = "how many is not counted yet" if any(one.count is None for one in held) else ""
        yield RenewLine(
            part or hardware_line(removal, line, held), removal, why=Why.ONE_TIME, because=because
        )


def one_time(removal: Removal) -> dict[str, list[HeldBy]]:
    """The hardware of a part that is new each time; lines that are alike are one."""
    found: dict[str, list[HeldBy]] = defaultdict(list)
    for held in removal.held_by:
        if held.one_time:
            found[line_of(held)].append(held)
    return dict(found)


def own_line(removal: Removal) -> NewPart:
    """The line of a part itself, as long as nothing is written of it. What was only said to be on
    order has no day; the day it came off stands for that one."""
    part = NewPart(
        0, "", removal.job_id, removal.id, "", removal.name, removal.size, count=removal.quantity
    )
    if removal.replacement is Replacement.HERE:
        return replace(part, arrived=part.count)
    if removal.replacement is Replacement.ORDERED and removal.logged_at is not None:
        return replace(part, ordered_on=removal.logged_at.date(), note=words.NOT_NOTED)
    return part


def hardware_line(removal: Removal, line: str, held: Sequence[HeldBy]) -> NewPart:
    """The line of a part's fasteners that are new each time, as long as nothing is written."""
    first = held[0]
    size = " ".join(part for part in (first.size(), first.grade) if part)
    washers = first.washer_words()
    return NewPart(
        id=0,
        uid="",
        job_id=removal.job_id,
        removal_id=removal.id,
        line=line,
        what=first.kind or "fastener",
        size=size,
        count=max(sum(one.count or 0 for one in held), 1),
        note=f"each with {washers}" if washers else "",
    )


def _why(rows: RenewRows, removal: Removal) -> tuple[Why, str]:
    if removal.id in rows.decided:
        return Why.MEASURED, rows.decided[removal.id]
    kind = rows.kinds.of(removal.name, removal.kind)
    if kind is not None and is_always_renewed(kind):
        return Why.KIND, kind.why
    return Why.FATE, removal.condition


def _suggested(rows: RenewRows) -> Iterator[RenewLine]:
    """What a kind or a measurement says of parts that nobody has said it of."""
    written = _by_line(rows.written)
    for removal in rows.log:
        found = None if removal.id in rows.fitted else _speaks_for_it(rows, removal)
        if found is not None:
            part = written.get((removal.id, "")) or own_line(removal)
            why, because = found
            yield RenewLine(part, removal, why=why, because=because, is_suggestion=True)


def _speaks_for_it(rows: RenewRows, removal: Removal) -> tuple[Why, str] | None:
    if removal.id in rows.out and removal.fate in (Fate.REFIT, Fate.DECIDE):
        return Why.MEASURED, rows.out[removal.id]
    kind = rows.kinds.of(removal.name, removal.kind)
    if removal.fate is Fate.REFIT and kind is not None and is_always_renewed(kind):
        return Why.KIND, kind.why
    return None


def _others(rows: RenewRows, known: Collection[int]) -> Iterator[RenewLine]:
    """Lines that a person added, and those whose part is not renewed any more."""
    log = {removal.id: removal for removal in rows.log}
    for part in rows.written:
        if part.removal_id is None:
            yield RenewLine(part)
        elif part.id not in known:
            yield RenewLine(part, log[part.removal_id], is_needed=False)


def is_implied(removal: Removal, line: str) -> bool:
    """Whether a part's fate, or its hardware, asks for this line by itself."""
    if not line:
        return removal.fate is Fate.RENEW
    return removal.fate is not Fate.SCRAP and line in one_time(removal)


def _told(rows: RenewRows, line: RenewLine, today: date) -> RenewLine:
    """The line with its place, its tag, where the old one is, and its state in words."""
    removal = line.removal
    if removal is None:
        return replace(line, said=words.said(line.new_part, today))
    is_in = removal.id in rows.fitted
    said = words.said(line.new_part, today, is_in=is_in, is_needed=line.is_needed)
    said = words.NOT_LISTED if line.is_suggestion and said == "wanted" else said
    return replace(
        line,
        code=rows.codes.get(removal.id, ""),
        step=rows.places.get(removal.id),
        before=f"{removal.number} {removal.name}",
        old_part=_old(rows, line, removal),
        said=said,
        is_in=is_in,
    )


def _old(rows: RenewRows, line: RenewLine, removal: Removal) -> str:
    if line.is_suggestion or not line.is_needed or removal.id in rows.fitted:
        return ""
    return words.old_part(line.new_part, removal, rows.containers, rows.away.get(removal.id))


def _by_line(written: Iterable[NewPart]) -> dict[tuple[int | None, str], NewPart]:
    return {(part.removal_id, part.line): part for part in written}
