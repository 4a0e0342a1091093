"""Stripping in the window, by keyboard: logging, moving, undoing."""

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.ui.shell_kit import NAMES, close_window, key, log, open_window, rest, type_line


@pytest.fixture
def ids(store, job_id):
    return log(store, job_id, *NAMES)


@pytest.fixture
def window(qtbot, store, ids, settle):
    made = open_window(qtbot, store, settle)
    yield made
    close_window(made)


def names(window):
    rows = window.work.bench.strip.rows
    return [rows.row_at(place).removal.name for place in range(rows.count)]


def test_a_line_of_tape_is_logged_with_enter(window, settle, store, job_id):
    type_line(window, "hitch peg, renew, bag 12")
    settle(window.desk)
    key(window, "Return")
    settle(window.desk)
    assert names(window)[-1] == "hitch peg"
    assert window.field.text == ""
    assert window.field.next_number == "7"
    assert window.message.text == "Done: log hitch peg."
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
