"""Journeys through the window, by keyboard and by a typed scan."""

import gc
import sys
import weakref

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget

from bagtag import bootstrap, services
from bagtag.domain import codes
from bagtag.domain.entry import Entry
from bagtag.ui import app as program
from bagtag.ui.blank_tag_dialog import BlankTagDialog
from bagtag.ui.stage_bar import STAGES
from tests.ui.shell_kit import NAMES, close_window, key, log, open_window, rest, scan, type_line


@pytest.fixture
def ids(store, job_id):
    return log(store, job_id, *NAMES)


@pytest.fixture
def window(qtbot, store, ids, settle):
    made = open_window(qtbot, store, settle)
    yield made
    close_window(made)


def code_of(store, removal_id):
    return services.views.card(store, removal_id).code


def names(window):
    rows = window.work.bench.strip.rows
    return [rows.row_at(place).removal.name for place in range(rows.count)]


# The first sight of it


def test_it_opens_on_the_newest_job_with_the_keys_in_the_one_field(window):
    assert window.title.title == "Walking tractor, gearbox"
    assert window.counts.text == "5 off"
    assert window.stages.current == "Strip"
    assert window.field.frame.line.hasFocus()
    assert names(window) == list(NAMES)


def test_a_job_half_built_opens_on_build(qtbot, store, ids, settle):
    services.board.sign(store, ids[4], who="Ada")
    window = open_window(qtbot, store, settle)
    assert window.stages.current == "Build"
    assert window.counts.text == "5 off, 1 back"
    assert window.work.bench.strip.back_place == 4
    close_window(window)


def test_without_a_job_it_says_what_to_do_first(qtbot, tmp_path, settle):
    from bagtag.store.work import Store

    empty = Store.in_folder(tmp_path / "empty")
    window = open_window(qtbot, empty, settle)
    words = [b.text() for b in window.work.page.findChildren(QPushButton)]
    assert words == ["Open a job", "Look at the demo"]
    key(window, "Alt+2")
    settle(window.desk)
    assert window.work.page is window.work._empty
    window.work.page.findChildren(QPushButton)[0].click()
    settle(window.desk)
    assert window.stages.current == "Job"
    close_window(window)
    empty.close()


def test_a_store_of_a_newer_version_is_refused_in_the_window(qtbot, tmp_path, settle):
    import sqlite3

    location = bootstrap.locate(tmp_path)
    bootstrap.open_store(location).close()
    with sqlite3.connect(location.database) as raw:
        raw.execute("UPDATE alembic_version SET version_num = '9999'")
    raw.close()
    window, desk = bootstrap.make_window(location, "Ada")
    qtbot.addWidget(window)
    with qtbot.waitSignal(desk.refused):
        window.show()
    assert "newer Bagtag" in window.pages.currentWidget().findChildren(QWidget)[1].text()
    assert not window.field.isEnabled()
    window.stop()
    desk.close()
    window.close()


