"""The three words over the left of the build: Now, Order, Strip."""

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtTest import QTest

from bagtag import services
from bagtag.ui.bench_page import BenchPage
from bagtag.ui.order.left_column import LEFT
from tests.ui.order_kit import Bench, cluster
from tests.ui.shell_kit import close_window, scan
from tests.ui.stages_job import dies


@pytest.mark.parametrize(("key", "word"), [("Ctrl+2", "Order"), ("Ctrl+3", "Strip")])
def test_a_word_is_chosen_by_its_key_and_gets_the_keys(bench, key, word):
    bench.press(key)
    assert bench.left.word == word
    listed = {"Order": bench.plan, "Strip": bench.page.strip}[word]
    assert listed.isVisible()
    assert listed.hasFocus()
    bench.press("Ctrl+1")
    assert bench.left.word == "Now"
    assert bench.now.hasFocus()


def test_a_word_is_chosen_by_mouse_and_by_arrow(bench):
    bench.left.words.words["Order"].click()
    assert bench.plan.isVisible()
    bench.left.words.words["Order"].setFocus()
    bench.press("Right")
    assert bench.left.word == "Strip"


def test_the_word_is_remembered_on_this_machine(bench, qtbot, store, settle, built):
    bench.press("Ctrl+2")
    assert QSettings().value(LEFT) == "Order"
    again = Bench(qtbot, store, settle, built)
    assert again.left.word == "Order"
    assert again.plan.isVisible()
    close_window(again.window)


def test_stripping_shows_the_strip_alone_and_the_keys_are_off(bench):
    bench.press("Ctrl+2")
    bench.window.work.go_to("Strip")
    bench.rest()
    assert bench.page.strip.isVisible()
    assert not bench.left.words.isVisible()
    bench.press("Ctrl+1")
    assert bench.page.strip.isVisible(), "the words are not seen, so their keys do nothing"
    bench.build()
    assert bench.left.word == "Order"


def test_the_step_on_the_card_stays_chosen_from_word_to_word(bench):
    bench.window.work.show_step(bench.ref("fork L"))
    bench.rest()
    for key, listed in (("Ctrl+1", bench.now), ("Ctrl+2", bench.plan), ("Ctrl+3", None)):
        bench.press(key)
        if listed is not None:
            assert listed.currentIndex().row() == bench.place(listed, "fork L")
    assert bench.page.strip.chosen_id == bench.ref("fork L").id
    assert bench.page.card_id == bench.ref("fork L").id


def test_show_in_strip_turns_to_the_strip(bench):
    bench.press("F9")
    assert bench.left.word == "Strip"
    assert bench.page.strip.chosen_id == bench.page.card_id


def test_leaving_the_field_leads_to_the_list_in_sight(bench):
    bench.press("Ctrl+2", "Ctrl+L")
    assert bench.window.field.frame.line.hasFocus()
    bench.press("Escape")
    assert bench.plan.hasFocus()


def test_a_scan_in_any_of_the_three_shows_its_part(bench, store):
    code = services.views.card(store, bench.ref("fork L").id).code
    for start, key in enumerate(("Ctrl+1", "Ctrl+2", "Ctrl+3")):
        bench.window.work.show_step(bench.ref("dowel"))
        bench.press(key)
        scan(bench.window.windowHandle(), code, start=5000 + 20_000 * start)
        bench.rest()
        assert bench.page.card_id == bench.ref("fork L").id
        assert bench.rules() == []


def test_the_strip_out_of_sight_takes_no_choice_away(bench):
    """Choosing a part and then at once a task: the strip tells of the part late."""
    cluster(bench.store, bench.built)
    bench.page.build.enter()
    bench.rest()
    bench.page.side._chosen(bench.ref("fork L"))
    bench.page.side._chosen(bench.ref("cluster"))
    bench.rest()
    assert bench.page.right.currentWidget() is bench.page.side.task_card


def test_a_chosen_task_is_still_there_after_another_stage(bench):
    cluster(bench.store, bench.built)
    bench.page.build.enter()
    bench.rest()
    bench.window.work.show_step(bench.ref("cluster"))
    bench.rest()
    bench.window.work.go_to("Away")
    bench.rest()
    bench.build()
    assert bench.page.right.currentWidget() is bench.page.side.task_card
    assert bench.now.currentIndex().row() == bench.place(bench.now, "cluster")


def test_the_page_of_the_build_dies_when_it_is_dropped(qtbot, desk, built, settle):
    def make() -> BenchPage:
        page = BenchPage(desk)
        page.set_stage("Build")
        page.enter()
        settle(desk)
        page.side.left.go_to("Order")
        settle(desk)
        return page

    assert dies(qtbot, make)


@pytest.mark.parametrize("size", [(1280, 800), (940, 560)])
def test_nothing_lies_over_anything(bench, size):
    bench.window.resize(*size)
    bench.rest()
    for key in ("Ctrl+1", "Ctrl+2", "Ctrl+3"):
        bench.press(key)
        QTest.qWait(10)
        words, pages = bench.left.words.geometry(), bench.left.pages.geometry()
        assert words.bottom() < pages.top()
        assert pages.bottom() <= bench.left.height()
