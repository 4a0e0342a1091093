"""Open a job, say which side is which, find it again among the others."""

import weakref

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from bagtag import services
from bagtag.domain.datum import Side
from bagtag.ui.job.job_stage import JobStage
from tests.ui.forms_kit import DATUM, ENTER, ESC, TAB, press, show, write


@pytest.fixture
def stage(qtbot, desk, ids, settle):
    made = JobStage(desk)
    desk.changed.connect(made.hear)
    show(qtbot, made, 1200, 700)
    made.enter()
    settle(desk)
    return made


def titles(stage) -> list[str]:
    return [ticket.text() for ticket in stage.list.tickets]


def test_the_job_that_is_open(stage):
    page = stage.page
    assert page.head.text() == "Walking tractor, gearbox"
    assert page.datum.datum == DATUM
    assert titles(stage) == ["Walking tractor, gearbox"]
    assert stage.list.tickets[0].here
    assert stage.list.tickets[0].detail == "3 off"
    assert [slip.text() for slip in page.areas.slips] == ["lower case", "gearbox"]
    assert not page.keep.isVisible()


def test_a_new_job_by_keyboard_alone(stage, desk, settle, store):
    stage.list.new.setFocus()
    press(ENTER)
    write("Garden shredder")
    press(TAB)
    write("engine seized")
    press(TAB)
    write("the allotment club")
    press(TAB)
    write("spark plug is out")
    press(TAB)
    write("standing at the chute, facing it")
    box = stage.page.datum.box
    for side, name in ((Side.TOP, "funnel"), (Side.LEFT, "pulley side"), (Side.FRONT, "chute")):
        while QApplication.focusWidget() is not box.fields[side].line:
            press(TAB)
        write(name)
    press(ENTER)
    settle(desk)
    job = services.jobs.get_job(store, desk.job_id)
    assert (job.machine, job.purpose, job.owner) == (
        "Garden shredder", "engine seized", "the allotment club",
    )  # fmt: skip
    assert job.note == "spark plug is out"
    assert job.datum.viewpoint == "standing at the chute, facing it"
    assert job.datum.call(Side.LEFT) == "pulley side"
    assert job.datum.call(Side.TOP) == "funnel"
    assert job.datum.call(Side.FRONT) == "chute"
    assert stage.page.head.text() == "Garden shredder, engine seized"
    assert stage.page.areas.slips == []
    assert QApplication.focusWidget() is stage.page.areas.new
    assert titles(stage) == ["Garden shredder, engine seized", "Walking tractor, gearbox"]


def test_a_job_without_a_machine_is_said_and_nothing_is_lost(stage, desk, settle, store):
    stage.open_new()
    stage.page.owner.setText("M. Keller")
    press(ENTER)
    settle(desk)
    assert "machine" in stage.page.fields["machine"].wrong.text()
    assert stage.page.owner.text() == "M. Keller"
    assert QApplication.focusWidget() is stage.page.machine
    assert len(services.jobs.list_jobs(store)) == 1


def test_two_sides_with_one_name_are_said_beside_one(stage, desk, settle):
    fields = stage.page.datum.box.fields
    fields[Side.REAR].line.setText("clutch side")
    fields[Side.REAR].line.setFocus()
    press(ENTER)
    settle(desk)
    wrong = [side for side, field in fields.items() if field.wrong.isVisible()]
    assert len(wrong) == 1
    assert "clutch side" in fields[wrong[0]].wrong.text()
    assert fields[Side.REAR].line.text() == "clutch side"


def test_too_long_a_text_is_said(stage, desk, settle):
    stage.page.machine.setText("x" * 300)
    stage.page.machine.setFocus()
    press(ENTER)
    settle(desk)
    assert "300" in stage.page.said.text() + stage.page.fields["machine"].wrong.text()
    assert len(stage.page.machine.text()) == 300


def test_editing(stage, desk, settle, store, job_id):
    stage.page.owner.setFocus()
    write("Ada")
    assert stage.page.keep.isVisible()
    press(ENTER)
    settle(desk)
    assert services.jobs.get_job(store, job_id).owner == "Ada"
    assert not stage.page.keep.isVisible()
    assert stage.list.tickets[0].detail == "3 off, Ada"


