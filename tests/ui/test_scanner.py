"""A scanner that types: heard anywhere, out of every field, and its Enter presses nothing."""

import logging

import pytest
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QPushButton, QSpinBox, QVBoxLayout, QWidget

from bagtag.domain import codes
from bagtag.ui.scanning.scanner import PAUSE, Scanner
from tests.ui.shell_kit import scan

CODE = "A2C4ER"
PLAIN = "H5J6KC"


class Bench(QWidget):
    """A window with things that take keys."""

    def __init__(self):
        super().__init__()
        self.line, self.note, self.count = QLineEdit(), QPlainTextEdit(), QSpinBox()
        self.button = QPushButton("Delete everything")
        self.button.setDefault(True)
        self.pressed, self.entered = [], []
        column = QVBoxLayout(self)
        for widget in (self.line, self.note, self.count, self.button):
            column.addWidget(widget)
        self.button.clicked.connect(self.press)
        self.line.returnPressed.connect(self.enter)

    def press(self):
        self.pressed.append(True)

    def enter(self):
        self.entered.append(self.line.text())


@pytest.fixture
def bench(qtbot):
    made = Bench()
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


@pytest.fixture
def scanner(bench):
    made = Scanner(bench)
    made.heard = []
    made.scanned.connect(made.heard.append)
    yield made
    made.stop()


def test_the_codes_of_these_tests_are_right():
    assert codes.is_valid(CODE)
    assert codes.is_valid(PLAIN)


def test_a_scan_into_a_line_is_taken_out_of_it_again(bench, scanner):
    bench.line.setText("shift fork")
    bench.line.setFocus()
    bench.line.setCursorPosition(5)
    scan(bench.windowHandle(), CODE)
    assert scanner.heard == [CODE]
    assert bench.line.text() == "shift fork"
    assert bench.line.cursorPosition() == 5
    assert bench.entered == []


def test_a_selection_that_the_scan_wrote_over_comes_back(bench, scanner):
    bench.line.setText("shift fork")
    bench.line.setFocus()
    bench.line.setSelection(6, 4)
    scan(bench.windowHandle(), CODE)
    assert bench.line.text() == "shift fork"
    assert bench.line.selectedText() == "fork"


def test_a_scan_into_a_note_is_taken_out_of_it_again(bench, scanner):
    bench.note.setPlainText("two lines\nof a note")
    bench.note.setFocus()
    scan(bench.windowHandle(), CODE)
    assert scanner.heard == [CODE]
    assert bench.note.toPlainText() == "two lines\nof a note"


def test_a_scan_into_a_number_leaves_the_number(bench, scanner):
    bench.count.setValue(7)
    bench.count.setFocus()
    scan(bench.windowHandle(), CODE)
    assert scanner.heard == [CODE]
    assert bench.count.value() == 7


def test_its_enter_presses_no_button(bench, scanner):
    bench.button.setFocus()
    scan(bench.windowHandle(), CODE)
    assert scanner.heard == [CODE]
    assert bench.pressed == []


def test_each_key_counts_once(bench, scanner):
    bench.line.setFocus()
    scan(bench.windowHandle(), CODE)
    scan(bench.windowHandle(), PLAIN, start=9000)
    assert scanner.heard == [CODE, PLAIN]


def test_a_scanner_without_an_end_key_is_heard_after_a_pause(bench, scanner, qtbot):
    bench.line.setFocus()
    scan(bench.windowHandle(), CODE, end="")
    assert scanner.heard == []
    qtbot.waitUntil(lambda: scanner.heard == [CODE], timeout=10 * PAUSE)
    assert bench.line.text() == ""


def test_a_person_who_types_a_code_keeps_it_in_the_field(bench, scanner):
    bench.line.setFocus()
    scan(bench.windowHandle(), CODE, gap=140)
    assert scanner.heard == []
    assert bench.line.text().upper() == CODE
    assert len(bench.entered) == 1


def test_a_fault_disarms_it_and_typing_goes_on(bench, scanner, caplog):
    def fail(*_):
        raise RuntimeError("broken")

    scanner.wedge.feed = fail
    bench.line.setFocus()
    with caplog.at_level(logging.CRITICAL + 1):
        scan(bench.windowHandle(), CODE)
    assert not scanner.armed
    assert bench.line.text().upper() == CODE
    assert len(bench.entered) == 1
