"""A scanner that types like a keyboard, heard anywhere in the program.

A key comes by the application three times: as a shortcut to be, to the window, to the widget. Only
the window's turn counts here. What a scan has typed into a field is taken back out of it, and its
Enter presses nothing.
"""

import logging
from collections import deque
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QTextCursor, QWindow
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QSpinBox,
    QWidget,
)

from bagtag import services

PAUSE = 130
"""Milliseconds without a key after which a scan without an end key is taken as whole."""
_KEY_PRESS = QEvent.Type.KeyPress


@dataclass(frozen=True, slots=True)
class Noted:
    """A field as it stood before a key."""

    field: QLineEdit | QPlainTextEdit
    text: str
    anchor: int
    cursor: int

    def put_back(self) -> None:
        if isinstance(self.field, QLineEdit):
            self.field.setText(self.text)
            self.field.setCursorPosition(self.anchor)
            if self.anchor != self.cursor:
                self.field.setSelection(self.anchor, self.cursor - self.anchor)
            return
        self.field.setPlainText(self.text)
        cursor = self.field.textCursor()
        cursor.setPosition(self.anchor)
        cursor.setPosition(self.cursor, QTextCursor.MoveMode.KeepAnchor)
        self.field.setTextCursor(cursor)


class Scanner(QObject):
    """Listens until it is stopped; `scanned` gives the bare code."""

    scanned = Signal(str)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.wedge = services.scanning.wedge()
        self.armed = True
        self._last = 0.0
        self._noted: deque[Noted | None] = deque(maxlen=self.wedge.LONGEST + 1)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE)
        self._pause.timeout.connect(self._flush)
        self._app().installEventFilter(self)

    def stop(self) -> None:
        self.armed = False
        self._pause.stop()
        self._app().removeEventFilter(self)

    @staticmethod
    def _app() -> QCoreApplication:
        app = QApplication.instance()
        assert app is not None
        return app

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if not self.armed or event.type() != _KEY_PRESS or not isinstance(watched, QWindow):
            return False
        assert isinstance(event, QKeyEvent)
        try:
            return self._hear(float(event.timestamp()), event.text())
        except Exception:
            self.stop()  # a fault here must not keep a person from typing
            logging.getLogger(__name__).exception("the scanner is not heard any more")
            return False

    def _hear(self, time_ms: float, text: str) -> bool:
        verdict = self.wedge.feed(time_ms, text)
        if verdict.code:
            self._take(verdict.code, verdict.take_back)
        if text and not verdict.swallow:
            self._noted.append(_note(QApplication.focusWidget()))
            self._last = time_ms
            self._pause.start()
        return verdict.swallow

    def _flush(self) -> None:
        verdict = self.wedge.flush(self._last + PAUSE)
        if verdict.code:
            self._take(verdict.code, verdict.take_back)

    def _take(self, code: str, take_back: int) -> None:
        self._pause.stop()
        noted = self._noted[-take_back] if 0 < take_back <= len(self._noted) else None
        self._noted.clear()
        if noted is not None:
            noted.put_back()
        self.scanned.emit(code)


def _note(widget: QWidget | None) -> Noted | None:
    """A field that takes text, as it stands; None for anything else."""
    if isinstance(widget, QComboBox | QSpinBox):
        widget = widget.lineEdit()
    if isinstance(widget, QLineEdit):
        start = widget.selectionStart()
        cursor = widget.cursorPosition()
        if start < 0:
            return Noted(widget, widget.text(), cursor, cursor)
        return Noted(widget, widget.text(), start, widget.selectionEnd())
    if isinstance(widget, QPlainTextEdit):
        at = widget.textCursor()
        return Noted(widget, widget.toPlainText(), at.anchor(), at.position())
    return None
