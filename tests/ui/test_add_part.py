"""Parts that were never logged: read as on tape, put in beside a part of the build."""

import pytest

from bagtag import services
from bagtag.domain.fitting import Anchor, Beside, TaskKind, task
from bagtag.domain.model import Fate, Origin
from bagtag.ui.order.add_part import PartDialog
from tests.ui.add_kit import ENTER, open_form, order, press, shown_steps, step_of, walked, write
from tests.ui.stages_job import dies, nameless


@pytest.fixture
def drum(store, job):
    return step_of(store, job, "shift drum")


@pytest.fixture
def form(qtbot, desk, job, settle, drum):
    """A part that the shop took off, beside the shift drum."""
    return open_form(qtbot, desk, settle, PartDialog, Origin.SHOP, drum)


def newest(store, job):
    found = (services.strip.get_removal(store, id_) for id_ in services.strip.log_ids(store, job))
    return max(found, key=lambda removal: removal.id)


def test_a_line_of_tape_adds_it_after_the_step(form, desk, settle, store, job, drum) -> None:
    shown = shown_steps(desk)
    write("3 x dowel, bag 14, engine oil")
    assert form.count.value == 3
    assert "bag 14: lies in" in form.heard.text()
    press(ENTER)
    settle(desk)
    made = newest(store, job.id)
    assert (made.name, made.quantity, made.goes_on) == ("dowel", 3, "engine oil")
    assert made.origin is Origin.SHOP
    assert made.area_id == job.areas["Gearbox"]
    assert "bag 14" in [
        r.container.label for r in services.containers.list_containers(store, job.id)
    ]
    assert shown == [step_of(store, job, "shift drum")._replace(id=made.id)]
    called = order(store, job.id)
    assert called.index(f"{made.number} dowel") == called.index("4 shift drum") + 1


def test_before_the_step(form, desk, settle, store, job) -> None:
    write("nozzle")
    form.beside.side.choose(Beside.BEFORE)
    press(ENTER)
    settle(desk)
    called = order(store, job.id)
    name = f"{newest(store, job.id).number} nozzle"
    assert called.index(name) == called.index("4 shift drum") - 1


def test_a_new_part_is_here_even_of_a_kind_that_is_always_renewed(
    qtbot, desk, settle, store, job, drum
) -> None:
    open_form(qtbot, desk, settle, PartDialog, Origin.NEW, drum)
    write("O-ring 25x3")
    press(ENTER)
    settle(desk)
    made = newest(store, job.id)
    assert (made.origin, made.fate) == (Origin.NEW, Fate.REFIT)


def test_a_new_part_that_is_still_to_come_is_said_so_on_tape(
    qtbot, desk, settle, store, job, drum
) -> None:
    open_form(qtbot, desk, settle, PartDialog, Origin.NEW, drum)
    write("shim, renew")
    press(ENTER)
    settle(desk)
    assert newest(store, job.id).fate is Fate.RENEW


def test_a_seal_that_the_shop_took_off_is_renewed(form, desk, settle, store, job) -> None:
    write("O-ring 25x3")
    press(ENTER)
    settle(desk)
    assert newest(store, job.id).fate is Fate.RENEW


def test_a_count_of_ones_own_stays(form, desk, settle, store, job) -> None:
    form.count.set_value(6)
    write("2 x dowel")
    press(ENTER)
    settle(desk)
    assert newest(store, job.id).quantity == 6


def test_without_a_name_it_is_refused_and_the_rest_stays(form, desk, settle, store, job) -> None:
    had = len(services.strip.log_ids(store, job.id))
    form.count.set_value(4)
    press(ENTER)
    settle(desk)
    assert "Give the part a name" in form.fields["name"].wrong.text()
    assert form.line.hasFocus()
    assert form.count.value == 4
    assert len(services.strip.log_ids(store, job.id)) == had


def test_another_area_is_chosen(form, desk, settle, store, job) -> None:
    write("plug")
    form.area.setFocus()
    write("Lower case")
    press(ENTER)
    press(ENTER)
    settle(desk)
    assert newest(store, job.id).area_id == job.areas["Lower case"]


def test_only_parts_have_a_place_in_the_log(qtbot, desk, settle, store, job, drum) -> None:
    made = services.tasks.TaskForm(TaskKind.OIL, anchor=Anchor(Beside.AFTER, drum))
    oil = task(services.tasks.add_task(store, job.id, made).new_id)
    form = open_form(qtbot, desk, settle, PartDialog, Origin.NEW, oil)
    assert form.beside.ref == drum
    assert form.beside.step.list.rows.row_of(oil) is None


def test_without_a_step_it_goes_in_last_of_all(qtbot, desk, settle, store, job) -> None:
    open_form(qtbot, desk, settle, PartDialog, Origin.NEW, None)
    write("heat shield")
    press(ENTER)
    settle(desk)
    assert order(store, job.id)[-1].endswith("heat shield")


def test_tab_goes_from_field_to_field_and_last_to_the_buttons(form) -> None:
    assert walked(form.line) == [
        "What it is, as on tape",
        "It stands: After",
        "Which step",
        "How many",
        "Area",
        "Add it",
        "Leave it",
    ]


def test_names_and_leaks(form, qtbot, desk, settle) -> None:
    assert nameless(form) == []

    def make() -> PartDialog:
        made = PartDialog(desk, None, Origin.NEW, None)
        settle(desk)
        return made

    assert dies(qtbot, make)
