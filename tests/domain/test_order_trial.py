"""What if a step stood elsewhere: the rule that would make it so, and what it would break."""

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Beside, RuleKind, part
from bagtag.domain.model import Area
from bagtag.domain.order_plan import in_force
from bagtag.domain.order_problem import Because, Plan, Problem, Tie, Together
from bagtag.domain.order_trial import trial
from tests.domain.order_kit import is_circle, log_of, problems, pull, refs, wait

MANY = settings(max_examples=200, deadline=None)
BEFORE, AFTER = Beside.BEFORE, Beside.AFTER
LOG = log_of(1, 2, 3, 4, 5)
"""Goes back as 5, 4, 3, 2, 1."""


def try_it(problem: Problem, moved: int, beside: Beside, other: int):
    return trial(problem, part(moved), beside, part(other), source=50)


@pytest.mark.parametrize(
    ("moved", "beside", "other", "kind", "members", "order"),
    [
        (2, BEFORE, 4, RuleKind.FIRST, (4, 2), (5, 2, 4, 3, 1)),
        (2, AFTER, 4, RuleKind.FIRST, (3, 2), (5, 4, 2, 3, 1)),
        (4, AFTER, 2, RuleKind.UNTIL, (4, 2), (5, 3, 2, 4, 1)),
        (4, BEFORE, 2, RuleKind.UNTIL, (4, 3), (5, 3, 4, 2, 1)),
        (1, BEFORE, 5, RuleKind.FIRST, (5, 1), (1, 5, 4, 3, 2)),
        (5, AFTER, 1, RuleKind.UNTIL, (5, 1), (4, 3, 2, 1, 5)),
    ],
)
def test_the_rule_that_puts_a_step_where_it_is_dropped(moved, beside, other, kind, members, order):
    found = try_it(Problem(LOG), moved, beside, other)
    assert (found.kind, found.members) == (kind, tuple(map(part, members)))
    assert refs(found.outcome) == order
    assert not found.moves
    assert not found.broken


@pytest.mark.parametrize(("moved", "beside", "other"), [(4, BEFORE, 3), (3, AFTER, 4)])
def test_no_rule_where_it_stands_already(moved, beside, other):
    found = try_it(Problem(LOG), moved, beside, other)
    assert (found.kind, found.members, found.moves) == (None, (), ())
    assert refs(found.outcome) == (5, 4, 3, 2, 1)


def test_what_it_would_break_is_told():
    """A cover cannot go in before what it closes, nor a gear before what it is held until."""
    areas = (Area(7, 1, "gearbox", None, 2),)
    problem = Problem(log_of(1, 2, (3, 7), (4, 7), 5), areas, ties=[wait(4, 3, 8)])
    cover = try_it(problem, 2, BEFORE, 4)
    assert is_circle(cover.outcome)
    assert cover.broken == (Tie(part(4), part(2), True, Because.OPENER, 7),)
    gear = try_it(problem, 3, BEFORE, 4)
    assert is_circle(gear.outcome)
    assert gear.broken == (wait(4, 3, 8),)


def test_a_part_held_until_something_outside_holds_the_cover_over_it():
    areas = (Area(7, 1, "gearbox", None, 2),)
    found = try_it(Problem(log_of(1, 2, (3, 7), (4, 7), 5), areas), 4, AFTER, 1)
    assert refs(found.outcome) == (5, 3, 1, 4, 2)
    assert found.moves == (part(2),)


def test_what_moves_along_is_told():
    """The cover dropped before a part brings all that is behind it: the fewest that move."""
    areas = (Area(7, 1, "gearbox", None, 1),)
    found = try_it(Problem(log_of(1, (2, 7), (3, 7), 4, 5, 6, 7), areas), 1, BEFORE, 7)
    assert refs(found.outcome) == (3, 2, 1, 7, 6, 5, 4)
    assert found.moves == (part(3), part(2))


def test_a_set_moves_as_one():
    sets = [Together((part(1), part(2)), 9)]
    found = try_it(Problem(LOG, together=sets), 1, BEFORE, 4)
    assert found.members == (part(4), part(1))
    assert refs(found.outcome) == (5, 2, 1, 4, 3)
    assert not found.moves


