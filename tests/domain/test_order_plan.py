"""The order of the build: against its rules word for word, and against another library."""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import networkx
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bagtag.domain.fitting import Anchor, Beside, Ref, part, task
from bagtag.domain.model import Area
from bagtag.domain.order_plan import plan
from bagtag.domain.order_planner import Planner
from bagtag.domain.order_problem import Added, Because, Circle, Item, Plan, Problem, Tie, Together
from tests.domain.order_kit import is_plan, log_of, problems, pull, refs, wait
from tests.domain.order_reference import middle, told

MANY = settings(max_examples=200, deadline=None)


@MANY
@given(problems())
def test_the_engine_does_what_the_rules_say_word_for_word(problem):
    """The slow one has no cutting and no numbers: it writes out every tie and walks them all."""
    truth, found = told(problem), plan(problem)
    assert isinstance(found, Plan) == (truth.order is not None)
    if isinstance(found, Plan):
        assert list(found.log_order) == truth.log
        assert list(found.order) == truth.order
        assert [ref for group in found.groups for ref in group] == truth.order


@MANY
@given(problems(signed=False))
def test_every_plan_is_a_topological_order(problem):
    """Of the graph of all ties, each together set one node; networkx says whether there is one."""
    truth, found = told(problem), plan(problem)
    graph = collapsed(truth)
    inside = [t for t in truth.ties if truth.group_of[t.before] == truth.group_of[t.after]]
    within = networkx.DiGraph((tie.before, tie.after) for tie in inside)
    acyclic = networkx.is_directed_acyclic_graph
    assert isinstance(found, Plan) == (acyclic(graph) and acyclic(within))
    assume(isinstance(found, Plan))
    step = {ref: number for number, group in enumerate(found.groups) for ref in group}
    seat = {ref: number for number, ref in enumerate(found.order)}
    assert all(len({step[ref] for ref in group}) == 1 for group in graph)
    assert all(step[min(u)] < step[min(v)] for u, v in graph.edges)
    assert all(seat[tie.before] < seat[tie.after] for tie in inside)


def collapsed(truth) -> networkx.DiGraph:
    graph = networkx.DiGraph()
    graph.add_nodes_from(truth.group_of.values())
    pairs = ((truth.group_of[tie.before], truth.group_of[tie.after]) for tie in truth.ties)
    graph.add_edges_from((before, after) for before, after in pairs if before != after)
    return graph


@MANY
@given(problems(rules=False, signed=False))
def test_with_areas_and_openers_alone_it_is_the_lexicographical_sort(problem):
    """networkx's own, of the reversed log, whether or not an opener is held: where all ties are
    waits, the earliest in place and the earliest in the log are the same step."""
    check_lexicographical(problem)


@MANY
@given(problems(signed=False))
def test_so_it_is_with_every_tie_that_is_a_wait(problem):
    waits = tuple(replace(tie, is_wait=True) for tie in problem.ties)
    check_lexicographical(replace(problem, ties=waits))


def check_lexicographical(problem: Problem) -> None:
    truth, found = told(problem), plan(problem)
    assume(isinstance(found, Plan))
    sort = networkx.lexicographical_topological_sort
    order = sort(collapsed(truth), key=lambda group: middle(group, truth.log))
    assert [frozenset(group) for group in found.groups] == list(order)


@MANY
@given(problems(signed=False))
def test_a_log_that_keeps_every_rule_is_the_plan(problem):
    """Strip in the order of the plan, backwards, and the same plan comes out, unexplained."""
    found = plan(replace(problem, added=()))
    assume(isinstance(found, Plan))
    items = {item.ref: item for item in problem.log}
    log = [items[ref] for ref in reversed(found.order)]
    again = plan(replace(problem, added=(), log=log, together=()))
    assert is_plan(again)
    assert again.order == again.log_order == found.order
    assert not again.held
    assert not again.pulled


@MANY
@given(problems(signed=False), st.data())
def test_signing_along_the_plan_changes_nothing(problem, data):
    """Rule 8. And taking the last sign-offs back gives the very plan again."""
    found = plan(problem)
    assume(isinstance(found, Plan))
    signed = found.order[: data.draw(st.integers(0, len(found.order)))]
    part_built = plan(replace(problem, signed=signed))
    assert is_plan(part_built)
    assert part_built.order == found.order
    assert (part_built.held, part_built.pulled) == (found.held, found.pulled)


