"""The bar above the build: how far, what next, who signs, what waits and for what."""

import pytest
from PySide6.QtCore import QSettings, Qt

from bagtag import services
from bagtag.domain.fitting import Anchor, Beside, TaskKind, part, task
from bagtag.domain.model import Fate, Replacement
from bagtag.domain.standing import Standing
from bagtag.ui.progress.build_stage import WHO, BuildBar, standings
from bagtag.ui.progress.build_words import waiting_words
from bagtag.ui.sheets.checklist_dialog import ChecklistDialog
from tests.ui.stages_job import dies, nameless, own_settings, send_shaft


@pytest.fixture
def bar(qtbot, desk, job, settle):
    made = BuildBar(desk)
    qtbot.addWidget(made)
    desk.changed.connect(made.hear)
    made.resize(1000, 90)
    made.show()
    made.enter()
    settle(desk)
    return made


def test_it_says_how_far_the_build_is(bar, desk, settle, store, job) -> None:
    assert bar.count.text() == "0 of 9 fitted"
    desk.act(
        services.signing.sign,
        part(job.parts["main shaft"]),
        services.signing.SignForm(reason="trial fit"),
    )
    settle(desk)
    assert bar.count.text() == "1 of 9 fitted"
    assert bar.progress.accessibleName().startswith("1 of 9 fitted")


def test_it_counts_what_waits_and_for_what(bar, store, job) -> None:
    send_shaft(store, job)
    board = services.board.board(store, job.id)
    said = waiting_words(board)
    standing = [step.standing for step in board.steps]
    assert f"{standing.count(Standing.NEXT)} can go in now" in said or Standing.NEXT not in standing
    waiting = sum(word in (Standing.WAITS, Standing.AWAY) for word in standing)
    assert f"{waiting} wait" in said
    assert "1 away" in said
    assert "3 for a new part" in said
    assert "1 to be decided" in said
    brief = waiting_words(board, brief=True)
    assert len(brief) < len(said)
    assert "3 for a new part" in brief
    assert "earlier" not in brief


def test_where_there_is_no_room_the_shorter_words_are_shown(bar, store, job) -> None:
    bar.waiting.resize(2000, 20)
    bar.waiting.say("a long way of saying it", "short")
    assert bar.waiting.text() == "a long way of saying it"
    bar.waiting.resize(60, 20)
    assert bar.waiting.text() == "short"
    assert bar.waiting.toolTip() == "a long way of saying it"


def test_standings_has_every_step(store, job) -> None:
    board = services.board.board(store, job.id)
    found = standings(board)
    assert found == {step.removal_id: step.standing for step in board.steps}
    assert len(found) == 9


def test_the_board_is_handed_on(bar, qtbot, desk) -> None:
    with qtbot.waitSignal(bar.board_read) as heard:
        bar.enter()
    assert heard.args[0].job_id == desk.job_id


def test_next_goes_through_all_that_can_go_in(bar, qtbot, desk, settle, store, job) -> None:
    for removal in services.fates.with_fate(store, job.id, Fate.RENEW):
        desk.act(services.fates.set_replacement, [removal.id], Replacement.HERE)
    desk.act(services.fates.set_fate, [job.parts["shift fork R"]], Fate.REFIT)
    settle(desk)
    board = services.board.board(store, job.id)
    ready = [s.ref for s in board.steps if s.standing is Standing.NEXT]
    assert ready
    shown = []
    desk.show_step.connect(shown.append)
    for _ in range(len(ready) + 1):
        bar.next.click()
    assert shown == [*ready, ready[0]]


def test_tasks_are_steps_too(bar, qtbot, desk, settle, store, job) -> None:
    """The bar counts them, and the next step may be one of them."""
    form = services.tasks.TaskForm(TaskKind.CLEAN, "clean the case", Anchor(Beside.BEFORE))
    made = services.tasks.add_task(store, job.id, form).new_id
    bar.enter()
    settle(desk)
    assert bar.count.text() == "0 of 10 fitted"
    shown = []
    desk.show_step.connect(shown.append)
    bar.next.click()
    assert shown == [task(made)]


def test_what_waits_for_a_task_waits_for_an_earlier_step(store, job) -> None:
    form = services.tasks.TaskForm(TaskKind.INSPECT, "look at the bores", Anchor(Beside.BEFORE))
    services.tasks.add_task(store, job.id, form)
    assert "for earlier steps" in waiting_words(services.board.board(store, job.id))


def test_adding_is_asked_for_by_key(bar, qtbot) -> None:
    bar.activateWindow()
    qtbot.waitUntil(bar.isActiveWindow)
    bar.who.setFocus()
    with qtbot.waitSignal(bar.add_wanted):
        qtbot.keyClick(bar.who, Qt.Key.Key_T, Qt.KeyboardModifier.ControlModifier)


def test_next_answers_to_its_key_even_while_one_types(bar, qtbot, desk, settle, job) -> None:
    desk.act(services.fates.set_replacement, [job.parts["oil jets"]], Replacement.HERE)
    settle(desk)
    shown = []
    desk.show_step.connect(shown.append)
    bar.activateWindow()
    qtbot.waitUntil(bar.isActiveWindow)
    bar.who.setFocus()
    qtbot.keyClick(bar.who, Qt.Key.Key_F5)
    assert "F5" in bar.next.text()
    assert shown == [part(job.parts["oil jets"])]


def test_who_signs_is_remembered_on_this_machine(bar, desk, settle, store, job, qtbot) -> None:
    bar.who.setText("Nina")
    desk.act(
        services.signing.sign,
        part(job.parts["main shaft"]),
        services.signing.SignForm(reason="trial fit"),
    )
    settle(desk)
    assert services.views.card(store, job.parts["main shaft"]).sign_off.who == "Nina"
    assert QSettings().value(WHO) == "Nina"
    desk.who = "someone"
    again = BuildBar(desk)
    qtbot.addWidget(again)
    assert again.who.text() == "Nina"


def test_everything_in_says_so_and_what_comes_next(bar, desk, settle, store, job) -> None:
    board = services.board.board(store, job.id)
    for step in board.steps:
        desk.act(services.signing.sign, step.ref, services.signing.SignForm(reason="because"))
    settle(desk)
    assert bar.count.text() == "Everything is back in"
    assert "Close" in bar.waiting.sentence
    assert not bar.next.isEnabled()


def test_a_job_without_a_log_says_so(qtbot, desk, job_id, settle, tmp_path) -> None:
    own_settings(tmp_path / "settings")
    bar = BuildBar(desk)
    qtbot.addWidget(bar)
    bar.enter()
    settle(desk)
    assert bar.count.text() == "Nothing to build yet"
    assert not bar.paper.isEnabled()


def test_the_checklist_opens(bar, desk, settle) -> None:
    bar.paper.click()
    settle(desk)
    (dialog,) = bar.findChildren(ChecklistDialog)
    assert dialog.pages.pages
    dialog.close()


def test_names_and_leaks(bar, qtbot, desk, settle) -> None:
    assert nameless(bar) == []

    def make() -> BuildBar:
        made = BuildBar(desk)
        made.enter()
        settle(desk)
        return made

    assert dies(qtbot, make)
