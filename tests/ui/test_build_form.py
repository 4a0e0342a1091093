"""Bench builds: a name, pieces ticked by number, one inside another, edited and undone."""

import pytest

from bagtag import services
from bagtag.domain.fitting import task
from bagtag.ui.order.build_form import BenchBuildDialog
from tests.ui.add_kit import ENTER, newest, open_form, press, shown_steps, step_of, walked, write
from tests.ui.stages_job import dies, nameless


@pytest.fixture
def drum(store, job):
    return step_of(store, job, "shift drum")


@pytest.fixture
def form(qtbot, desk, job, settle, drum):
    return open_form(qtbot, desk, settle, BenchBuildDialog, drum)


def pieces(store, job_id: int, build: int) -> set:
    return {s.ref for s in services.steps.steps_of(store, job_id) if s.build_id == build}


def test_a_name_and_the_numbers_of_its_pieces_by_keys_alone(
    form, desk, settle, store, job, drum
) -> None:
    shown = shown_steps(desk)
    write("selector")
    form.pieces.setFocus()
    for number in ("5", "6"):
        write(number)
        press(ENTER)
    press(ENTER)
    settle(desk)
    one = newest(store, job.id)
    assert one.name == "selector"
    wanted = {drum, step_of(store, job, "shift fork L"), step_of(store, job, "shift fork R")}
    assert pieces(store, job.id, one.id) == wanted
    assert shown == [task(one.id)]


def test_without_a_name_and_without_pieces_it_is_refused(form, desk, settle, store, job) -> None:
    press(ENTER)
    settle(desk)
    assert "Give the bench build a name" in form.fields["name"].wrong.text()
    write("selector")
    form.pieces.set_values([])
    press(ENTER)
    settle(desk)
    assert "Choose the pieces" in form.fields["pieces"].wrong.text()
    assert form.name.text() == "selector"
    assert services.tasks.tasks_of(store, job.id) == []


def test_of_a_piece_of_another_it_is_made_inside_that(
    qtbot, desk, settle, store, job, drum
) -> None:
    outer = services.tasks.make_bench_build(store, job.id, "gearbox", [drum]).new_id
    form = open_form(qtbot, desk, settle, BenchBuildDialog, drum)
    assert form.within.line.text() == "gearbox"
    write("drum")
    press(ENTER)
    settle(desk)
    inner = newest(store, job.id)
    assert inner.build_id == outer
    assert pieces(store, job.id, inner.id) == {drum}
    assert pieces(store, job.id, outer) == {task(inner.id)}


def test_an_edited_one_gets_and_loses_pieces(qtbot, desk, settle, store, job, drum) -> None:
    fork = step_of(store, job, "shift fork L")
    build = services.tasks.make_bench_build(store, job.id, "selector", [drum]).new_id
    form = open_form(qtbot, desk, settle, BenchBuildDialog, task_id=build)
    assert form.name.text() == "selector"
    assert form.pieces.values == [drum]
    assert form.pieces.list.rows.row_of(task(build)) is None
    assert form.within.list.rows.row_of(build) is None
    form.pieces.setFocus()
    for number in ("4", "5"):
        write(number)
        press(ENTER)
    press(ENTER)
    settle(desk)
    assert pieces(store, job.id, build) == {fork}
    services.history.undo(store, job.id)
    assert pieces(store, job.id, build) == {drum}


def test_it_cannot_be_put_into_its_own_piece(qtbot, desk, settle, store, job, drum) -> None:
    inner = services.tasks.make_bench_build(store, job.id, "drum", [drum]).new_id
    outer = services.tasks.make_bench_build(store, job.id, "gearbox", [task(inner)]).new_id
    form = open_form(qtbot, desk, settle, BenchBuildDialog, task_id=outer)
    form.within.set_value(inner)
    form.save()
    settle(desk)
    assert "cannot be a piece of itself" in form.fields["build"].wrong.text()


def test_tab_goes_from_field_to_field_and_last_to_the_buttons(form) -> None:
    assert walked(form.name) == [
        "Name of the bench build",
        "Pieces",
        "Chosen: 4 shift drum",
        "Itself a piece of",
        "Add it",
        "Leave it",
    ]


def test_names_and_leaks(form, qtbot, desk, settle) -> None:
    assert nameless(form) == []

    def make() -> BenchBuildDialog:
        made = BenchBuildDialog(desk)
        settle(desk)
        return made

    assert dies(qtbot, make)
