"""A whole window on a store of its own, driven by keys alone."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag.store.engine import Location


class Bench:
    """A window and the hands at its keyboard."""

    def __init__(self, qtbot, folder: Path) -> None:
        self.qtbot = qtbot
        self.folder = folder
        self.start()

    def start(self) -> None:
        """Open the program on the store, as after a night or a power cut."""
        from bagtag.bootstrap import make_window

        self.is_open = True
        self.window, self.desk = make_window(Location.in_folder(self.folder), "Ada")
        self.qtbot.addWidget(self.window, before_close_func=self._before_close)
        self.window.show()
        self.qtbot.waitUntil(lambda: self.window.work is not None, timeout=20_000)
        self.window.activateWindow()
        self.settle()

    def stop(self) -> None:
        """Close the window and let go of the store."""
        if self.is_open:
            self.settle()
            self.window.stop()
            self.desk.close()
            self.window.close()
        self.is_open = False

    def _before_close(self, _: object) -> None:
        self.stop()

    def settle(self) -> None:
        """Until nothing is under way behind the window."""
        for _ in range(3):
            self.qtbot.waitUntil(lambda: self.desk.idle, timeout=30_000)
            self.qtbot.wait(5)

    def type(self, text: str) -> None:
        QTest.keyClicks(QApplication.focusWidget(), text)

    def press(self, key: Qt.Key, modifier=Qt.KeyboardModifier.NoModifier) -> None:
        QTest.keyClick(QApplication.focusWidget() or self.window, key, modifier)
        self.settle()

    def control(self, key: Qt.Key) -> None:
        self.press(key, Qt.KeyboardModifier.ControlModifier)

    def stage(self, number: int) -> None:
        """Alt and the number of a stage, counted along the top."""
        self.press(Qt.Key(Qt.Key.Key_0 + number), Qt.KeyboardModifier.AltModifier)

    def open_job(self, *lines: str) -> None:
        """The first job, and its log."""
        self.press(Qt.Key.Key_Return)
        self.type("Walking tractor")
        self.press(Qt.Key.Key_Return)
        self.stage(2)
        for line in lines:
            self.line(line)

    def line(self, text: str) -> None:
        """Write in the one field and press Enter."""
        self.control(Qt.Key.Key_L)
        self.type(text)
        self.settle()
        self.press(Qt.Key.Key_Return)

    def scan(self, code: str) -> None:
        """A scanner that types like a keyboard, its Enter behind the code."""
        handle = self.window.windowHandle()
        for symbol in code:
            QTest.keyClick(handle, Qt.Key(ord(symbol)))
        QTest.keyClick(handle, Qt.Key.Key_Return)
        self.settle()


@pytest.fixture
def bench(qtbot, tmp_path):
    return Bench(qtbot, tmp_path / "store")
