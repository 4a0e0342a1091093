"""What can be added to the build: a key for each, and a scan that chooses nothing."""

import pytest
from PySide6.QtCore import Qt

from bagtag.domain.fitting import task
from bagtag.domain.model import Origin
from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.order import add_menu
from bagtag.ui.order.add_menu import ADDINGS, AddMenu
from bagtag.ui.order.add_part import PartDialog
from bagtag.ui.order.build_form import BenchBuildDialog
from bagtag.ui.order.later_form import LaterDialog
from bagtag.ui.order.rule_form import RuleDialog
from bagtag.ui.order.task_form import TaskDialog
from tests.ui.add_kit import (
    DOWN,
    ENTER,
    ESC,
    host,
    is_open,
    open_form,
    opened,
    press,
    step_of,
    write,
)
from tests.ui.stages_job import dies, nameless

FORMS = (
    TaskDialog, PartDialog, PartDialog, BenchBuildDialog, LaterDialog, RuleDialog, RuleDialog,
    RuleDialog,
)  # fmt: skip


@pytest.fixture
def menu(qtbot, desk, job, store, settle):
    return open_form(qtbot, desk, settle, AddMenu, step_of(store, job, "shift drum"))


def form_open():
    """The one form that stands open."""
    (made,) = opened(*set(FORMS))
    return made


@pytest.mark.parametrize(("number", "form"), list(enumerate(FORMS, start=1)))
def test_each_has_its_key(menu, qtbot, desk, settle, number, form) -> None:
    write(str(number))
    qtbot.waitUntil(lambda: bool(opened(*FORMS)))
    settle(desk)
    made = form_open()
    assert isinstance(made, form)
    if isinstance(made, PartDialog):
        assert made.origin is ADDINGS[number - 1].what
    if isinstance(made, RuleDialog):
        assert made.kind is ADDINGS[number - 1].what
    made.reject()


def test_it_says_for_which_step(menu) -> None:
    assert menu.beside.text() == "For 4 shift drum"


def test_arrows_and_enter_choose(menu, qtbot, desk, settle) -> None:
    press(DOWN)
    press(ENTER)
    settle(desk)
    made = form_open()
    assert isinstance(made, PartDialog)
    assert made.origin is Origin.NEW
    made.reject()


def test_a_scan_chooses_nothing(menu, qtbot) -> None:
    write("MF3-24G")
    qtbot.wait(3 * QUIET)
    assert opened(*FORMS) == []
    assert menu.isVisible()


def test_escape_leaves_it(menu, qtbot) -> None:
    press(ESC)
    qtbot.waitUntil(lambda: not is_open(menu))
    assert opened(*FORMS) == []


def test_without_a_step_every_form_still_opens(qtbot, desk, job, settle) -> None:
    window = host(qtbot)
    for adding in ADDINGS:
        menu = add_menu.open_add(desk, window, None)
        assert "the form asks which" in menu.beside.text()
        menu.take(adding.what)
        settle(desk)
        made = form_open()
        made.reject()


def test_a_task_on_the_card_is_no_part_to_tighten(qtbot, desk, job, settle) -> None:
    menu = add_menu.open_add(desk, host(qtbot), task(1))
    menu.take("later")
    settle(desk)
    made = form_open()
    assert made.part.isVisibleTo(made)
    made.reject()


def test_names_keys_and_leaks(menu, qtbot, desk) -> None:
    assert nameless(menu) == []
    assert [choice.option.key for choice in menu.choices] == list("12345678")
    assert all(choice.focusPolicy() & Qt.FocusPolicy.TabFocus for choice in menu.choices)
    assert dies(qtbot, lambda: AddMenu(desk, None, None))