def test_nothing_heavy_is_imported_before_the_first_paint(qtbot):
    import subprocess

    code = (
        "import sys; from bagtag import bootstrap; from bagtag.ui import app\n"
        "made = app.Program(app.make_app(), None, 'Ada'); made.window.show()\n"
        "made.window.painted.connect(lambda: (print(*sys.modules), app.QApplication.exit()))\n"
        "app.QApplication.exec()\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    loaded = set(done.stdout.split())
    assert "bagtag.ui.window" in loaded
    heavy = {"sqlalchemy", "alembic", "reportlab", "PIL", "numpy", "qrcode", "zxingcpp"}
    heavy |= {"PySide6.QtMultimedia", "bagtag.domain.model", "bagtag.store", "bagtag.scan"}
    assert heavy & loaded == set()


# Strip


def test_a_line_of_tape_is_logged_with_enter(window, settle, store, job_id):
    type_line(window, "thrust washer, renew, bag 12")
    settle(window.desk)
    key(window, "Return")
    settle(window.desk)
    assert names(window)[-1] == "thrust washer"
    assert window.field.text == ""
    assert window.field.next_number == "7"
    assert window.message.text == "Done: log thrust washer."
    assert window.message.offers_undo
    assert window.counts.text == "6 off"
    assert window.field.frame.line.hasFocus()


def test_two_lines_typed_one_after_the_other_are_both_logged(window, settle):
    type_line(window, "dowel front")
    key(window, "Return")
    type_line(window, "dowel rear")
    key(window, "Return")
    settle(window.desk)
    assert names(window)[-2:] == ["dowel front", "dowel rear"]


def test_a_line_that_cannot_be_taken_stays_typed(window, settle):
    type_line(window, "bag 12")
    settle(window.desk)
    key(window, "Return")
    settle(window.desk)
    assert len(names(window)) == len(NAMES)
    assert window.field.text == "bag 12"
    assert window.field.chips.sentence


def test_undo_and_redo_say_what_they_did(window, settle):
    type_line(window, "dowel")
    key(window, "Return")
    settle(window.desk)
    key(window, "Ctrl+Z")
    settle(window.desk)
    assert names(window) == list(NAMES)
    assert window.message.text == "Undone: log dowel."
    key(window, "Ctrl+Shift+Z")
    settle(window.desk)
    assert names(window)[-1] == "dowel"
    assert window.message.text == "Done: log dowel."


def test_ctrl_z_in_a_field_with_text_undoes_typing_only(window, settle):
    type_line(window, "dow")
    key(window, "Ctrl+Z")
    settle(window.desk)
    assert window.field.text == ""
    assert names(window) == list(NAMES)


def test_undo_works_after_a_restart(qtbot, window, store, settle):
    type_line(window, "dowel")
    key(window, "Return")
    settle(window.desk)
    again = open_window(qtbot, store, settle, who="Ben")
    assert names(again)[-1] == "dowel"
    key(again, "Ctrl+Z")
    settle(again.desk)
    assert names(again) == list(NAMES)
    close_window(again)


def test_a_line_is_moved_and_deleted_from_the_strip(qtbot, window, ids, settle):
    strip = window.work.bench.strip
    strip.setFocus()
    strip.choose(ids[2])
    key(window, "Alt+Up")
    rest(qtbot, window, settle)
    assert names(window)[:3] == [NAMES[0], NAMES[2], NAMES[1]]
    assert strip.chosen_id == ids[2]
    key(window, "Alt+Down")
    rest(qtbot, window, settle)
    assert names(window) == list(NAMES)
    key(window, "Delete")
    rest(qtbot, window, settle)
    assert NAMES[2] not in names(window)
    assert window.message.text == "Done: delete 3 shift drum."
    window.message.undo.click()
    rest(qtbot, window, settle)
    assert names(window) == list(NAMES)


def test_the_last_line_is_moved_to_the_end_and_no_further(qtbot, window, ids, settle):
    strip = window.work.bench.strip
    strip.setFocus()
    strip.choose(ids[3])
    key(window, "Alt+Down")
    rest(qtbot, window, settle)
    assert names(window)[-1] == NAMES[3]
    key(window, "Alt+Down")
    rest(qtbot, window, settle)
    assert names(window)[-1] == NAMES[3]


def test_one_forgotten_goes_in_before_the_chosen_line(qtbot, window, ids, settle):
    bench = window.work.bench
    bench.strip.setFocus()
    bench.strip.choose(ids[2])
    rest(qtbot, window, settle)
    key(window, "Insert")
    settle(window.desk)
    assert bench.right.currentWidget() is bench.entry
    QTest.keyClicks(QApplication.focusWidget(), "detent spring")
    key(window, "Return")
    rest(qtbot, window, settle)
    assert names(window)[2] == "detent spring"
    assert bench.strip.rows.row_at(2).removal.number == "2a"


def test_enter_on_a_line_opens_it_to_be_corrected(qtbot, window, ids, settle):
    bench = window.work.bench
    bench.strip.setFocus()
    bench.strip.choose(ids[1])
    rest(qtbot, window, settle)
    key(window, "Return")
    settle(window.desk)
    assert bench.right.currentWidget() is bench.entry
    assert bench.entry.removal_id == ids[1]


def test_letters_typed_on_the_strip_go_into_the_one_field(window):
    window.work.bench.strip.setFocus()
    QTest.keyClicks(window.work.bench.strip, "d")
    QTest.keyClicks(QApplication.focusWidget(), "owel")
    assert window.field.text == "dowel"


def test_walking_the_strip_leaves_the_keys_on_the_strip(qtbot, window, ids, settle):
    strip = window.work.bench.strip
    strip.setFocus()
    strip.choose(ids[4])
    rest(qtbot, window, settle)
    key(window, "Down")
    rest(qtbot, window, settle)
    assert strip.chosen_id == 0
    assert strip.hasFocus()


# Stages and jobs


@pytest.mark.parametrize("stage", STAGES)
def test_every_stage_is_reached_by_its_key(window, settle, stage):
    key(window, f"Alt+{STAGES.index(stage) + 1}")
    settle(window.desk)
    assert window.stages.current == stage
    assert window.work.stage == stage


def test_arrows_walk_the_stages(window, settle):
    window.stages.words["Strip"].setFocus()
    key(window, "Right")
    settle(window.desk)
    assert window.stages.current == "Containers"
    assert window.stages.words["Containers"].hasFocus()


# the platform without a screen cannot raise a menu's window, and says so
@pytest.mark.qt_log_ignore("This plugin does not support")
def test_another_job_is_chosen_from_the_title(window, store, settle):
    pump = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    services.strip.log_removal(store, pump, Entry("impeller"))
    window.work._ask_jobs()
    settle(window.desk)
    window.title.open_menu()
    action = next(a for a in window.title._menu.actions() if "Pump" in a.text())
    action.trigger()
    window.title._menu.close()
    settle(window.desk)
    assert window.desk.job_id == pump
    assert names(window) == ["impeller"]
    assert window.counts.text == "1 off"


def test_a_word_finds_a_part_of_another_job(qtbot, window, store, settle):
    pump = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    impeller = services.strip.log_removal(store, pump, Entry("impeller")).new_id
    key(window, "Alt+7")
    settle(window.desk)
    type_line(window, "impel")
    settle(window.desk)
    key(window, "Return")
    rest(qtbot, window, settle)
    assert window.desk.job_id == pump
    assert window.work.bench.card.removal_id == impeller


# Scans


@pytest.mark.parametrize("stage", ["Strip", "Build", "Renew"])
def test_a_scan_anywhere_opens_the_card(qtbot, window, store, ids, settle, stage):
    window.work.go_to(stage)
    settle(window.desk)
    window.work.focus_field()
    scan(window.windowHandle(), code_of(store, ids[3]))
    rest(qtbot, window, settle)
    bench = window.work.bench
    assert window.work.page is bench
    assert bench.card.removal_id == ids[3]
    assert bench.right.currentWidget() is bench.card
    assert bench.strip.chosen_id == ids[3]
    assert window.field.text == ""


def test_a_scanned_container_is_shown_among_the_containers(window, store, job_id, settle):
    from bagtag.domain.model import ContainerKind

    bag = services.containers.add_container(store, job_id, ContainerKind.BAG, "12").new_id
    code = services.containers.list_containers(store, job_id)[0].code
    scan(window.windowHandle(), code)
    settle(window.desk)
    assert window.stages.current == "Containers"
    assert window.work.page.chosen == bag


def blank_dialog(qtbot, window):
    qtbot.waitUntil(lambda: bool(window.findChildren(BlankTagDialog)))
    return window.findChildren(BlankTagDialog)[0]


def press(dialog, words):
    next(b for b in dialog.findChildren(QPushButton) if b.text().startswith(words)).click()


def test_a_blank_tag_is_hung_on_the_open_part(qtbot, window, store, ids, settle):
    window.work.show_removal(ids[1])
    rest(qtbot, window, settle)
    _, made = services.tags.make_blank(store, 1)
    scan(window.windowHandle(), made[0])
    settle(window.desk)
    press(blank_dialog(qtbot, window), "On 2 shift shaft")
    settle(window.desk)
    assert services.tags.look_up(store, made[0]).removal_id == ids[1]


def test_a_blank_tag_waits_for_the_next_line(qtbot, window, store, settle):
    _, made = services.tags.make_blank(store, 1)
    scan(window.windowHandle(), made[0])
    settle(window.desk)
    press(blank_dialog(qtbot, window), "On the next entry")
    window.activateWindow()  # no window manager does it here
    qtbot.waitUntil(window.isActiveWindow)
    settle(window.desk)
    type_line(window, "dowel")
    key(window, "Return")
    settle(window.desk)
    found = services.tags.look_up(store, made[0])
    assert services.strip.get_removal(store, found.removal_id).name == "dowel"


def test_a_blank_tag_makes_a_bag(qtbot, window, store, job_id, settle):
    _, made = services.tags.make_blank(store, 1)
    scan(window.windowHandle(), made[0])
    settle(window.desk)
    press(blank_dialog(qtbot, window), "On a new bag")
    settle(window.desk)
    found = services.tags.look_up(store, made[0])
    assert services.containers.get_container(store, found.container_id).label == "bag 1"


def test_a_strange_code_is_said_and_stays_until_it_is_put_away(window, settle):
    scan(window.windowHandle(), "A2C4ER")
    settle(window.desk)
    assert "no tag of this store" in window.message.text
    assert window.message.is_trouble
    window.message.dismiss.click()
    assert window.message.text == ""


@pytest.mark.parametrize("fits", [True, False])
def test_twins_are_compared_by_two_scans(qtbot, window, store, ids, settle, fits):
    _, (first, second) = services.tags.make_twins(store, ids[0])
    _, (_, other) = services.tags.make_twins(store, ids[1])
    scan(window.windowHandle(), first)
    rest(qtbot, window, settle)
    assert "Scan the other one" in window.message.text
    scan(window.windowHandle(), second if fits else other, start=20_000)
    rest(qtbot, window, settle)
    card = window.work.bench.card
    assert window.work.bench.right.currentWidget() is card
    assert card.match.isVisible()
    assert card.match.word.text() == ("Match" if fits else "No match")


def test_a_typed_code_does_the_same_as_a_scan(qtbot, window, store, ids, settle):
    type_line(window, codes.show(code_of(store, ids[2])).lower())
    key(window, "Return")
    rest(qtbot, window, settle)
    assert window.work.bench.card.removal_id == ids[2]
    assert window.field.text == ""


# The house


@pytest.mark.parametrize("stage", STAGES)
def test_every_control_that_takes_keys_has_a_name(qtbot, window, ids, settle, stage):
    window.work.go_to(stage)
    if stage == "Build":
        window.work.bench.show_removal(ids[2])
    rest(qtbot, window, settle)
    nameless = [
        f"{type(widget).__name__} in {type(widget.parent()).__name__}"
        for widget in window.findChildren(QWidget)
        if widget.isVisible()
        and widget.focusPolicy() != Qt.FocusPolicy.NoFocus
        and widget.focusProxy() is None
        and not QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)
    ]
    assert nameless == []


