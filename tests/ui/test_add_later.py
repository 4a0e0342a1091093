"""Two stages of tightening, and the figures asked for when a part is signed off."""

import pytest

from bagtag import services
from bagtag.domain.fitting import Anchor, Asked, Beside, TaskKind, task
from bagtag.domain.hardware import OVERRIDE
from bagtag.ui.order.asks_form import AsksDialog
from bagtag.ui.order.later_form import LaterDialog
from tests.ui.add_kit import (
    DOWN,
    ENTER,
    is_open,
    newest,
    open_form,
    order,
    press,
    shown_steps,
    step_of,
    tasks,
    write,
)
from tests.ui.stages_job import dies, nameless, sentence_of


@pytest.fixture
def later(qtbot, desk, job, settle):
    return open_form(qtbot, desk, settle, LaterDialog, job.parts["shift fork R"])


@pytest.fixture
def asks(qtbot, desk, job, settle):
    return open_form(qtbot, desk, settle, AsksDialog, job.parts["main shaft"])


def test_the_final_torque_stands_after_the_step_that_is_named(
    later, desk, settle, store, job
) -> None:
    shown = shown_steps(desk)
    write("1 cover")
    press(ENTER, 2)
    settle(desk)
    one = newest(store, job.id)
    assert one.kind is TaskKind.TIGHTENING
    assert one.anchor == Anchor(Beside.AFTER, step_of(store, job, "cover, clutch side"))
    assert order(store, job.id)[-1] == "final torque of 6 shift fork R"
    assert shown == [task(one.id)]


def test_a_page_with_a_torque_says_that_the_manual_overrides_it(
    qtbot, desk, settle, store, job
) -> None:
    """Law of this program, and common practice: the maker's manual has the last word."""
    part_id = job.parts["cover, clutch side"]
    form = open_form(qtbot, desk, settle, LaterDialog, part_id)
    said = sentence_of(form)
    assert "10 N·m" in said
    assert OVERRIDE in said


def test_without_a_step_it_says_so(later, desk, settle, store, job) -> None:
    press(ENTER)
    assert "Choose the step after which" in later.fields["anchor"].wrong.text()
    assert tasks(store, job.id) == []


def test_the_part_itself_is_not_offered_and_the_next_step_is_in_sight(later, store, job) -> None:
    own = step_of(store, job, "shift fork R")
    assert later.after.list.rows.row_of(own) is None
    assert later.after.list.isVisible()
    called = order(store, job.id)
    following = called[called.index("6 shift fork R") + 1]
    assert later.after.list.rows.row_of(later.after.near).text == following


def test_a_second_final_torque_is_refused_under_the_field(later, desk, settle, store, job) -> None:
    cover = step_of(store, job, "cover, clutch side")
    services.tasks.tighten_later(store, job.parts["shift fork R"], cover)
    later.after.set_value(cover)
    later.save()
    settle(desk)
    assert "has its final torque already" in later.fields["anchor"].wrong.text()
    assert later.after.line.text() == "1 cover, clutch side"


def test_without_a_part_it_asks_which(qtbot, desk, settle, store, job) -> None:
    form = open_form(qtbot, desk, settle, LaterDialog, None)
    assert form.part.line.hasFocus()
    press(ENTER)
    assert "Choose the part" in form.fields["part"].wrong.text()
    write("6")
    press(ENTER)
    settle(desk)
    assert form.head.text() == "Tighten later: 6 shift fork R"
    form.after.setFocus()
    write("4")
    press(ENTER, 2)
    settle(desk)
    assert newest(store, job.id).removal_id == job.parts["shift fork R"]


def test_a_figure_with_its_limits_is_asked_for(asks, desk, settle, store, job) -> None:
    write("end float")
    row = asks.asks.rows[0]
    row.unit.setText("mm")
    row.low.setText("0,05")
    row.high.setText("0.2")
    press(ENTER)
    settle(desk)
    removal = services.strip.get_removal(store, job.parts["main shaft"])
    assert removal.asks == (Asked("end float", "mm", 0.05, 0.2),)
    assert not is_open(asks)


def test_down_goes_through_what_is_usually_measured(asks) -> None:
    row = asks.asks.rows[0]
    write("back")
    press(DOWN)
    assert row.name.text() == "backlash"


def test_what_is_asked_already_is_shown_and_can_be_taken_out(
    qtbot, desk, settle, store, job
) -> None:
    part_id = job.parts["main shaft"]
    known = (Asked("end float", "mm", 0.05, 0.2), Asked("run-out", "mm", None, -0.5))
    services.tasks.ask_at_sign_off(store, part_id, known)
    form = open_form(qtbot, desk, settle, AsksDialog, part_id)
    assert form.asks.asks() == known
    form.asks.rows[0].out.click()
    form.save()
    settle(desk)
    assert services.strip.get_removal(store, part_id).asks == known[1:]


def test_the_same_figure_twice_is_refused_and_stays_typed(asks, desk, settle, store, job) -> None:
    asks.asks.rows[0].name.setText("end float")
    asks.asks.add()
    write("End float")
    press(ENTER)
    settle(desk)
    assert "asked for twice" in asks.fields["asks"].wrong.text()
    assert [row.name.text() for row in asks.asks.rows] == ["end float", "End float"]
    assert services.strip.get_removal(store, job.parts["main shaft"]).asks == ()


def test_names_and_leaks(later, asks, qtbot, desk, settle, job) -> None:
    assert nameless(later) == []
    assert nameless(asks) == []

    def make_later() -> LaterDialog:
        made = LaterDialog(desk, None, None)
        settle(desk)
        return made

    def make_asks() -> AsksDialog:
        made = AsksDialog(desk, None, job.parts["main shaft"])
        settle(desk)
        return made

    assert dies(qtbot, make_later)
    assert dies(qtbot, make_asks)
