"""What can be fitted now: the partial order behind the plan, and what would free the most steps.

A step waits for what it is tied to, and for the step before it in its own area or, a piece of a
bench build, before it in that build: on the bench nothing stands in another's way.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from bagtag.domain.fitting import Ref
from bagtag.domain.order_problem import Because, Plan, Tie

Lane = tuple[str, int | None]
"""Where steps follow one another: ("area", id) or ("bench", id of the build)."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """What one step still waits for: ties first, then the step before it in its lane (`before`;
    several where it goes in with others as one), then what must go behind an opener, the last to
    go in first. `along` are those of its own step that cannot go in, so that it cannot either."""

    ties: tuple[Tie, ...] = ()
    before: tuple[Ref, ...] = ()
    behind: tuple[Ref, ...] = ()
    along: tuple[Ref, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.ties or self.before or self.behind or self.along)

    @property
    def refs(self) -> tuple[Ref, ...]:
        """Every other step it waits for, each once; those that go in with it are none."""
        tied = (tie.before for tie in self.ties)
        return tuple(dict.fromkeys((*tied, *self.before, *self.behind)))


@dataclass(frozen=True, slots=True)
class Now:
    """`waiting` has every step that is not in; `roots` for each of them the steps that keep it out
    by themselves (away, on order, undecided), in the order of the plan; `frees` those that keep
    others out, the one that would free the most steps first."""

    waiting: Mapping[Ref, Waiting] = field(default_factory=dict)
    roots: Mapping[Ref, tuple[Ref, ...]] = field(default_factory=dict)
    frees: tuple["Frees", ...] = ()


@dataclass(frozen=True, slots=True)
class Frees:
    """How many steps wait for one that is stuck, itself among them: for it alone, and in all."""

    ref: Ref
    alone: int
    all: int


def now(
    plan: Plan,
    needs: Mapping[Ref, Sequence[Tie]],
    lanes: Mapping[Ref, Lane],
    signed: Collection[Ref],
    stuck: Collection[Ref],
) -> Now:
    """What stands in the way of each step of a plan. `stuck` are the steps that cannot go in
    whatever the others do."""
    waiting = _waiting(plan, needs, lanes, frozenset(signed), frozenset(stuck))
    roots = _roots(waiting, frozenset(stuck))
    alone = Counter(found[0] for found in roots.values() if len(found) == 1)
    all_ = Counter(root for found in roots.values() for root in found)
    frees = [Frees(ref, alone[ref], count) for ref, count in all_.items()]
    frees.sort(key=lambda one: (-one.alone, -one.all))
    return Now(waiting, roots, tuple(frees))


def _waiting(
    plan: Plan,
    needs: Mapping[Ref, Sequence[Tie]],
    lanes: Mapping[Ref, Lane],
    signed: frozenset[Ref],
    stuck: frozenset[Ref],
) -> dict[Ref, Waiting]:
    """In the order of the plan, so that what a step waits for stands before it."""
    rank = {ref: place for place, ref in enumerate(plan.order)}
    last: dict[Lane, Ref] = {}
    waiting: dict[Ref, Waiting] = {}
    for group in plan.groups:
        missing = [ref for ref in group if ref not in signed]
        before = dict.fromkeys(last[lanes[ref]] for ref in missing if lanes[ref] in last)
        for ref in missing:
            open_ = [
                tie
                for tie in needs.get(ref, ())
                if tie.before not in signed and tie.before not in group
            ]
            along = tuple(mate for mate in missing if mate in stuck and mate != ref)
            waiting[ref] = _one(open_, before, along, rank)
        for ref in missing:
            last[lanes[ref]] = ref
    return waiting


def _one(
    open_: Sequence[Tie],
    before: Iterable[Ref],
    along: tuple[Ref, ...],
    rank: Mapping[Ref, int],
) -> Waiting:
    behind = {tie.before for tie in open_ if tie.because is Because.OPENER}
    other = {tie.before: tie for tie in reversed(open_) if tie.because is not Because.OPENER}
    return Waiting(
        tuple(other[ref] for ref in sorted(other, key=rank.__getitem__, reverse=True)),
        tuple(ref for ref in before if ref not in behind and ref not in other),
        tuple(sorted(behind - set(other), key=rank.__getitem__, reverse=True)),
        along,
    )


def _roots(waiting: Mapping[Ref, Waiting], stuck: frozenset[Ref]) -> dict[Ref, tuple[Ref, ...]]:
    """A bit for each step that is stuck: what many wait for is passed on in one stroke."""
    named = [ref for ref in waiting if ref in stuck]
    bits = {ref: 1 << number for number, ref in enumerate(named)}
    masks: dict[Ref, int] = {}
    for ref, one in waiting.items():
        mask = bits.get(ref, 0)
        for mate in one.along:
            mask |= bits[mate]
        for before in one.refs:
            mask |= masks.get(before, 0)
        masks[ref] = mask
    found = {mask: tuple(_named(mask, named)) for mask in set(masks.values())}
    return {ref: found[mask] for ref, mask in masks.items()}


def _named(mask: int, named: Sequence[Ref]) -> Iterator[Ref]:
    while mask:
        lowest = mask & -mask
        yield named[lowest.bit_length() - 1]
        mask ^= lowest