@pytest.mark.parametrize("size", [(1280, 800), (1024, 600)])
def test_it_fits_the_screens_of_a_bench(window, settle, size):
    window.resize(*size)
    for stage in STAGES:
        window.work.go_to(stage)
        settle(window.desk)
        assert (window.width(), window.height()) == size, stage


def test_the_window_dies_when_it_is_dropped(qtbot, store, ids, settle):
    window = open_window(qtbot, store, settle)
    for stage in ("Build", "Strip"):
        window.work.go_to(stage)
        settle(window.desk)
    close_window(window)
    gone = [weakref.ref(window), weakref.ref(window.work), weakref.ref(window.work.bench)]
    window.desk.deleteLater()
    window.deleteLater()
    del window
    QApplication.sendPostedEvents(None, 52)
    gc.collect()
    assert [ref() for ref in gone if ref() is not None] == []


def test_a_fault_is_said_in_one_sentence_and_logged(qtbot, store, ids, caplog):
    made = program.Program(QApplication.instance(), lambda: store, "Ada")
    qtbot.addWidget(made.window)
    made.fault(ValueError, ValueError("broken"), None)
    assert made.window.message.text == program.FAULT
    assert "broken" in caplog.text
    QApplication.instance().aboutToQuit.disconnect(made.end)
    made.window.stop()
    made.window.close()
    made.deleteLater()
