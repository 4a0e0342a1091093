"""A scanner that types into the forms of the build presses nothing, and leaves no letter behind."""

import pytest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.fitting import part
from bagtag.domain.tightening import Pass, PassKind
from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.order.add_menu import AddMenu, open_add
from bagtag.ui.order.passes_form import USUAL, PassesDialog
from bagtag.ui.order.task_form import TaskDialog
from tests.ui.add_kit import is_open, write
from tests.ui.shell_kit import close_window, log, open_window, scan


@pytest.fixture
def ids(store, job_id) -> list[int]:
    return log(store, job_id, "cover", "shift drum", "shift fork L")


@pytest.fixture
def window(qtbot, store, ids, settle):
    made = open_window(qtbot, store, settle)
    yield made
    settle(made.desk)
    close_window(made)


@pytest.fixture
def code(store, job_id, ids) -> str:
    """The tag of the shift drum."""
    order = services.labels.LabelOrder(job_id, (ids[1],))
    services.labels.mark_printed(store, order)
    (tag,) = services.views.card(store, ids[1]).tags
    return tag.code


def over(qtbot, window, settle, form):
    """A form over the window, the keys in it."""
    form.show()
    form.activateWindow()
    qtbot.waitUntil(form.isActiveWindow)
    settle(window.desk)
    return form


def test_a_scan_over_the_menu_shows_the_part_and_adds_nothing(
    window, qtbot, settle, store, job_id, code
) -> None:
    menu = over(qtbot, window, settle, open_add(window.desk, window, None))
    scan(menu.windowHandle(), code)
    qtbot.wait(2 * QUIET)
    settle(window.desk)
    assert is_open(menu)
    assert not [w for w in QApplication.topLevelWidgets() if isinstance(w, TaskDialog)]
    assert services.tasks.tasks_of(store, job_id) == []


def test_a_scan_over_the_kinds_chooses_none(window, qtbot, settle, store, job_id, code) -> None:
    form = over(qtbot, window, settle, TaskDialog(window.desk, window))
    scan(form.windowHandle(), code)
    qtbot.wait(2 * QUIET)
    settle(window.desk)
    assert is_open(form)
    assert form.kind.value is None
    assert services.tasks.tasks_of(store, job_id) == []


@pytest.mark.parametrize("typed", ["24513", "4006381333931", "A2B3C4D5"])
def test_a_scan_over_the_passes_takes_no_way_and_keeps_nothing(
    window, qtbot, settle, ids, store, typed
) -> None:
    """A foreign code on a bag of bolts is typed too, and its end key is not the person's."""
    own = (Pass(PassKind.TORQUE, share=0.4), Pass(PassKind.TORQUE, share=1.0))
    services.tightening.set_passes(store, ids[0], own)
    form = over(qtbot, window, settle, PassesDialog(window.desk, window, ids[0]))
    form.ways.choice(USUAL).setFocus()
    scan(form.windowHandle(), typed)
    qtbot.wait(2 * QUIET)
    settle(window.desk)
    assert is_open(form)
    assert tuple(form.passes) == own
    assert services.strip.get_removal(store, ids[0]).passes == own


def test_a_scan_into_a_picker_is_taken_out_of_it_again(
    window, qtbot, settle, ids, store, job_id, code
) -> None:
    form = over(qtbot, window, settle, TaskDialog(window.desk, window, beside=part(ids[2])))
    form.beside.step.setFocus()
    write("shift")
    scan(form.windowHandle(), code)
    qtbot.wait(2 * QUIET)
    settle(window.desk)
    assert form.beside.step.line.text() == "shift"
    assert form.beside.step.list.rows.rowCount() == 2
    assert form.beside.ref == part(ids[2])
    assert services.tasks.tasks_of(store, job_id) == []


def test_the_menu_stands_over_the_window_and_goes_with_it(window, qtbot, settle) -> None:
    menu = over(qtbot, window, settle, open_add(window.desk, window, None))
    assert isinstance(menu, AddMenu)
    assert menu.isModal()
    assert menu.parentWidget() is window
