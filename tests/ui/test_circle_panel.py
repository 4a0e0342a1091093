"""Rules that cannot all hold: said over the lists, and undone or dropped from there."""

import pytest

from bagtag import services
from bagtag.domain.fitting import RuleKind
from bagtag.ui.order.circle_panel import HEAD
from tests.ui.stages_job import nameless, sentence_of


@pytest.fixture
def circle(bench):
    """The drum needs the fork in, and the fork waits for the drum."""
    job_id = bench.built.job_id
    drum, fork = bench.ref("drum"), bench.ref("fork L")
    bench.act(services.rules.add_rule, job_id, RuleKind.FIRST, (drum, fork), why="it hangs in it")
    bench.act(services.rules.add_rule, job_id, RuleKind.UNTIL, (fork, drum))
    return bench


def test_without_a_circle_it_is_not_there(bench):
    assert not bench.left.circle.isVisible()


def test_it_says_which_rules_and_offers_to_drop_each(circle):
    panel = circle.left.circle
    assert panel.isVisible()
    assert HEAD in sentence_of(panel)
    assert "6 fork L" in panel.sentence.text()
    assert "5 drum" in panel.sentence.text()
    assert [drop.text() for drop in panel.drops] == [
        "Drop: Hold 6 fork L until 5 drum",
        "Drop: Fit 6 fork L before 5 drum (“it hangs in it”)",
    ]


@pytest.mark.parametrize("key", ["Ctrl+1", "Ctrl+2", "Ctrl+3"])
def test_it_stands_over_each_of_the_three_words(circle, key):
    circle.press(key)
    assert circle.left.circle.isVisible()
    assert circle.left.circle.geometry().bottom() < circle.left.words.geometry().top()


def test_it_is_not_seen_while_stripping(circle):
    circle.window.work.go_to("Strip")
    circle.rest()
    assert not circle.left.circle.isVisible()
    circle.build()
    assert circle.left.circle.isVisible()


def test_the_plan_below_stays_as_it_was(circle):
    circle.press("Ctrl+2")
    assert len(circle.names(circle.plan)) == 8
    assert circle.names(circle.plan).index("fork L") < circle.names(circle.plan).index("drum")


@pytest.mark.parametrize("which", [0, 1])
def test_dropping_any_of_them_opens_it(circle, which):
    drop = circle.left.circle.drops[which]
    drop.setFocus()
    circle.press("Return")
    assert not circle.left.circle.isVisible()
    assert len(circle.rules()) == 1
    assert services.board.board(circle.store, circle.built.job_id).no_order is None


def test_undo_takes_the_last_rule_back(circle):
    circle.left.circle.undo.click()
    circle.rest()
    assert not circle.left.circle.isVisible()
    assert circle.rules() == ["Fit 6 fork L before 5 drum (“it hangs in it”)"]


def test_undo_by_key_does_the_same_and_redo_brings_it_back(circle):
    circle.now.setFocus()
    circle.press("Ctrl+Z")
    assert not circle.left.circle.isVisible()
    circle.press("Ctrl+Y")
    assert circle.left.circle.isVisible()


def test_a_low_window_has_room_for_both(circle):
    circle.window.resize(940, 560)
    circle.rest()
    left = circle.left
    assert left.circle.geometry().bottom() < left.words.geometry().top()
    assert left.pages.geometry().bottom() <= left.height()
    assert left.now.viewport().height() >= 60


def test_every_control_has_a_name(circle):
    assert nameless(circle.left) == []
