"""The form of a task: by keys alone, what it suggests, what it refuses and keeps typed."""

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.fitting import Anchor, Asked, Beside, TaskKind, part, task
from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.order.add_kinds import KINDS
from bagtag.ui.order.build_form import BenchBuildDialog
from bagtag.ui.order.task_form import TaskDialog, open_task_form
from tests.ui.add_kit import (
    ENTER,
    ESC,
    host,
    is_open,
    newest,
    open_form,
    opened,
    order,
    press,
    shown_steps,
    step_of,
    tasks,
    walked,
    write,
)
from tests.ui.stages_job import dies, nameless


@pytest.fixture
def drum(store, job):
    return step_of(store, job, "shift drum")


@pytest.fixture
def form(qtbot, desk, job, settle, drum):
    """A new task, beside the shift drum."""
    return open_form(qtbot, desk, settle, TaskDialog, beside=drum)


def key_of_kind(qtbot, form, key: str) -> None:
    write(key)
    qtbot.waitUntil(lambda: form.kind.value is not None)


def edit(qtbot, desk, settle, task_id: int) -> TaskDialog:
    made = open_task_form(desk, host(qtbot), task_id)
    settle(desk)
    assert made.isVisible()
    return made


def test_two_keys_add_a_task_beside_the_step_and_show_it(
    form, qtbot, desk, store, job, settle
) -> None:
    shown = shown_steps(desk)
    key_of_kind(qtbot, form, "1")
    press(ENTER)
    settle(desk)
    one = newest(store, job.id)
    assert (one.kind, one.name) == (TaskKind.CLEAN, "clean")
    assert shown == [task(one.id)]
    called = order(store, job.id)
    assert called.index("clean") == called.index("4 shift drum") - 1


@pytest.mark.parametrize("option", KINDS)
def test_every_kind_has_its_key_words_and_figures(form, qtbot, option) -> None:
    key_of_kind(qtbot, form, option.key)
    assert form.kind.value is option.value
    assert form.name.text() == services.tasks.NAMES[option.value]
    usual = {"clearance": TaskKind.PLASTIGAUGE, "end float": TaskKind.END_FLOAT}
    names = {one.name for one in form.asks.asks()}
    assert all((name in names) == (kind is option.value) for name, kind in usual.items())


def test_own_words_and_an_own_place_stay_when_the_kind_changes(form, qtbot) -> None:
    form.name.setText("blow the oilways through")
    form.beside.side.choose(Beside.AFTER)
    form.kind.choose(TaskKind.CLEAN)
    assert form.name.text() == "blow the oilways through"
    assert form.beside.anchor.beside is Beside.AFTER


def test_a_scan_chooses_no_kind(form, qtbot) -> None:
    write("MF3-24G")
    qtbot.wait(3 * QUIET)
    assert form.kind.value is None


def test_without_a_kind_it_says_so(form, store, job, desk, settle) -> None:
    press(ENTER)
    settle(desk)
    assert "Choose what is done" in form.fields["kind"].wrong.text()
    assert tasks(store, job.id) == []


def test_other_without_words_is_refused_under_its_field(form, desk, settle, store, job) -> None:
    form.kind.choose(TaskKind.OTHER)
    form.more.unfold()
    form.more.note.setPlainText("both ways")
    press(ENTER)
    settle(desk)
    assert "Say what is to be done" in form.fields["name"].wrong.text()
    assert form.name.hasFocus()
    assert form.more.note.toPlainText() == "both ways"
    write("turn it by hand")
    assert form.fields["name"].wrong.text() == ""
    press(ENTER)
    settle(desk)
    assert newest(store, job.id).note == "both ways"


def test_limits_the_wrong_way_round_are_refused_and_stay_typed(
    form, desk, settle, store, job
) -> None:
    form.kind.choose(TaskKind.END_FLOAT)
    row = form.asks.rows[0]
    row.low.setText("0,3")
    row.high.setText("0.2")
    press(ENTER)
    settle(desk)
    assert "wrong way round" in form.fields["asks"].wrong.text()
    assert (row.low.text(), row.high.text()) == ("0,3", "0.2")
    row.low.setText("0,05")
    press(ENTER)
    settle(desk)
    assert newest(store, job.id).asks == (Asked("end float", "mm", 0.05, 0.2),)


