"""What can be fitted now: the partial order behind the plan, and what would free the most steps.

A step waits for what it is tied to, and for the step before it in its own area or, a piece of a
bench build, before it in that build: on the bench nothing stands in another's way.
"""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from bagtag.domain.fitting import Ref
from bagtag.domain.order_problem import Because, Plan, Tie

Lane = tuple[str, int | None]
"""Where steps follow one another: ("area", id) or ("bench", id of the build)."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """What one step still waits for: ties first, then the step before it in its lane (`before`),
    then what must go behind an opener, the last to go in first."""

    ties: tuple[Tie, ...] = ()
    before: Ref | None = None
    behind: tuple[Ref, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.ties or self.before or self.behind)

    @property
    def refs(self) -> tuple[Ref, ...]:
        """Every step it waits for, each once."""
        before = () if self.before is None else (self.before,)
        return tuple(dict.fromkeys((*(tie.before for tie in self.ties), *before, *self.behind)))


@dataclass(frozen=True, slots=True)
class Now:
    """`waiting` has every step that is not in; `roots` for each of them the steps that keep it out
    by themselves (away, on order, undecided), at most two of them named; `frees` how many steps
    wait for that one alone, itself among them, the most first."""

    waiting: Mapping[Ref, Waiting] = field(default_factory=dict)
    roots: Mapping[Ref, tuple[Ref, ...]] = field(default_factory=dict)
    frees: tuple[tuple[Ref, int], ...] = ()


def now(
    plan: Plan,
    needs: Mapping[Ref, Sequence[Tie]],
    lanes: Mapping[Ref, Lane],
    signed: Collection[Ref],
    stuck: Collection[Ref],
) -> Now:
    """What stands in the way of each step of a plan. `stuck` are the steps that cannot go in
    whatever the others do."""
    waiting = _waiting(plan, needs, lanes, frozenset(signed))
    roots = _roots(waiting, frozenset(stuck))
    alone = Counter(found[0] for found in roots.values() if len(found) == 1)
    rank = {ref: place for place, ref in enumerate(plan.order)}
    frees = sorted(alone.items(), key=lambda item: (-item[1], rank[item[0]]))
    return Now(waiting, roots, tuple(frees))


def _waiting(
    plan: Plan,
    needs: Mapping[Ref, Sequence[Tie]],
    lanes: Mapping[Ref, Lane],
    signed: frozenset[Ref],
) -> dict[Ref, Waiting]:
    """In the order of the plan, so that what a step waits for stands before it."""
    rank = {ref: place for place, ref in enumerate(plan.order)}
    last: dict[Lane, Ref] = {}
    waiting: dict[Ref, Waiting] = {}
    for group in plan.groups:
        missing = [ref for ref in group if ref not in signed]
        for ref in missing:
            open_ = [
                tie
                for tie in needs.get(ref, ())
                if tie.before not in signed and tie.before not in group
            ]
            waiting[ref] = _one(open_, last.get(lanes[ref]), rank)
        for ref in missing:
            last[lanes[ref]] = ref
    return waiting


def _one(open_: Sequence[Tie], before: Ref | None, rank: Mapping[Ref, int]) -> Waiting:
    behind = {tie.before for tie in open_ if tie.because is Because.OPENER}
    other = {tie.before: tie for tie in reversed(open_) if tie.because is not Because.OPENER}
    return Waiting(
        tuple(other[ref] for ref in sorted(other, key=rank.__getitem__, reverse=True)),
        None if before in behind or before in other else before,
        tuple(sorted(behind - set(other), key=rank.__getitem__, reverse=True)),
    )


def _roots(waiting: Mapping[Ref, Waiting], stuck: frozenset[Ref]) -> dict[Ref, tuple[Ref, ...]]:
    roots: dict[Ref, tuple[Ref, ...]] = {}
    for ref, one in waiting.items():
        found = dict.fromkeys([ref] if ref in stuck else [])
        for before in one.refs:
            found |= dict.fromkeys(roots.get(before, ()))
            if len(found) > 1:
                break
        roots[ref] = tuple(found)[:2]
    return roots
