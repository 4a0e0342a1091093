"""What can go in now: against fitting it, step by step, and counting what is left."""

from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.fitting import Anchor, Beside, Ref, Rule, RuleKind, Task, TaskKind, part, task
from bagtag.domain.model import Area, Fate, Replacement
from bagtag.domain.now import Now, now
from bagtag.domain.order_input import BuildRows, areas_of_steps, common_area, problem
from bagtag.domain.order_plan import in_force
from bagtag.domain.order_why import needs
from bagtag.domain.standing import Outline

COUNT = 9


def outline(id_: int, area_id: int | None, fate: Fate = Fate.REFIT, build: int | None = None):
    return Outline(id_, str(id_), f"part {id_}", area_id, fate, Replacement.WANTED, build_id=build)


@st.composite
def builds(draw) -> BuildRows:
    """Up to nine parts in three areas, openers, rules, tasks beside parts and a bench build."""
    ids = list(range(1, draw(st.integers(1, COUNT)) + 1))
    some = st.sampled_from(ids)
    areas = [
        Area(1, 1, "engine"),
        Area(2, 1, "top end", 1, draw(st.none() | some)),
        Area(3, 1, "gearbox", None, draw(st.none() | some)),
    ]
    log = [
        outline(id_, draw(st.sampled_from([None, 1, 2, 3])), build=draw(st.sampled_from([None, 9])))
        for id_ in ids
    ]
    kinds = st.sampled_from([RuleKind.FIRST, RuleKind.UNTIL, RuleKind.TOGETHER])
    pairs = draw(st.lists(st.tuples(kinds, some, some), max_size=4))
    rules = [
        Rule(n, 1, kind, (part(one), part(other)))
        for n, (kind, one, other) in enumerate(pairs, 1)
        if one != other
    ]
    tasks = [Task(9, "b", 1, TaskKind.BENCH_BUILD, "cluster")]
    tasks += [
        Task(n, f"t{n}", 1, TaskKind.OIL, "oil", Anchor(draw(st.sampled_from(Beside)), part(of)))
        for n, of in enumerate(draw(st.lists(some, max_size=2)), 1)
    ]
    return BuildRows(log, areas, tasks, rules)


def looked_at(rows: BuildRows, signed: list[Ref], stuck: set[Ref]) -> Now:
    found = in_force(problem(rows))
    places = areas_of_steps(rows)
    builds_of = {line.ref: line.build_id for line in rows.log}
    lanes = {
        ref: ("bench", builds_of[ref]) if builds_of.get(ref) else ("area", places.get(ref))
        for ref in found.plan.order
    }
    return now(found.plan, needs(found.problem), lanes, signed, stuck)


@given(builds(), st.sets(st.integers(1, COUNT), max_size=3))
def test_what_can_go_in_today_is_what_can_be_fitted_one_after_the_other(rows, stuck_ids):
    """Whatever is ready is fitted until nothing is: what is left waits for something stuck, and
    only that; and the steps named as its cause are stuck."""
    stuck = {part(id_) for id_ in stuck_ids}
    first = looked_at(rows, [], stuck)
    signed: list[Ref] = []
    while True:
        open_ = looked_at(rows, signed, stuck).waiting
        ready = [ref for ref, one in open_.items() if not one and ref not in stuck]
        if not ready:
            break
        signed.append(ready[0])
    assert {ref for ref, roots in first.roots.items() if not roots} == set(signed)
    assert {root for roots in first.roots.values() for root in roots} <= stuck


@given(builds(), st.sets(st.integers(1, COUNT), min_size=1, max_size=3))
def test_what_one_would_free_is_what_can_go_in_with_it_settled(rows, stuck_ids):
    here = {line.ref for line in rows.log}
    stuck = {part(id_) for id_ in stuck_ids} & here
    before = looked_at(rows, [], stuck)
    open_before = sum(not roots for roots in before.roots.values())
    for one in before.frees:
        after = looked_at(rows, [], stuck - {one.ref})
        assert sum(not roots for roots in after.roots.values()) - open_before == one.alone
        assert sum(one.ref in roots for roots in before.roots.values()) == one.all
    alone = [one.alone for one in before.frees]
    assert alone == sorted(alone, reverse=True)
    assert {one.ref for one in before.frees} == stuck


@given(builds())
def test_a_step_never_waits_for_one_that_comes_later(rows):
    order = in_force(problem(rows)).plan.order
    place = {ref: number for number, ref in enumerate(order)}
    for ref, one in looked_at(rows, [], set()).waiting.items():
        assert all(place[before] < place[ref] for before in one.refs)


def test_members_of_one_step_do_not_wait_for_each_other():
    """The drum and the forks go in as one (common practice, no source)."""
    log = [outline(1, 1), outline(2, 1), outline(3, 1)]
    rule = Rule(1, 1, RuleKind.TOGETHER, (part(1), part(2)))
    waiting = looked_at(BuildRows(log, [Area(1, 1, "case")], (), [rule]), [], set()).waiting
    assert waiting[part(1)].refs == waiting[part(2)].refs == (part(3),)


def test_a_task_lies_where_its_step_does_and_a_bench_build_around_its_pieces():
    areas = [Area(1, 1, "engine"), Area(2, 1, "top", 1), Area(3, 1, "bottom", 1)]
    log = [outline(1, 2, build=5), outline(2, 3, build=5), outline(3, 2)]
    tasks = [
        Task(4, "a", 1, TaskKind.OIL, "oil", Anchor(Beside.AFTER, task(6))),
        Task(5, "b", 1, TaskKind.BENCH_BUILD, "cluster"),
        Task(6, "c", 1, TaskKind.CLEAN, "clean", Anchor(Beside.BEFORE, part(3))),
        Task(7, "d", 1, TaskKind.FILL_OIL, "fill", area_id=3),
    ]
    places = areas_of_steps(BuildRows(log, areas, tasks))
    assert [places[task(n)] for n in (4, 5, 6, 7)] == [2, 1, 2, 3]
    assert common_area([2, None], {1: None, 2: 1}) is None


def test_a_task_beside_a_scrapped_part_stays_where_it_was():
    log = [outline(1, None), outline(2, None, Fate.SCRAP), outline(3, None)]
    tasks = [Task(1, "a", 1, TaskKind.INSPECT, "look", Anchor(Beside.AFTER, part(2)))]
    assert in_force(problem(BuildRows(log, (), tasks))).plan.order == (part(3), task(1), part(1))
