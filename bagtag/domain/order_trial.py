"""What if a step stood just before or after another: the rule that would make it so, what the order
would then be, and which ties stand against it."""

from bisect import bisect_left
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Beside, Ref, RuleKind
from bagtag.domain.order_plan import InForce, in_force
from bagtag.domain.order_planner import Planner
from bagtag.domain.order_problem import Because, Circle, Plan, Problem, Tie


@dataclass(frozen=True, slots=True)
class Trial:
    """`kind` and `members` are the rule, as in `Rule`; no kind where the step stands there already.

    `outcome` is the plan with it, or the circle it closes; `broken` the ties in that circle but for
    the rule's own. `moves` are the other steps that change place: the fewest that, taken out
    together with the moved one and its set, leave today's order and the new one alike.
    """

    kind: RuleKind | None
    members: tuple[Ref, ...]
    outcome: Plan | Circle
    broken: tuple[Tie, ...] = ()
    moves: tuple[Ref, ...] = ()


def trial(problem: Problem, moved: Ref, beside: Beside, other: Ref, *, source: int) -> Trial:
    """What if `moved` stood just before or after `other`, by a rule whose id were `source`?

    Today's order is the plan in force. Moved earlier, the step is fitted first, before what it
    comes to stand before; moved later, it is held until what it comes to stand after. BadInput
    where one of the two is signed off or is no step of this build.
    """
    planner = Planner()
    today = in_force(problem, planner)
    _check(today, moved, other)
    tie = _tie(today.plan, moved, beside, other, source)
    if tie is None:
        return Trial(None, (), today.plan)
    outcome = planner.plan(replace(today.problem, ties=(*today.problem.ties, tie)))
    if isinstance(outcome, Circle):
        return Trial(*_rule(tie), outcome, tuple(t for t in outcome.ties if t != tie))
    with_it = {moved} if other in _set_of(today.plan, moved) else _set_of(today.plan, moved)
    return Trial(*_rule(tie), outcome, (), _moves(today.plan.order, outcome.order, with_it))


def _check(today: InForce, moved: Ref, other: Ref) -> None:
    here, signed = set(today.plan.order), set(today.problem.signed)
    if moved == other:
        raise BadInput("A step cannot stand beside itself. Choose another one.")
    if not {moved, other} <= here:
        raise BadInput("This step is no part of the build any more. Choose one from the list.")
    if moved in signed:
        raise BadInput("A step that is signed off stays where it is. Take its sign-off back first.")
    if other in signed:
        raise BadInput("What is signed off comes first. Choose a place after it.")


def _tie(plan: Plan, moved: Ref, beside: Beside, other: Ref, source: int) -> Tie | None:
    """A pull to before a later place's step, a wait for an earlier one's; none where it stands."""
    row = _row(plan, moved, other)
    start, end = _at(row, moved), _at(row, other)
    if start < end:
        end -= beside is Beside.BEFORE
        until = other if other in row[end] else row[end][-1]
        return Tie(until, moved, True, Because.UNTIL, source) if end > start else None
    end += beside is Beside.AFTER
    needs = other if other in row[end] else row[end][0]
    return Tie(moved, needs, False, Because.FIRST, source) if end < start else None


def _row(plan: Plan, moved: Ref, other: Ref) -> Sequence[tuple[Ref, ...]]:
    """The steps that the move is among: of one set its members, else whole steps."""
    group = _set_of(plan, moved)
    return [(ref,) for ref in group] if other in group else plan.groups


def _set_of(plan: Plan, ref: Ref) -> tuple[Ref, ...]:
    return next(group for group in plan.groups if ref in group)


def _at(row: Sequence[tuple[Ref, ...]], ref: Ref) -> int:
    return next(place for place, group in enumerate(row) if ref in group)


def _rule(tie: Tie) -> tuple[RuleKind, tuple[Ref, Ref]]:
    kind = RuleKind.UNTIL if tie.is_wait else RuleKind.FIRST
    return kind, (tie.after, tie.before)


def _moves(today: Sequence[Ref], then: Sequence[Ref], moved: Collection[Ref]) -> tuple[Ref, ...]:
    place = {ref: number for number, ref in enumerate(today)}
    others = [ref for ref in then if ref not in moved]
    stay = _longest_rising([place[ref] for ref in others])
    return tuple(ref for ref in others if place[ref] not in stay)


def _longest_rising(numbers: Sequence[int]) -> set[int]:
    """The longest rising run to be picked out of distinct numbers, by patience sorting."""
    tops: list[int] = []
    below: dict[int, int | None] = {}
    for number in numbers:
        pile = bisect_left(tops, number)
        below[number] = tops[pile - 1] if pile else None
        tops[pile : pile + 1] = [number]
    found: set[int] = set()
    last = tops[-1] if tops else None
    while last is not None:
        found.add(last)
        last = below[last]
    return found
