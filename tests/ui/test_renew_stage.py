"""Renew: every part that is not used again, and where its new one stands."""

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.model import Fate, Replacement
from bagtag.ui.stages.renew_stage import RenewStage
from bagtag.ui.stages.stage_keys import QUIET
from tests.ui.stages_job import dies, gearbox, nameless, sentence_of


@pytest.fixture
def job(desk, store):
    made = gearbox(store)
    desk.choose_job(made.id)
    return made


@pytest.fixture
def stage(qtbot, desk, job, settle):
    made = RenewStage(desk)
    qtbot.addWidget(made)
    desk.changed.connect(made.hear)
    made.resize(900, 600)
    made.show()
    made.enter()
    settle(desk)
    return made


def state(store, job, name: str) -> Replacement:
    return services.strip.get_removal(store, job.parts[name]).replacement


def test_every_renewal_is_listed_and_counted(stage, store, job) -> None:
    wanted = [removal.id for removal in services.fates.with_fate(store, job.id, Fate.RENEW)]
    assert [row.removal_id for row in stage.rows] == wanted
    assert len(wanted) == 3
    assert stage.head.text() == "3 to renew: 3 wanted"


@pytest.mark.parametrize(
    ("key", "word"),
    [
        (Qt.Key.Key_O, Replacement.ORDERED),
        (Qt.Key.Key_H, Replacement.HERE),
        (Qt.Key.Key_W, Replacement.WANTED),
    ],
)
def test_one_key_says_where_it_stands(stage, qtbot, desk, settle, store, job, key, word) -> None:
    row = next(row for row in stage.rows if row.removal_id == job.parts["oil jets"])
    row.presses[0].setFocus()
    qtbot.keyClick(row.presses[0], key)
    qtbot.wait(QUIET + 30)
    settle(desk)
    assert state(store, job, "oil jets") is word


def test_the_word_that_holds_is_pressed_in(stage, desk, settle, store, job) -> None:
    row = stage.rows[0]
    row.presses[1].click()
    settle(desk)
    assert [press.isChecked() for press in stage.rows[0].presses] == [False, True, False]
    assert stage.head.text() == "3 to renew: 2 wanted, 1 ordered"


def test_the_focus_stays_at_its_row(stage, qtbot, desk, settle) -> None:
    stage.activateWindow()
    qtbot.waitUntil(stage.isActiveWindow)
    stage.rows[1].presses[0].setFocus()
    qtbot.keyClick(stage.rows[1].presses[0], Qt.Key.Key_O)
    qtbot.wait(QUIET + 30)
    settle(desk)
    focus = stage.focusWidget()
    assert stage.rows[1].isAncestorOf(focus)


def test_all_here_says_so(stage, desk, settle) -> None:
    for row in stage.rows:
        stage.settle(row.removal_id, Replacement.HERE)
    settle(desk)
    assert stage.head.text() == "All 3 new parts are here"


def test_nothing_to_renew_says_what_comes_next(stage, desk, settle) -> None:
    for row in stage.rows:
        desk.act(services.fates.set_fate, [row.removal_id], Fate.REFIT)
    settle(desk)
    assert stage.rows == []
    assert "Nothing is to be renewed" in sentence_of(stage)
    assert "Measure" in sentence_of(stage)


def test_a_part_can_be_shown(stage, qtbot, desk, job) -> None:
    with qtbot.waitSignal(desk.show_removal) as heard:
        stage.rows[0].shown.emit(stage.rows[0].removal_id)
    assert heard.args == [stage.rows[0].removal_id]


def test_names_and_leaks(stage, qtbot, desk, settle) -> None:
    assert nameless(stage) == []

    def make() -> RenewStage:
        made = RenewStage(desk)
        made.enter()
        settle(desk)
        return made

    assert dies(qtbot, make)