@pytest.mark.parametrize("typed", ["a little", "nan", "inf"])
def test_a_limit_that_is_no_figure_is_refused(form, desk, settle, store, job, typed) -> None:
    form.kind.choose(TaskKind.END_FLOAT)
    form.asks.rows[0].high.setText(typed)
    press(ENTER)
    settle(desk)
    assert f"The limit {typed} is not a figure" in form.fields["asks"].wrong.text()
    assert tasks(store, job.id) == []


def test_figures_are_added_and_taken_out(form) -> None:
    form.asks.add()
    write("backlash")
    form.asks.add()
    assert [one.name for one in form.asks.asks()] == ["backlash"]
    form.asks.rows[0].out.click()
    assert form.asks.asks() == ()
    assert len(form.asks.rows) == 1


def test_another_step_is_picked_by_its_number(form, desk, settle, store, job) -> None:
    form.kind.choose(TaskKind.INSPECT)
    form.beside.step.setFocus()
    write("8")
    press(ENTER)  # takes the step
    press(ENTER)  # adds the task
    settle(desk)
    wanted = Anchor(Beside.AFTER, part(job.parts["main shaft"]))
    assert newest(store, job.id).anchor == wanted


def test_a_step_that_is_only_half_typed_is_asked_for(form, desk, settle, store, job) -> None:
    form.kind.choose(TaskKind.INSPECT)
    form.beside.step.setFocus()
    write("fork")
    form.name.setFocus()
    press(ENTER)
    settle(desk)
    assert form.beside.field.wrong.text() == "Choose the step: arrows, then Enter."
    assert tasks(store, job.id) == []


def test_no_step_is_after_every_other(form, desk, settle, store, job) -> None:
    form.kind.choose(TaskKind.FILL_OIL)
    form.beside.step.line.clear()
    press(ENTER)
    settle(desk)
    assert newest(store, job.id).anchor == Anchor(Beside.AFTER, None)
    assert order(store, job.id)[-1] == "fill with oil"


def test_its_area_is_that_of_the_step_until_one_is_chosen(form, desk, settle, store, job) -> None:
    assert "Lower case > Gearbox" in form.more.area.line.placeholderText()
    form.kind.choose(TaskKind.INSPECT)
    form.more.press.click()
    assert form.more.area.line.hasFocus()
    write("Lower case")
    press(ENTER)
    press(ENTER)
    settle(desk)
    assert newest(store, job.id).area_id == job.areas["Lower case"]


def test_beside_a_piece_of_a_bench_build_it_is_a_piece_too(
    qtbot, desk, settle, store, job, drum
) -> None:
    build = services.tasks.make_bench_build(store, job.id, "selector", [drum]).new_id
    form = open_form(qtbot, desk, settle, TaskDialog, beside=drum, kind=TaskKind.OIL)
    assert form.more.box.isVisible()
    assert form.more.build.line.text() == "selector"
    press(ENTER)
    settle(desk)
    assert newest(store, job.id).build_id == build


def test_enter_twice_adds_once(form, desk, settle, store, job) -> None:
    form.kind.choose(TaskKind.CLEAN)
    form.save()
    form.save()
    settle(desk)
    assert len(tasks(store, job.id)) == 1


def test_escape_leaves_it(form, desk, settle, store, job, qtbot) -> None:
    form.kind.choose(TaskKind.CLEAN)
    press(ESC)
    settle(desk)
    qtbot.waitUntil(lambda: not is_open(form))
    assert tasks(store, job.id) == []


