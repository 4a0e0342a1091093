"""The order of the build: the strip log read backwards, by the rules of what waits for what.

An opener waits for everything in its area and below. A step's place is the latest of its log place
and the places of what it waits for; the walk takes the earliest in place, and first what it still
needs. A log that keeps every rule comes back unchanged, reversed.

Where rules cannot all hold, the newest of those in the way of one another stands aside, so that
there is always a plan.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bagtag.domain.order_planner import Planner
from bagtag.domain.order_problem import Because, Circle, Plan, Problem, Tie

RULES = (Because.FIRST, Because.UNTIL, Because.TOGETHER)


@dataclass(frozen=True, slots=True)
class InForce:
    """`circle` is the first that was met, `suspended` the ids of the rules left out for it and for
    any after it, `problem` what is left: what `plan` was made of."""

    plan: Plan
    circle: Circle | None
    suspended: frozenset[int]
    problem: Problem


def plan(problem: Problem) -> Plan | Circle:
    """The order of the build, or the shortest circle of ties that cannot all hold.

    The same input gives the same plan. O((V + E) log V) at worst, with a tie from each part to
    each opener over it; what does not move is copied.
    """
    return Planner().plan(problem)


def in_force(problem: Problem, planner: Planner | None = None) -> InForce:
    """The plan that holds. The rule left out of a circle is the newest in it, which closed it; so
    the last good plan stays in force."""
    planner = planner or Planner()
    first: Circle | None = None
    suspended: set[int] = set()
    while isinstance(found := planner.plan(problem), Circle):
        first = first or found
        rules = [tie.source for tie in found.ties if tie.because in RULES]
        if rules:
            suspended.add(max(rules))
            problem = _without_rule(problem, max(rules))
        else:
            problem = _without_tie(problem, found)
    return InForce(found, first, frozenset(suspended), problem)


def _without_rule(problem: Problem, rule: int) -> Problem:
    ties = [tie for tie in problem.ties if tie.because not in RULES or tie.source != rule]
    together = [row for row in problem.together if row.source != rule]
    return replace(problem, ties=ties, together=together)


def _without_tie(problem: Problem, circle: Circle) -> Problem:
    """Without the last tie of a circle; of one made of openers alone, without that of the newest
    area in it."""
    said = [number for number, tie in enumerate(problem.ties) if tie in circle.ties]
    if said:
        return replace(problem, ties=_but(problem.ties, said[-1]))
    newest = max(tie.source for tie in circle.ties)
    areas = [replace(a, opener_id=None) if a.id == newest else a for a in problem.areas]
    return replace(problem, areas=areas)


def _but(ties: Sequence[Tie], left_out: int) -> list[Tie]:
    return [tie for number, tie in enumerate(ties) if number != left_out]
