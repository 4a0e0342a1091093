"""Rules that cannot all hold: the shortest circle, and the plan that stays in force."""

from dataclasses import replace
from itertools import count, pairwise, permutations

import networkx
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bagtag.domain.fitting import part
from bagtag.domain.model import Area
from bagtag.domain.order_plan import in_force, plan
from bagtag.domain.order_problem import Because, Circle, Item, Plan, Problem, Tie, Together
from tests.domain.order_kit import (
    contrary,
    is_circle,
    is_plan,
    log_of,
    problems,
    pull,
    refs,
    sources,
    wait,
)
from tests.domain.order_reference import told

MANY = settings(max_examples=200, deadline=None)


@MANY
@given(contrary())
def test_a_circle_comes_out_exactly_when_there_is_one(problem):
    """networkx: the steps, each together set one node, or the members of one set are no DAG."""
    between, within = graphs(problem)
    acyclic = networkx.is_directed_acyclic_graph
    assert is_circle(plan(problem)) == (not acyclic(between) or not acyclic(within))


def graphs(problem: Problem) -> tuple[networkx.DiGraph, networkx.DiGraph]:
    """The ties between steps, and those between members of one set."""
    truth = told(problem)
    between, within = networkx.DiGraph(), networkx.DiGraph()
    for tie in truth.ties:
        before, after = truth.group_of[tie.before], truth.group_of[tie.after]
        if before != after:
            between.add_edge(before, after)
        else:
            within.add_edge(tie.before, tie.after)
    return between, within


@MANY
@given(contrary())
def test_every_tie_of_a_circle_is_in_the_problem_and_leads_to_the_next(problem):
    circle = plan(problem)
    assume(isinstance(circle, Circle))
    said = told(problem).ties
    for tie, following in zip(circle.ties, (*circle.ties[1:], circle.ties[0]), strict=True):
        assert tie.after == following.before
        if tie.because is Because.TOGETHER:
            rows = [row for row in problem.together if row.source == tie.source]
            assert any({tie.before, tie.after} <= set(row.members) for row in rows)
        else:
            assert tie in said
    assert len(set(circle.refs)) == len(circle.refs)
    assert any(tie.because is not Because.TOGETHER for tie in circle.ties)


@MANY
@given(contrary(most=5))
def test_no_circle_is_shorter(problem):
    """By trying every way round of two steps, of three, and so on."""
    circle = plan(problem)
    assume(isinstance(circle, Circle))
    assert len(circle.ties) == shortest(problem)


def shortest(problem: Problem) -> int:
    truth = told(problem)
    apart, inside, hops = set(), set(), set()
    for tie in truth.ties:
        same = truth.group_of[tie.before] == truth.group_of[tie.after]
        (inside if same else apart).add((tie.before, tie.after))
    here = set(truth.log)
    for row in problem.together:
        hops |= set(permutations(here & set(row.members), 2))
    return next(
        length
        for length in range(2, len(truth.log) + 1)
        for way in permutations(truth.log, length)
        if is_round(way, apart, hops) or is_round(way, inside, set())
    )


def is_round(way: tuple, ties: set, hops: set) -> bool:
    pairs = list(zip(way, (*way[1:], way[0]), strict=True))
    return all(pair in ties or pair in hops for pair in pairs) and any(p in ties for p in pairs)


@MANY
@given(contrary(), st.integers(1, 4))
def test_no_long_circle_is_shorter(problem, links):
    """Each rule made a chain of several: the shortest way back from each tie, by networkx."""
    ids = count(1000)
    log, ties = list(problem.log), []
    for tie in problem.ties:
        steps = [tie.before, *(part(next(ids)) for _ in range(links)), tie.after]
        log = [*map(Item, steps[1:-1]), *log]
        ties += [replace(tie, before=u, after=v) for u, v in pairwise(steps)]
    longer = replace(problem, log=log, ties=ties, signed=())
    found, best = plan(longer), shortest_by_networkx(longer)
    assert (len(found.ties) if is_circle(found) else None) == best


def shortest_by_networkx(problem: Problem) -> int | None:
    truth = told(problem)
    apart, inside = networkx.DiGraph(), networkx.DiGraph()
    for tie in truth.ties:
        same = truth.group_of[tie.before] == truth.group_of[tie.after]
        (inside if same else apart).add_edge(tie.before, tie.after)
    cross = list(apart.edges)
    for row in problem.together:
        apart.add_edges_from(permutations(set(truth.log) & set(row.members), 2))
    ways = [(apart, *pair) for pair in cross] + [(inside, *pair) for pair in inside.edges]
    return min(
        (
            networkx.shortest_path_length(graph, after, before) + 1
            for graph, before, after in ways
            if networkx.has_path(graph, after, before)
        ),
        default=None,
    )


def test_the_drum_needs_the_forks_in_and_they_wait_for_the_drum():
    circle = plan(Problem(log_of(1, 2, 3), ties=[pull(1, 2, 7), wait(2, 1, 9)]))
    assert circle == Circle((wait(2, 1, 9), pull(1, 2, 7)))


def test_a_part_inside_cannot_wait_for_what_closes_the_case():
    areas = (Area(5, 1, "gearbox", None, 1),)
    circle = plan(Problem(log_of(1, (2, 5), 3), areas, ties=[wait(1, 2, 7)]))
    assert is_circle(circle)
    opener = Tie(part(2), part(1), True, Because.OPENER, 5)
    assert set(circle.ties) == {opener, wait(1, 2, 7)}