def test_inside_a_set_members_change_place_among_themselves():
    sets = [Together((part(2), part(3)), 9)]
    found = try_it(Problem(LOG, together=sets), 2, BEFORE, 3)
    assert refs(found.outcome) == (5, 4, 2, 3, 1)
    assert not found.moves


def test_dropped_just_before_a_set_it_is_held_until_what_stands_before_that():
    sets = [Together((part(2), part(1)), 9)]
    found = try_it(Problem(LOG, together=sets), 5, BEFORE, 1)
    assert found.members == (part(5), part(3))
    assert refs(found.outcome) == (4, 3, 5, 2, 1)


@pytest.mark.parametrize(
    ("moved", "other", "said"),
    [
        (5, 1, "Take its sign-off back first"),
        (1, 5, "What is signed off comes first"),
        (1, 1, "beside itself"),
        (1, 9, "no part of the build"),
        (9, 1, "no part of the build"),
    ],
)
@pytest.mark.parametrize("beside", Beside)
def test_what_cannot_be_moved_is_said_in_a_sentence(moved, other, said, beside):
    with pytest.raises(BadInput, match=said):
        try_it(Problem(LOG, signed=[part(5)]), moved, beside, other)


def test_a_trial_starts_from_the_plan_in_force():
    """The rule that closed a circle stands aside here too."""
    problem = Problem(LOG, ties=[wait(1, 2, 7), wait(2, 1, 8)])
    found = try_it(problem, 4, AFTER, 3)
    assert refs(found.outcome) == (5, 3, 4, 1, 2)


@MANY
@given(problems(), st.data())
def test_a_trial_is_what_the_rule_does(problem, data):
    """Its outcome is the plan with the rule; what stands still keeps its order; what is broken
    closes the circle with it; where the plan comes out, the rule is kept."""
    today = in_force(problem)
    loose = [ref for ref in today.plan.order if ref not in problem.signed]
    assume(len(loose) > 1)
    moved, other = data.draw(st.permutations(loose))[:2]
    beside = data.draw(st.sampled_from(Beside))
    found = trial(problem, moved, beside, other, source=900)
    if found.kind is None:
        assert found.outcome == today.plan
        return
    tie = tie_of(found)
    again = in_force(replace(today.problem, ties=[*today.problem.ties, tie]))
    if isinstance(found.outcome, Plan):
        check_moves(today.plan, found, moved, other)
        assert again.plan == found.outcome
        assert found.outcome.order.index(tie.before) < found.outcome.order.index(tie.after)
    else:
        assert again.circle == found.outcome
        assert set(found.outcome.ties) == {tie, *found.broken}
        assert again.suspended == {900}
        assert again.plan == today.plan


def tie_of(found) -> Tie:
    after, before = found.members
    is_wait = found.kind is RuleKind.UNTIL
    return Tie(before, after, is_wait, Because.UNTIL if is_wait else Because.FIRST, 900)


def check_moves(today: Plan, found, moved, other) -> None:
    mates = next(group for group in today.groups if moved in group)
    gone = {moved, *found.moves, *(() if other in mates else mates)}
    still = [ref for ref in today.order if ref not in gone]
    assert still == [ref for ref in found.outcome.order if ref not in gone]
    assert moved not in found.moves


@MANY
@given(problems(together=False, rules=False, signed=False), st.data())
def test_without_rules_against_it_a_step_lands_where_it_is_dropped(problem, data):
    """Just there, where nothing it needs and nothing that needs it is in the way."""
    plain = replace(problem, areas=())
    order = in_force(plain).plan.order
    assume(len(order) > 1)
    moved, other = data.draw(st.permutations(order))[:2]
    beside = data.draw(st.sampled_from(Beside))
    found = trial(plain, moved, beside, other, source=900)
    assert isinstance(found.outcome, Plan)
    gap = found.outcome.order.index(moved) - found.outcome.order.index(other)
    assert gap == (-1 if beside is BEFORE else 1)
    assert not found.moves


def test_pulls_at_the_drop_go_in_first():
    """What the other needs in already stays before it."""
    found = try_it(Problem(LOG, ties=[pull(1, 4, 7)]), 2, BEFORE, 4)
    assert refs(found.outcome) == (5, 2, 1, 4, 3)
