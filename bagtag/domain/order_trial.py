"""What if a step stood just before or after another: the rule that would make it so, what the order
would then be, and which ties stand against it."""

from bisect import bisect_left, bisect_right
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
    together with the moved one and its set, leave today's order and the new one alike; those that
    something else holds or pulls than today rather than those they pass.
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
    return Trial(*_rule(tie), outcome, (), _moves(today.plan, outcome, with_it))


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


def _moves(today: Plan, then: Plan, moved: Collection[Ref]) -> tuple[Ref, ...]:
    place = {ref: number for number, ref in enumerate(today.order)}
    others = [ref for ref in then.order if ref not in moved]
    weights = [1 if _is_tied_anew(today, then, ref) else len(others) for ref in others]
    stay = _heaviest_rising([place[ref] for ref in others], weights)
    return tuple(ref for ref in others if place[ref] not in stay)


def _is_tied_anew(today: Plan, then: Plan, ref: Ref) -> bool:
    held, pulled = then.held.get(ref), then.pulled.get(ref)
    return held != today.held.get(ref) or pulled != today.pulled.get(ref)


def _heaviest_rising(numbers: Sequence[int], weights: Sequence[int]) -> set[int]:
    """Of distinct numbers those of the heaviest rising run that can be picked out of them."""
    ends: list[int] = []  # of runs so far, each heavier than all that end lower
    totals: list[int] = []
    below: dict[int, int | None] = {}
    for number, weight in zip(numbers, weights, strict=True):
        at = bisect_left(ends, number)
        below[number] = ends[at - 1] if at else None
        total = weight + (totals[at - 1] if at else 0)
        lighter = slice(at, bisect_right(totals, total))
        ends[lighter], totals[lighter] = [number], [total]
    found: set[int] = set()
    last = ends[-1] if ends else None
    while last is not None:
        found.add(last)
        last = below[last]
    return found