def test_together_ties_lead_round_as_well():
    """The gear waits for the shaft, the post for the gear; shaft and post go in as one."""
    sets = [Together((part(1), part(3)), 4)]
    circle = plan(Problem(log_of(1, 2, 3), ties=[wait(1, 2, 7), wait(2, 3, 8)], together=sets))
    assert is_circle(circle)
    assert sources(circle.ties) == {4, 7, 8}
    assert len(circle.ties) == 3


def test_sets_that_meet_in_a_member_are_one_step_and_the_way_leads_through_it():
    sets = [Together((part(1), part(2)), 4), Together((part(2), part(3)), 5)]
    ties = [wait(1, 4, 7), wait(4, 3, 8)]
    circle = plan(Problem(log_of(1, 2, 3, 4), ties=ties, together=sets))
    assert is_circle(circle)
    assert sources(circle.ties) == {4, 5, 7, 8}


def test_together_ties_alone_are_no_circle():
    sets = [Together((part(1), part(2)), 4), Together((part(2), part(3)), 5),
            Together((part(3), part(1)), 6)]  # fmt: skip
    assert is_plan(plan(Problem(log_of(1, 2, 3), together=sets)))


def test_a_circle_inside_a_set_needs_no_together_tie():
    sets = [Together((part(1), part(2)), 4)]
    ties = [pull(1, 2, 7), pull(2, 1, 8)]
    circle = plan(Problem(log_of(1, 2, 3), ties=ties, together=sets))
    assert is_circle(circle)
    assert sources(circle.ties) == {7, 8}


def test_of_a_long_circle_and_a_short_one_the_short_one_is_shown():
    long = [wait(1, 2, 1), wait(2, 3, 2), wait(3, 1, 3)]
    circle = plan(Problem(log_of(1, 2, 3, 4, 5), ties=[*long, wait(4, 5, 8), wait(5, 4, 9)]))
    assert is_circle(circle)
    assert sources(circle.ties) == {8, 9}


def test_signing_what_a_circle_runs_through_opens_it():
    ties = [wait(1, 2, 7), wait(2, 1, 8)]
    assert refs(plan(Problem(log_of(1, 2, 3), ties=ties, signed=[part(2)]))) == (2, 3, 1)


@MANY
@given(contrary())
def test_there_is_always_a_plan_in_force(problem):
    found = in_force(problem)
    assert is_plan(found.plan)
    assert sorted(found.plan.order) == sorted(told(problem).log)
    assert found.plan == plan(found.problem)
    first = plan(problem)
    assert found.circle == (first if is_circle(first) else None)
    if is_plan(first):
        assert found.problem == problem
        assert not found.suspended


@MANY
@given(contrary())
def test_rules_stand_aside_only_in_circles_and_the_newest_first(problem):
    """Each rule left out was the newest in a circle of what was in force until then."""
    found, left = in_force(problem), problem
    aside = set()
    while is_circle(circle := plan(left)):
        rules = {tie.source for tie in circle.ties if tie.because in OF_RULES}
        if not rules:
            return
        aside.add(max(rules))
        left = without(left, max(rules))
    assert found.suspended == aside
    assert found.plan == plan(left)


OF_RULES = (Because.FIRST, Because.UNTIL, Because.TOGETHER)


def without(problem: Problem, rule: int) -> Problem:
    ties = [tie for tie in problem.ties if tie.because not in OF_RULES or tie.source != rule]
    return replace(
        problem, ties=ties, together=[row for row in problem.together if row.source != rule]
    )


@MANY
@given(problems(signed=False))
def test_the_last_good_plan_stays_in_force(problem):
    """A new rule that closes a circle is the newest in it, whichever circle is shown."""
    good = plan(problem)
    assume(isinstance(good, Plan) and len(good.order) > 1)
    first, *_, last = good.order
    closing = [Tie(last, first, True, Because.UNTIL, 900), *problem.ties]
    found = in_force(replace(problem, ties=closing))
    if found.circle is None:
        assert found.plan.order.index(last) < found.plan.order.index(first)
    else:
        assert found.suspended == {900}
        assert found.plan == good


def test_of_a_circle_of_task_ties_the_last_said_stands_aside():
    """No rule of the mechanic's is in it, so none is suspended."""
    ties = [Tie(part(1), part(2), True, Because.TIGHTENING),
            Tie(part(2), part(1), False, Because.BENCH)]  # fmt: skip
    found = in_force(Problem(log_of(1, 2, 3), ties=ties))
    assert not found.suspended
    assert found.problem.ties == ties[:1]
    assert refs(found.plan) == (3, 1, 2)


def test_of_two_areas_that_shut_each_other_in_the_newer_one_is_left_open():
    """Refused when they are entered; a plan comes out all the same."""
    areas = (Area(8, 1, "gearbox", None, 1), Area(9, 1, "clutch", None, 2))
    found = in_force(Problem(log_of((1, 9), (2, 8), 3), areas))
    assert found.circle is not None
    assert [tie.source for tie in found.circle.ties if tie.source == 9] == [9]
    assert [area.opener_id for area in found.problem.areas] == [1, None]
    assert refs(found.plan) == (3, 2, 1)