def test_a_task_is_edited_and_keeps_what_is_not_touched(
    qtbot, desk, settle, store, job, drum
) -> None:
    asks = (Asked("end float", "mm", 0.05, 0.2),)
    made = services.tasks.TaskForm(
        TaskKind.END_FLOAT, "float of the drum", Anchor(Beside.BEFORE, drum),
        job.areas["Gearbox"], None, asks, "with the washer",
    )  # fmt: skip
    task_id = services.tasks.add_task(store, job.id, made).new_id
    form = edit(qtbot, desk, settle, task_id)
    assert form.head.text() == "Edit: float of the drum"
    assert form.more.box.isVisible()
    assert form.more.area.line.text() == "Lower case > Gearbox"
    write("play of the drum")
    press(ENTER)
    settle(desk)
    one = services.tasks.get_task(store, task_id)
    assert one.name == "play of the drum"
    assert (one.anchor, one.area_id, one.asks) == (made.anchor, made.area_id, asks)
    assert one.note == "with the washer"


def test_a_task_is_not_offered_to_stand_beside_itself(
    qtbot, desk, settle, store, job, drum
) -> None:
    made = services.tasks.TaskForm(TaskKind.CLEAN, anchor=Anchor(Beside.AFTER, drum))
    task_id = services.tasks.add_task(store, job.id, made).new_id
    form = edit(qtbot, desk, settle, task_id)
    assert form.beside.step.list.rows.row_of(task(task_id)) is None
    assert form.beside.step.list.rows.row_of(drum) is not None


def test_a_final_tightening_has_only_a_step_to_wait_for(
    qtbot, desk, settle, store, job, drum
) -> None:
    fork = job.parts["shift fork R"]
    task_id = services.tasks.tighten_later(store, fork, drum).new_id
    form = edit(qtbot, desk, settle, task_id)
    assert not form.kind.isVisible()
    assert not form.beside.side.isVisible()
    form.beside.step.line.clear()
    press(ENTER)
    settle(desk)
    assert "waits for a step" in form.beside.field.wrong.text()
    form.beside.step.set_value(step_of(store, job, "cover, clutch side"))
    press(ENTER)
    settle(desk)
    one = services.tasks.get_task(store, task_id)
    assert one.kind is TaskKind.TIGHTENING
    assert one.anchor.of == step_of(store, job, "cover, clutch side")


def test_a_bench_build_has_its_own_form(qtbot, desk, settle, store, job, drum) -> None:
    task_id = services.tasks.make_bench_build(store, job.id, "selector", [drum]).new_id
    dialog = open_task_form(desk, host(qtbot), task_id)
    settle(desk)
    (form,) = opened(BenchBuildDialog)
    assert form.name.text() == "selector"
    assert not is_open(dialog)


def test_a_task_that_is_gone_is_said(qtbot, desk, settle, job) -> None:
    told = []
    desk.said.connect(lambda sentence, trouble: told.append((sentence, trouble)))
    kept = open_task_form(desk, host(qtbot), 4711)
    settle(desk)
    assert not is_open(kept)
    assert told == [("This task is no longer in the build. Choose another one.", True)]


def test_tab_goes_from_field_to_field_and_last_to_the_buttons(form, qtbot) -> None:
    form.kind.choose(TaskKind.END_FLOAT)
    form.more.unfold()
    assert walked(form.kind.choice(TaskKind.END_FLOAT)) == [
        "What is done: End float",
        "What is to be done",
        "It stands: After",
        "Which step",
        "Figure 1: what is measured",
        "Figure 1: unit",
        "Figure 1: at least",
        "Figure 1: at most",
        "Take figure 1 out",
        "Ask for a figure at sign-off",
        "Area",
        "Piece of the bench build",
        "Note",
        "Add it",
        "Leave it",
    ]


def test_names_and_leaks(form, qtbot, desk, settle) -> None:
    form.asks.add()
    form.more.unfold()
    assert nameless(form) == []
    assert form.kind.choice(TaskKind.CLEAN).focusPolicy() & Qt.FocusPolicy.TabFocus

    def make() -> TaskDialog:
        made = TaskDialog(desk)
        settle(desk)
        return made

    assert dies(qtbot, make)
