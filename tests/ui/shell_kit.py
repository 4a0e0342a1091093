"""What the tests of the window share: a window on a store, a way to type and to scan."""

import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeyEvent, QWindow
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.ui.desk import Desk
from bagtag.ui.window import MainWindow

ENTER = Qt.Key.Key_Return
NAMES = ("cover, clutch side", "shift shaft", "shift drum", "shift fork L", "shift fork R")


def log(store, job_id: int, *names: str) -> list[int]:
    """Lines of the log; returns their ids."""
    return [services.strip.log_removal(store, job_id, Entry(n), who="Ada").new_id for n in names]


def open_window(qtbot, store, settle, who="Ada") -> MainWindow:
    """A shown window on an open store, with nothing under way."""
    desk = Desk(who)
    window = MainWindow(desk)
    qtbot.addWidget(window)
    window.show()
    window.finish()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    desk.open(lambda: store)
    qtbot.waitUntil(lambda: window.work is not None)
    settle(desk)
    return window


def close_window(window: MainWindow) -> None:
    is_there = shiboken6.isValid(window)  # what waits at a test's end may have seen it off
    if is_there:
        window.stop()
    window.desk._store = None  # the fixture closes the store
    window.desk.close()
    if is_there:
        window.close()


def rest(qtbot, window: MainWindow, settle) -> None:
    """Let a choice in the strip come to rest, and everything that follows from it."""
    qtbot.wait(90)
    settle(window.desk)


def type_line(window: MainWindow, text: str) -> None:
    line = window.field.frame.line
    line.setFocus()
    QTest.keyClicks(line, text)


def key(window: MainWindow, name: str) -> None:
    """Press a key where the focus is: "Ctrl+Z", "Alt+Up", "Return"."""
    held = Qt.KeyboardModifier.NoModifier
    *modifiers, last = name.split("+")
    for word in modifiers:
        held |= {
            "Ctrl": Qt.KeyboardModifier.ControlModifier,
            "Alt": Qt.KeyboardModifier.AltModifier,
            "Shift": Qt.KeyboardModifier.ShiftModifier,
        }[word]
    QTest.keyClick(QApplication.focusWidget() or window, getattr(Qt.Key, f"Key_{last}"), held)


def scan(window: QWindow, code: str, *, gap: int = 12, end: str = "\r", start: int = 5000) -> None:
    """A scanner's keys, as the system hands them to a window: in its own time, with an Enter."""
    for place, letter in enumerate(code + end):
        is_end = letter in "\r\n"
        code_of_key = ENTER if is_end else Qt.Key(ord(letter.upper()))
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            event = QKeyEvent(kind, code_of_key, Qt.KeyboardModifier.NoModifier, letter)
            event.setTimestamp(start + gap * place)
            QCoreApplication.sendEvent(window, event)
