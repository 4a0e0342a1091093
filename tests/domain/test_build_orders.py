"""The order of the build against builds that a mechanic thought out by hand.

Every case of check_values/build_orders.json stands with its source there, or is marked "common
practice, no source".
"""

from collections.abc import Iterator, Mapping

import pytest
from build_kit import AWAY, BUILDS, CASES, CIRCLES, PUBLISHED, Case

from bagtag.domain.areas import below
from bagtag.domain.fitting import Ref, RuleKind, part
from bagtag.domain.order_plan import in_force, plan
from bagtag.domain.order_problem import Circle, Plan
from bagtag.domain.tie_words import circle_words, droppable, forced, holds, rule_words

COMMON = "common practice, no source"
every = pytest.mark.parametrize("case", CASES, ids=str)
build = pytest.mark.parametrize("case", BUILDS, ids=str)
circle = pytest.mark.parametrize("case", CIRCLES, ids=str)


def names(case: Case, found: Plan) -> list[str]:
    return [case.names[ref] for ref in found.order]


@build
def test_the_plan_is_the_order_a_mechanic_would_work_in(case):
    found = plan(case.problem)
    assert isinstance(found, Plan), circle_words(found, case.words)
    assert names(case, found) == case.told["expected"], case.told["why"]


@circle
def test_rules_that_cannot_all_hold_give_the_shortest_circle(case):
    found = plan(case.problem)
    assert isinstance(found, Circle)
    ties = [case.tie(tie) for tie in found.ties]
    assert ties in list(turned([tuple(tie) for tie in case.told["circle"]])), case.told["why"]


def turned(ties: list[tuple[str, ...]]) -> Iterator[list[tuple[str, ...]]]:
    """A circle begins anywhere."""
    return (ties[at:] + ties[:at] for at in range(len(ties)))


@circle
def test_without_the_newest_rule_of_the_circle_the_older_words_stay_in_force(case):
    found = in_force(case.problem)
    assert found.circle == plan(case.problem)
    assert found.suspended == frozenset(case.told["without"])
    assert names(case, found.plan) == case.told["expected"], case.told["why"]


@build
def test_a_plan_without_a_circle_is_in_force_as_it_is(case):
    found = in_force(case.problem)
    assert (found.plan, found.circle, found.suspended) == (plan(case.problem), None, frozenset())


@circle
def test_a_circle_is_told_with_each_of_its_steps_and_the_rule_to_drop(case):
    found = plan(case.problem)
    told = circle_words(found, case.words)
    assert all(case.names[ref].casefold() in told.casefold() for ref in found.refs)
    assert list(droppable(found))[:1] == case.told["without"][:1]


@every
def test_every_pair_against_the_log_has_its_explanation(case):
    """Of two steps that stand the other way round than logged, the first was pulled forward or
    the second held back, and the plan says by which tie."""
    found = in_force(case.problem).plan
    log = {ref: rank for rank, ref in enumerate(found.log_order)}
    signed = set(case.problem.signed)
    for at, later in enumerate(found.order):
        for earlier in found.order[:at]:
            if log[earlier] > log[later] and not {earlier, later} <= signed:
                assert earlier in signed or is_told(case, found, earlier, later)


def is_told(case: Case, found: Plan, earlier: Ref, later: Ref) -> bool:
    told = []
    if earlier in found.pulled:
        told.append(forced(found.pulled[earlier], case.words))
    if later in found.held:
        told.append(holds(found.held[later], case.words))
    return any(told)


@every
def test_no_step_is_lost_or_doubled(case):
    scrapped = set(case.those("scrapped"))
    assert sorted(case.told["expected"]) == sorted(case.refs.keys() - scrapped)


@every
def test_what_was_thought_out_by_hand_keeps_every_tie_itself(case):
    """Reckoned here from the file alone, without the program's order."""
    place = {name: at for at, name in enumerate(case.told["expected"])}
    for before, after in owed(case):
        if before in place and after in place:
            assert place[before] < place[after], (before, after)