@MANY
@given(problems())
def test_what_is_signed_comes_first_and_nothing_moves_it(problem):
    found = plan(problem)
    assume(isinstance(found, Plan))
    here = [ref for ref in problem.signed if ref in found.log_order]
    assert list(found.order[: len(here)]) == here
    assert sorted(found.order) == sorted(found.log_order)


@MANY
@given(st.lists(problems(most=4), min_size=2, max_size=4))
def test_a_planner_that_has_planned_before_plans_the_same(given_problems):
    """Whatever it planned before, and whether or not the log is the one it knows."""
    planner = Planner()
    for problem in given_problems:
        act = replace(given_problems[0], ties=problem.ties, signed=problem.signed)
        assert planner.plan(act) == plan(act)
        assert planner.plan(problem) == plan(problem)


@given(problems(rules=False, together=False, signed=False), st.data())
def test_an_area_that_nothing_opens_is_part_of_the_one_above(problem, data):
    """Taking one out, and putting what is in it into the area above, changes nothing."""
    here = {item.ref.id for item in problem.log}
    plain = [area for area in problem.areas if area.opener_id not in here]
    assume(plain)
    gone = data.draw(st.sampled_from(plain))
    log = [replace(i, area_id=gone.parent_id) if i.area_id == gone.id else i for i in problem.log]
    rows = [
        replace(row, item=replace(row.item, area_id=gone.parent_id))
        if row.item.area_id == gone.id else row
        for row in problem.added
    ]  # fmt: skip
    areas = [
        replace(area, parent_id=gone.parent_id) if area.parent_id == gone.id else area
        for area in problem.areas if area is not gone
    ]  # fmt: skip
    found, without = plan(problem), plan(replace(problem, log=log, added=rows, areas=areas))
    assert isinstance(found, Plan) == isinstance(without, Plan)
    if is_plan(found) and is_plan(without):
        assert found.order == without.order


def test_the_plan_is_the_same_whatever_the_hash_seed():
    """Sets and dicts of names are never walked in an order of their own."""
    script = Path(__file__).with_name("order_hash_seed.py")
    said = {run(script, seed) for seed in ("0", "1", "4321")}
    assert len(said) == 1
    assert len(said.pop()) > 500


def run(script: Path, seed: str) -> str:
    root = Path(__file__).parents[2]
    env = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(root)}
    done = subprocess.run(
        [sys.executable, str(script)], capture_output=True, text=True, check=True, env=env, cwd=root
    )
    return done.stdout


# Words of the trade, in the order off: each line is a case of common practice, no source.


def test_a_cover_logged_first_comes_back_last():
    areas = (Area(1, 1, "gearbox", None, 1),)
    found = plan(Problem(log_of(1, (2, 1), (3, 1), 4), areas))
    assert refs(found) == (4, 3, 2, 1)
    assert not found.held


def test_a_cover_that_was_written_down_late_still_goes_on_after_its_contents():
    """Rule 6: it is held until the first thing that came out from behind it is back."""
    areas = (Area(1, 1, "gearbox", None, 3),)
    found = plan(Problem(log_of((1, 1), (2, 1), 3, 4), areas))
    assert refs(found) == (4, 2, 1, 3)
    assert found.held == {part(3): Tie(part(1), part(3), True, Because.OPENER, 1)}


def test_fit_first_on_an_opener_brings_its_contents_forward_with_it():
    """Rule 6: the clutch cannot go in before the side cover, which needs the gears behind it."""
    areas = (Area(1, 1, "gear side", None, 1),)
    found = plan(Problem(log_of(1, (2, 1), (3, 1), 4, 5), areas, ties=[pull(1, 5)]))
    assert refs(found) == (3, 2, 1, 5, 4)
    assert found.pulled[part(3)] == Tie(part(3), part(1), True, Because.OPENER, 1)
    assert found.pulled[part(1)] == pull(1, 5)


def test_a_gasket_gets_its_dowels_first_and_the_cover_stays_where_it_is():
    """Rule 9: off came dowels, cover, gasket and gear; the gasket needs the dowels."""
    found = plan(Problem(log_of(1, 2, 3, 4), ties=[pull(1, 3)]))
    assert refs(found) == (4, 1, 3, 2)


def test_drum_and_forks_go_in_as_one_at_the_place_of_the_middle_one():
    """Rule 3: with two forks and a drum, the second of the three in log order."""
    together = [Together((part(1), part(4), part(6)))]
    found = plan(Problem(log_of(1, 2, 3, 4, 5, 6), together=together))
    assert is_plan(found)
    assert found.groups == ((part(5),), (part(6), part(4), part(1)), (part(3),), (part(2),))