def test_left_as_it_was(stage, desk, settle, store, job_id):
    stage.page.machine.setText("something else")
    stage.page.leave.click()
    settle(desk)
    assert stage.page.machine.text() == "Walking tractor"
    assert services.jobs.get_job(store, job_id).machine == "Walking tractor"


def test_a_new_job_left_goes_back_to_the_open_one(stage, desk, settle):
    stage.open_new()
    stage.page.machine.setText("never mind")
    stage.page.leave.click()
    settle(desk)
    assert stage.page.head.text() == "Walking tractor, gearbox"
    assert stage.page.areas.isVisible()


def test_a_change_elsewhere_does_not_write_over_what_is_typed(stage, desk, settle, job_id):
    stage.page.owner.setText("half typed")
    desk.act(services.jobs.add_area, job_id, "clutch")
    settle(desk)
    assert stage.page.owner.text() == "half typed"
    assert "clutch" in [slip.text() for slip in stage.page.areas.slips]


def test_a_change_elsewhere_is_shown_where_nothing_is_typed(stage, desk, settle, job_id):
    desk.act(services.jobs.edit_job, job_id, services.jobs.JobForm("Walking tractor", "clutch"))
    settle(desk)
    assert stage.page.head.text() == "Walking tractor, clutch"
    assert stage.page.purpose.text() == "clutch"


@pytest.fixture
def shredder(store, stage, desk, settle) -> int:
    form = services.jobs.JobForm("Garden shredder", "engine", owner="M. Keller")
    made = services.jobs.open_job(store, form, who="Ada").new_id
    entry = services.tape.log_line
    entry(store, made, "shift lever, bag 1", who="Ada")
    stage.list.refresh()
    settle(desk)
    return made


def test_typing_filters_the_jobs(stage, desk, settle, shredder):
    assert titles(stage) == ["Garden shredder, engine", "Walking tractor, gearbox"]
    stage.list.search.setFocus()
    write("tract")
    settle(desk)
    assert titles(stage) == ["Walking tractor, gearbox"]
    press(ESC)
    assert len(titles(stage)) == 2
    write("keller")
    settle(desk)
    assert titles(stage) == ["Garden shredder, engine"]


def test_typing_finds_parts_in_every_job(qtbot, stage, desk, settle, shredder, ids):
    stage.list.search.setFocus()
    write("shift")
    settle(desk)
    assert set(titles(stage)) == {"1  shift lever", "2  shift drum", "3  shift fork L"}
    assert {ticket.detail for ticket in stage.list.tickets} == {
        "Garden shredder, engine", "Walking tractor, gearbox",
    }  # fmt: skip
    lever = next(t for t in stage.list.tickets if t.text() == "1  shift lever")
    with qtbot.waitSignal(desk.show_removal) as shown:
        lever.click()
    settle(desk)
    assert desk.job_id == shredder
    assert services.strip.get_removal(desk.store, *shown.args).name == "shift lever"


def test_nothing_found_is_said(stage, desk, settle):
    stage.list.search.setFocus()
    write("zeppelin")
    settle(desk)
    words = [label.text() for label in stage.list._list.findChildren(type(stage.page.head))]
    assert any("zeppelin" in text for text in words)


def test_choosing_another_job_by_keyboard(stage, desk, settle, shredder):
    stage.list.search.setFocus()
    press(Qt.Key.Key_Down)
    assert QApplication.focusWidget() is stage.list.tickets[0]
    press(ENTER)
    settle(desk)
    assert desk.job_id == shredder
    assert stage.page.head.text() == "Garden shredder, engine"
    assert [t.here for t in stage.list.tickets] == [True, False]


def test_enter_takes_the_first_found(stage, desk, settle, shredder):
    stage.list.search.setFocus()
    write("garden")
    settle(desk)
    press(ENTER)
    settle(desk)
    assert desk.job_id == shredder


def test_a_store_without_a_job_begins_with_a_new_one(qtbot, desk, settle):
    desk.choose_job(0)
    made = JobStage(desk)
    show(qtbot, made, 1000, 560)
    made.enter()
    settle(desk)
    assert made.page.head.text() == "Open a new job"
    assert not made.page.areas.isVisible()