def owed(case: Case) -> Iterator[tuple[str, str]]:
    """What must be in before what: by rules in force, by openers, by tasks; not by what was signed
    too early or stands in a circle of openers."""
    early = set(case.those("signed"))
    for before, after in _by_rules(case) | _by_openers(case) | _by_tasks(case):
        if after not in early:
            yield before, after


def _by_rules(case: Case) -> set[tuple[str, str]]:
    kept = [rule for rule in case.rules if rule.id not in case.those("without")]
    ordered = [rule for rule in kept if rule.kind is not RuleKind.TOGETHER]
    return {(case.names[rule.members[1]], case.names[rule.members[0]]) for rule in ordered}


def _by_openers(case: Case) -> set[tuple[str, str]]:
    areas = [area for area in case.areas if not _is_left_out(case, area.id)]
    inside = {area.id: below(case.areas, area.id) for area in areas}
    return {
        (line.name, case.names[part(area.opener_id)])
        for area in areas
        if area.opener_id is not None
        for line in case.rows.log
        if line.area_id in inside[area.id] and line.id != area.opener_id
    }


def _is_left_out(case: Case, area_id: int) -> bool:
    """A circle of nothing but openers is opened at its last area."""
    return case.told.get("without") == [] and area_id == case.areas[-1].id


def _by_tasks(case: Case) -> set[tuple[str, str]]:
    pairs: set[tuple[str, str]] = set()
    for one in case.those("tasks"):
        pairs |= _of_task(one)
    return pairs


def _of_task(one: Mapping[str, str]) -> set[tuple[str, str]]:
    before = {one[key] for key in ("after", "of") if key in one} | set(one.get("pieces", ()))
    pairs = {(name, one["name"]) for name in before}
    return pairs | ({(one["name"], one["before"])} if "before" in one else set())


@every
def test_members_of_a_together_set_are_one_step(case):
    steps = [{case.names[ref] for ref in group} for group in in_force(case.problem).plan.groups]
    for number, one in enumerate(case.those("rules"), 1):
        if "together" in one and number not in case.those("without"):
            assert any(step >= set(one["together"]) for step in steps), steps


@pytest.mark.parametrize("case", [case for case in BUILDS if case.told.get("kept")], ids=str)
def test_a_log_that_keeps_every_rule_is_the_plan_unchanged(case):
    parts = [name for name in case.told["expected"] if case.refs[name].removal_id is not None]
    assert parts == case.told["log"][::-1]


def test_the_other_logs_would_be_wrong_read_backwards():
    """No case is marked as against the log and agrees with it after all; what was signed stands as
    it was signed."""
    for case in BUILDS:
        backwards = [case.names[ref] for ref in plan(case.problem).log_order]
        kept = bool(case.told.get("kept"))
        assert (case.told["expected"] == backwards) is kept or case.those("signed"), case


@pytest.mark.parametrize("case", AWAY, ids=str)
def test_a_job_that_waits_for_a_casting_shows_what_can_go_in_all_the_same(case):
    found = plan(case.problem)
    today = case.now(found)
    away = set(case.told["away"])
    free = [case.names[ref] for ref, waits in today.waiting.items() if not waits]
    assert [name for name in free if name not in away] == case.told["ready"], case.told["why"]
    assert case.names[today.frees[0].ref] == case.told["frees"]


def test_there_are_enough_cases_each_with_its_source_and_its_reason():
    sources = PUBLISHED["sources"]
    assert len(BUILDS) >= 40
    assert len(CIRCLES) >= 6
    assert all(case.told["why"] for case in CASES)
    assert {case.told["source"] for case in CASES} == sources.keys()
    for one in sources.values():
        assert bool(one["address"]) is (one["status"] != COMMON)


@every
def test_every_rule_of_a_case_is_one_line_with_its_steps(case):
    for rule in case.rules:
        line = rule_words(rule, case.names.__getitem__)
        assert all(case.names[ref].casefold() in line.casefold() for ref in rule.members)
        assert "\n" not in line
