"""The line of the one field: a line edit in a frame, what Enter will do written at its right."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Signal
from PySide6.QtGui import QFocusEvent, QFontMetrics, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QApplication, QFrame, QHBoxLayout, QLabel, QLineEdit, QWidget

from bagtag.ui import fonts, theme

ESCAPE, DOWN, UP = 0x01000000, 0x01000015, 0x01000013
ALT = 0x08000000
LIMIT = 500
"""As many characters as fit a line of tape with room to spare."""


class TapeLine(QLineEdit):
    """Keys that lead out of the line are signals."""

    stepped = Signal(int)
    escaped = Signal()
    tabbed = Signal()
    chips_wanted = Signal()
    """Alt and Down: the keys go to the chips."""
    focus_moved = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.tab_fills = False
        self.setProperty("bare", "true")
        self.setFont(fonts.font(theme.HEAD))
        self.setMaxLength(LIMIT)
        self.setAccessibleName("Write it as on tape, scan a tag, or type a word to find")

    def event(self, event: QEvent) -> bool:
        """An empty line has nothing of its own to undo: the key then takes back the last act."""
        if event.type() == QEvent.Type.ShortcutOverride and not self.text():
            keys = QKeySequence.StandardKey
            if isinstance(event, QKeyEvent) and (
                event.matches(keys.Undo) or event.matches(keys.Redo)
            ):
                event.ignore()
                return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key == DOWN and event.modifiers().value & ALT:
            self.chips_wanted.emit()
        elif key == ESCAPE:
            self.escaped.emit()
        elif key in (UP, DOWN):
            self.stepped.emit(1 if key == DOWN else -1)
        else:
            super().keyPressEvent(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        if forward and self.tab_fills:
            self.tabbed.emit()
            return True
        return super().focusNextPrevChild(forward)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.focus_moved.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.focus_moved.emit()


class LineFrame(QFrame):
    """The frame around the line. Its hint gives way to a long line."""

    def __init__(self, hint: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFixedHeight(58)
        self.setProperty("surface", "field")
        self.setProperty("lit", "true")  # it has the focus when the window opens
        self.line = TapeLine(self)
        self.label = QLabel(hint, self)
        self.label.setProperty("tone", "muted")
        self.line.setAccessibleDescription(hint)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 4, 18, 4)
        row.addWidget(self.line, 1)
        row.addWidget(self.label)
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._light)
        self.line.textChanged.connect(self._make_room)

    @property
    def hint(self) -> str:
        return self.label.text()

    def set_hint(self, hint: str) -> None:
        from PySide6.QtCore import Qt

        if hint == self.hint:
            return
        self.label.setTextFormat(Qt.TextFormat.PlainText)
        self.label.setText(hint)
        self.line.setAccessibleDescription(hint)
        self._make_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        typed = QFontMetrics(self.line.font()).horizontalAdvance(self.line.text())
        hint = QFontMetrics(self.label.font()).horizontalAdvance(self.hint)
        fits = typed + hint + 80 < self.width()
        if self.label.isHidden() is fits:
            self.label.setVisible(fits)

    def _light(self) -> None:
        theme.mark(self, lit="true" if self.line.hasFocus() else "false")