def test_of_two_the_earlier_place_counts():
    found = plan(Problem(log_of(1, 2, 3, 4), together=[Together((part(1), part(3)))]))
    assert found.groups == ((part(4),), (part(3), part(1)), (part(2),))


def test_sets_that_share_a_member_are_one_step():
    sets = [Together((part(1), part(2)), 7), Together((part(2), part(4)), 8)]
    found = plan(Problem(log_of(1, 2, 3, 4), together=sets))
    assert found.groups == ((part(3),), (part(4), part(2), part(1)))


def test_a_set_that_straddles_an_opener_goes_before_it():
    """Rule 3: a post that stands through the cover goes in with the gear it carries."""
    areas = (Area(1, 1, "gearbox", None, 2),)
    together = [Together((part(1), part(3)))]
    found = plan(Problem(log_of(1, 2, (3, 1), (4, 1)), areas, together=together))
    assert refs(found) == (4, 3, 1, 2)


def test_an_opener_may_be_a_member_of_a_set_with_what_is_behind_it():
    """The half goes on with its bearing; inside the set the bearing first, whatever was logged."""
    areas = (Area(1, 1, "case", None, 3),)
    together = [Together((part(2), part(3)))]
    found = plan(Problem(log_of((1, 1), (2, 1), 3, 4), areas, together=together))
    assert found.groups == ((part(4),), (part(1),), (part(2), part(3)))


def test_where_a_pair_has_both_it_is_a_wait():
    """Rule 2: nothing is brought forward for a step that is held for it anyway."""
    found = plan(Problem(log_of(1, 2, 3), ties=[pull(1, 2), wait(1, 2)]))
    assert refs(found) == (3, 1, 2)
    assert list(found.held) == [part(2)]
    assert not found.pulled


def test_hold_wins_over_fit_first():
    """Rule 4: 3 needs 2 in already, and 2 is held until 1; so 3 is held too."""
    found = plan(Problem(log_of(1, 2, 3, 4), ties=[wait(1, 2), pull(2, 3)]))
    assert refs(found) == (4, 1, 2, 3)
    assert set(found.held) == {part(2), part(3)}
    assert not found.pulled


def test_two_stage_tightening_studs_now_and_torque_when_the_head_is_on():
    added = [Added(Item(task(1)), after_all=(part(3), part(1)))]
    ties = [wait(part(3), task(1)), wait(part(1), task(1))]
    assert refs(plan(Problem(log_of(1, 2, 3), added=added, ties=ties))) == (3, 2, 1, task(1))


def test_a_cover_signed_early_does_not_hold_up_the_rest():
    """Rule 8: it is on; what is missing behind it stands where it always stood."""
    areas = (Area(1, 1, "gearbox", None, 1),)
    problem = Problem(log_of(1, (2, 1), (3, 1), 4), areas, signed=[part(4), part(1)])
    assert refs(plan(problem)) == (4, 1, 3, 2)


@pytest.mark.parametrize(
    ("rows", "order"),
    [
        ([(1, Anchor(Beside.BEFORE, part(2)))], "3 t1 2 1"),
        ([(1, Anchor(Beside.AFTER, part(2)))], "3 2 t1 1"),
        ([(1, Anchor(Beside.BEFORE))], "t1 3 2 1"),
        ([(1, Anchor())], "3 2 1 t1"),
        ([(1, Anchor(Beside.BEFORE, part(99)))], "3 2 1 t1"),
        ([(1, Anchor(Beside.AFTER, part(3))), (2, Anchor(Beside.AFTER, part(3)))], "3 t1 t2 2 1"),
        ([(1, Anchor(Beside.BEFORE, part(3))), (2, Anchor(Beside.BEFORE, part(3)))], "t1 t2 3 2 1"),
        ([(1, Anchor(Beside.AFTER, task(2))), (2, Anchor(Beside.AFTER, part(3)))], "3 t2 t1 2 1"),
        ([(1, Anchor(Beside.BEFORE, task(2))), (2, Anchor(Beside.AFTER, part(3)))], "3 t1 t2 2 1"),
        ([(1, Anchor(Beside.AFTER, task(2))), (2, Anchor(Beside.AFTER, task(1)))], "3 2 1 t1 t2"),
        ([(1, Anchor(Beside.AFTER, task(1)))], "3 2 1 t1"),
    ],
)  # fmt: skip
def test_what_was_never_logged_stands_at_its_anchor(rows, order):
    """Rule 1; the log of all of them is 1, 2, 3 in the order off."""
    added = [Added(Item(task(id_)), anchor) for id_, anchor in rows]
    assert refs(plan(Problem(log_of(1, 2, 3), added=added))) == tuple(map(named, order.split()))


