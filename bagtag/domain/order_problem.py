"""What the order of a build is computed from, and what comes out of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from bagtag.domain.fitting import Anchor, Ref
from bagtag.domain.model import Area


class Because(StrEnum):
    """Where a tie comes from."""

    OPENER = "opener"
    FIRST = "fit first"
    UNTIL = "hold until"
    TIGHTENING = "final tightening"
    BENCH = "bench build"
    ANCHOR = "anchor"
    TOGETHER = "together"


@dataclass(frozen=True, slots=True)
class Tie:
    """`before` goes in before `after`. A wait holds `after` back; a pull brings `before` forward.

    `source` is the id of the rule (fit first, hold until, together) or of the area (opener) that
    says so, else 0. Together ties appear in circles only.
    """

    before: Ref
    after: Ref
    is_wait: bool
    because: Because
    source: int = 0


@dataclass(frozen=True, slots=True)
class Item:
    """A step as the order sees it: a removal of the log, or what was added to it."""

    ref: Ref
    area_id: int | None = None


@dataclass(frozen=True, slots=True)
class Added:
    """A step that was never logged, and where it stands: at its anchor, or after the last of
    `after_all` (a bench build after its pieces, a final tightening after what it waits for)."""

    item: Item
    anchor: Anchor = field(default_factory=Anchor)
    after_all: tuple[Ref, ...] = ()


@dataclass(frozen=True, slots=True)
class Together:
    """Steps that go in as one; `source` is the rule's id."""

    members: tuple[Ref, ...]
    source: int = 0


@dataclass(frozen=True, slots=True)
class Problem:
    """`log` in the order off, scrapped parts left out; `ties` all but those of openers, which come
    from `areas`; `signed` in the order signed. What names a step that is not here is passed over.
    """

    log: Sequence[Item]
    areas: Sequence[Area] = ()
    added: Sequence[Added] = ()
    ties: Sequence[Tie] = ()
    together: Sequence[Together] = ()
    signed: Sequence[Ref] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """The order of the build: what is signed off first, as it was signed, then the rest.

    `sets` are those of its steps that go in as more than one, each in its inner order. `log_order`
    is the reversed log with what was added in its place. `held` says for each step whose place is
    later than its log place by which tie, `pulled` for each that was put in early by which tie
    (its `after` is what needed it); a chain of them leads to where it started. The members of a
    set go with the one that is tied, or with the middle one, by a together tie.
    """

    order: tuple[Ref, ...]
    sets: tuple[tuple[Ref, ...], ...] = ()
    log_order: tuple[Ref, ...] = ()
    held: Mapping[Ref, Tie] = field(default_factory=dict)
    pulled: Mapping[Ref, Tie] = field(default_factory=dict)

    @property
    def groups(self) -> tuple[tuple[Ref, ...], ...]:
        """The steps in order, each one ref or a together set in its inner order."""
        if not self.sets:
            return tuple((ref,) for ref in self.order)
        led = {group[0]: group for group in self.sets}
        follow = {ref for group in self.sets for ref in group[1:]}
        return tuple(led.get(ref, (ref,)) for ref in self.order if ref not in follow)


@dataclass(frozen=True, slots=True)
class Circle:
    """Ties that cannot all hold: the shortest way from a step back to itself. Each tie's `after`
    is the next one's `before`, and the last one's `after` the first one's `before`."""

    ties: tuple[Tie, ...]

    @property
    def refs(self) -> tuple[Ref, ...]:
        return tuple(tie.before for tie in self.ties)