def test_the_near_side_turns_with_the_viewpoint(stage):
    """One who stands behind and looks forward has the rear before him."""
    box = stage.page.datum.box
    assert box.near is Side.REAR
    stage.page.datum.viewpoint.setText("standing in front of the machine, facing it")
    assert box.near is Side.FRONT
    assert box.fields[Side.FRONT].caption.text() == "Front, the near side"


@pytest.mark.parametrize("width", [620, 760, 900, 1400])
def test_the_fields_of_the_box_never_overlap(stage, width):
    stage.resize(width + 380, 700)
    box = stage.page.datum.box
    for where in ("looking forward", "facing it"):
        stage.page.datum.viewpoint.setText(where)
        places = [field.geometry() for field in box.fields.values()]
        for number, place in enumerate(places):
            assert box.rect().contains(place)
            assert not any(place.intersects(other) for other in places[number + 1 :])


def test_names_with_markup_stay_as_typed(stage, desk, settle, store, job_id):
    stage.page.machine.setText("<b>Tractor</b> & cart")
    stage.page.machine.setFocus()
    press(ENTER)
    settle(desk)
    assert services.jobs.get_job(store, job_id).machine == "<b>Tractor</b> & cart"
    assert stage.page.head.text() == "<b>Tractor</b> & cart, gearbox"
    assert stage.page.head.textFormat() is Qt.TextFormat.PlainText


def test_every_control_has_a_name(stage):
    nameless = [
        widget
        for widget in stage.findChildren(QWidget)
        if widget.focusPolicy() != Qt.FocusPolicy.NoFocus
        and widget.focusProxy() is None
        and not widget.accessibleName()
    ]
    assert nameless == []


def test_it_can_be_let_go(qtbot, desk, ids, settle):
    made = JobStage(desk)
    made.show()
    made.enter()
    settle(desk)
    made.list.search.setText("shift")
    settle(desk)
    seen = weakref.ref(made)
    made.close()
    made.deleteLater()
    qtbot.wait(1)
    del made
    assert seen() is None


def test_what_was_typed_for_a_new_job_waits(stage, desk, settle, job_id):
    stage.open_new()
    stage.page.machine.setText("Garden shredder")
    desk.choose_job(job_id)  # by the window's own list of jobs
    stage.enter()
    settle(desk)
    assert stage.page.head.text() == "Walking tractor, gearbox"
    stage.open_new()
    assert stage.page.machine.text() == "Garden shredder"


def test_what_was_changed_in_a_job_waits_while_another_is_shown(
    stage, desk, settle, shredder, job_id
):
    stage.page.owner.setText("half typed")
    stage._choose(shredder)
    settle(desk)
    assert stage.page.owner.text() == "M. Keller"
    stage._choose(job_id)
    settle(desk)
    assert stage.page.owner.text() == "half typed"
    assert stage.page.keep.isVisible()


def test_two_people_change_a_job_and_both_are_kept(stage, desk, settle, store, job_id):
    stage.page.owner.setText("mine")
    theirs = services.jobs.JobForm("Walking tractor", "gearbox", note="theirs", datum=DATUM)
    desk.act(services.jobs.edit_job, job_id, theirs)
    settle(desk)
    assert (stage.page.owner.text(), stage.page.note.toPlainText()) == ("mine", "theirs")
    stage.page.owner.setFocus()
    press(ENTER)
    settle(desk)
    job = services.jobs.get_job(store, job_id)
    assert (job.owner, job.note) == ("mine", "theirs")


def test_two_people_change_one_field_of_a_job_and_it_is_said(stage, desk, settle, job_id):
    stage.page.owner.setText("mine")
    theirs = services.jobs.JobForm("Walking tractor", "gearbox", owner="theirs", datum=DATUM)
    desk.act(services.jobs.edit_job, job_id, theirs)
    settle(desk)
    assert stage.page.owner.text() == "mine"
    assert "changed elsewhere" in stage.page.said.text()
    assert stage.page.said.isVisible()
