"""Sign-off in the whole window: a scan presses nothing in it, and steps are walked by key alone."""

from dataclasses import replace

import pytest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.fitting import Anchor, Asked, Beside, TaskKind, part, task
from bagtag.domain.hardware import HeldBy
from bagtag.domain.standing import Standing
from bagtag.services.tasks import TaskForm
from tests.ui.shell_kit import close_window, key, log, open_window, rest, scan
from tests.ui.stages_job import own_settings


@pytest.fixture
def ids(store, job_id):
    """A fork and a shaft; the shaft, the last off, asks for its end float."""
    made = log(store, job_id, "shift fork", "main shaft")
    services.tasks.ask_at_sign_off(store, made[1], (Asked("end float", "mm", 0.05, 0.2),))
    return made


@pytest.fixture
def window(qtbot, store, ids, settle, tmp_path):
    own_settings(tmp_path / "settings")
    made = open_window(qtbot, store, settle, who="Ada")
    made.work.go_to("Build")
    settle(made.desk)
    yield made
    close_window(made)


def standing(store, ref) -> Standing:
    job_id = services.jobs.list_jobs(store)[0].id
    return services.board.board(store, job_id).step(ref).standing


def press(window, settle, name: str) -> None:
    key(window, name)
    settle(window.desk)


def test_a_scan_into_a_figure_signs_nothing_and_loses_nothing(
    qtbot, window, store, ids, settle
) -> None:
    window.desk.show_step.emit(part(ids[1]))
    rest(qtbot, window, settle)
    press(window, settle, "F6")
    panel = window.work.bench.card.signing
    line = panel.fields.figures[0].line
    assert QApplication.focusWidget() is line
    line.setText("0.12")
    scan(window.windowHandle(), services.views.card(store, ids[0]).code)
    rest(qtbot, window, settle)
    assert window.work.bench.card.removal_id == ids[0]
    assert standing(store, part(ids[1])) is Standing.NEXT
    assert standing(store, part(ids[0])) is not Standing.IN
    window.desk.show_step.emit(part(ids[1]))
    rest(qtbot, window, settle)
    press(window, settle, "F6")
    assert panel.fields.figures[0].line.text() == "0.12"


def test_step_after_step_by_key_alone(qtbot, window, store, job_id, ids, settle) -> None:
    """The next step, signed with its figure; then the task after it; then the last."""
    form = TaskForm(TaskKind.OIL, "oil it", anchor=Anchor(Beside.BEFORE, part(ids[0])))
    window.desk.act(services.tasks.add_task, job_id, form)
    settle(window.desk)
    (oil,) = [one.id for one in services.tasks.tasks_of(store, job_id)]
    press(window, settle, "F5")
    rest(qtbot, window, settle)
    press(window, settle, "F6")
    QApplication.focusWidget().insert("0,12")
    press(window, settle, "Return")
    assert standing(store, part(ids[1])) is Standing.IN
    seen = set()
    for _ in range(2):
        press(window, settle, "F5")
        rest(qtbot, window, settle)
        press(window, settle, "F6")
        seen |= {ref for ref in (task(oil), part(ids[0])) if standing(store, ref) is Standing.IN}
    assert seen == {task(oil), part(ids[0])}


def test_a_cover_is_left_open_by_enter_alone(qtbot, window, store, job_id, settle) -> None:
    """F6 and Enter, pressed from habit, close nothing over what is missing."""
    area = services.jobs.add_area(store, job_id, "gear case").new_id
    cover, gear = log(store, job_id, "cover", "gear")
    entry = services.strip.entry_of(services.strip.get_removal(store, gear))
    held = (HeldBy(6, "bolt", "M6", 30),)
    services.strip.correct_removal(store, gear, replace(entry, area_id=area, held_by=held))
    services.jobs.set_opener(store, area, cover)
    window.desk.show_step.emit(part(cover))
    rest(qtbot, window, settle)
    press(window, settle, "F6")
    panel = window.work.bench.card.signing
    assert panel.closing.isVisible()
    press(window, settle, "Return")
    assert not panel.isVisible()
    assert standing(store, part(cover)) is Standing.WAITS