def named(word: str) -> int | Ref:
    return task(int(word[1:])) if word[0] == "t" else int(word)


def test_a_bench_build_stands_after_its_last_piece():
    added = [Added(Item(task(1)), after_all=(part(3), part(1), part(2)))]
    found = plan(Problem(log_of(4, 1, 2, 3), added=added))
    assert refs(found) == (3, 2, 1, task(1), 4)


def test_a_bench_build_of_a_bench_build():
    added = [
        Added(Item(task(2)), after_all=(task(1), part(4))),
        Added(Item(task(1)), after_all=(part(2), part(3))),
    ]
    found = plan(Problem(log_of(1, 2, 3, 4), added=added))
    assert refs(found) == (4, 3, 2, task(1), task(2), 1)


def test_nothing_at_all_is_a_plan():
    assert plan(Problem(())) == Plan(())


def test_what_is_not_here_is_passed_over():
    ties = [pull(99, 1), wait(1, 99), pull(1, 1), wait(2, 2)]
    sets = [Together((part(1), part(99))), Together((part(98), part(99))), Together(())]
    found = plan(Problem(log_of(1, (2, 50)), ties=ties, together=sets, signed=[part(99)]))
    assert found.groups == ((part(2),), (part(1),))


def test_areas_that_lie_in_one_another_do_not_hang_it():
    """Refused when they are entered; a plan comes out all the same."""
    areas = (Area(1, 1, "a", 2, 1), Area(2, 1, "b", 1, 2), Area(3, 1, "c", 3, 3))
    found = plan(Problem(log_of(1, 2, 3, (4, 1), (5, 2), (6, 3)), areas))
    assert is_plan(found)
    assert refs(found) == (6, 5, 4, 3, 2, 1)


def test_an_opener_does_not_wait_for_itself():
    found = plan(Problem(log_of((1, 1), (2, 1)), (Area(1, 1, "gearbox", None, 1),)))
    assert refs(found) == (2, 1)


DEEP = 10_000


def test_ten_thousand_needs_in_one_chain():
    """Each needs the next of the log in already, so that the whole log is turned round."""
    log = log_of(*range(1, DEEP + 1))
    ties = [pull(n, n + 1) for n in range(1, DEEP)]
    found = plan(Problem(log, ties=ties))
    assert refs(found) == tuple(range(1, DEEP + 1))
    assert len(found.pulled) == DEEP - 1


def test_ten_thousand_waits_in_one_chain():
    log = log_of(*range(1, DEEP + 1))
    ties = [wait(n, n + 1) for n in range(1, DEEP)]
    found = plan(Problem(log, ties=ties))
    assert refs(found) == tuple(range(1, DEEP + 1))
    assert len(found.held) == DEEP - 1


def test_ten_thousand_anchors_in_one_chain():
    added = [Added(Item(task(n)), Anchor(Beside.AFTER, task(n + 1))) for n in range(1, DEEP)]
    added.append(Added(Item(task(DEEP)), Anchor(Beside.BEFORE)))
    found = plan(Problem(log_of(1), added=added))
    assert refs(found) == (*(task(n) for n in range(DEEP, 0, -1)), 1)


def test_ten_thousand_lines_in_a_deep_tree():
    """Two million ties of openers, none of them written out."""
    areas = [Area(n, 1, f"area {n}", n - 1 or None, opener_id=n) for n in range(1, 200)]
    log = [Item(part(n), n - 1 or None) for n in range(1, 200)]
    log += [Item(part(n), 199) for n in range(200, 10_200)]
    assert refs(plan(Problem(log, areas))) == tuple(range(10_199, 0, -1))


def test_a_ring_of_ten_thousand_is_a_circle_of_ten_thousand():
    ties = [*(pull(n, n + 1) for n in range(1, DEEP)), pull(DEEP, 1)]
    found = plan(Problem(log_of(*range(1, DEEP + 1)), ties=ties))
    assert isinstance(found, Circle)
    assert len(found.ties) == DEEP
