"""The rules of a job in a list: in force or not, shown, dropped by key."""

import pytest

from bagtag import services
from bagtag.domain.fitting import RuleKind
from bagtag.domain.model import Fate
from bagtag.ui.order.left_lines import spoken
from tests.ui.stages_job import nameless


@pytest.fixture
def ruled(bench):
    """Two rules: the drum first, and the forks held until the dowel."""
    add(bench, RuleKind.FIRST, "fork R", "drum")
    add(bench, RuleKind.UNTIL, "fork L", "dowel")
    bench.page.build.enter()
    bench.press("Ctrl+2")
    return bench


def add(bench, kind, *names):
    members = [bench.ref(name) for name in names]
    services.rules.add_rule(bench.store, bench.built.job_id, kind, members, who="Ada")


def said(bench):
    return [spoken(line) for line in bench.order.rules.list.lines.lines]


def test_how_many_there_are_is_said_where_they_are_opened(ruled):
    assert ruled.order.to_rules.text() == "Rules (2)"
    ruled.press("Ctrl+1")
    assert not ruled.order.to_rules.isVisible(), "only the plan has rules"


def test_they_are_listed_the_newest_first_with_whether_they_are_in_force(ruled):
    ruled.order.to_rules.click()
    ruled.rest()
    assert ruled.order.rules.list.hasFocus()
    assert said(ruled) == [
        "Hold 6 fork L until 8 dowel, in force",
        "Fit 5 drum before 7 fork R, in force",
    ]


def test_one_that_is_out_of_force_says_why(ruled):
    services.fates.set_fate(ruled.store, [ruled.ref("drum").id], Fate.SCRAP, who="Ada")
    ruled.page.build.enter()
    ruled.rest()
    ruled.order.to_rules.click()
    assert said(ruled)[1].endswith("out of force: 5 drum does not go back")


def test_delete_drops_the_chosen_one_and_the_keys_stay(ruled):
    ruled.order.to_rules.click()
    ruled.rest()
    ruled.press("Down", "Delete")
    assert said(ruled) == ["Hold 6 fork L until 8 dowel, in force"]
    assert ruled.order.rules.list.hasFocus()
    ruled.press("Delete")
    assert ruled.rules() == []
    assert ruled.order.rules.empty.isVisible()
    assert ruled.order.rules.back.hasFocus()
    assert ruled.order.to_rules.text() == "Rules (0)"


def test_the_button_drops_too_and_undo_brings_back(ruled):
    ruled.order.to_rules.click()
    ruled.rest()
    ruled.order.rules.drop.click()
    ruled.rest()
    assert len(ruled.rules()) == 1
    ruled.press("Ctrl+Z")
    assert len(ruled.rules()) == len(said(ruled)) == 2


def test_choosing_one_shows_the_step_it_is_about(ruled):
    ruled.order.to_rules.click()
    ruled.rest()
    ruled.press("Down")
    assert ruled.page.card_id == ruled.ref("fork R").id
    assert ruled.order.rules.list.hasFocus()


@pytest.mark.parametrize("way", ["Escape", "back"])
def test_the_way_back_to_the_plan(ruled, way):
    ruled.order.to_rules.click()
    ruled.rest()
    if way == "back":
        ruled.order.rules.back.click()
    else:
        ruled.press(way)
    assert ruled.plan.isVisible()
    assert ruled.plan.hasFocus()


def test_every_control_has_a_name(ruled):
    ruled.order.to_rules.click()
    assert nameless(ruled.order) == []
