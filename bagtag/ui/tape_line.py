"""The line of the one field: a line edit in a frame, what Enter will do written at its right."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Signal
from PySide6.QtGui import QFocusEvent, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from bagtag.ui import fonts, theme

ESCAPE, DOWN, UP = 0x01000000, 0x01000015, 0x01000013
LIMIT = 500
"""As many characters as fit a line of tape with room to spare."""


class TapeLine(QLineEdit):
    """Keys that lead out of the line are signals."""

    stepped = Signal(int)
    escaped = Signal()
    tabbed = Signal()
    focus_moved = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.tab_fills = False
        self.setProperty("bare", "true")
        self.setFont(fonts.font(theme.HEAD))
        self.setMaxLength(LIMIT)
        self.setAccessibleName("Write it as on tape, scan a tag, or type a word to find")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key == ESCAPE:
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


class LineFrame(QWidget):
    """The frame around the line. Its hint gives way to a long line."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.hint = ""
        self.setFixedHeight(58)
        self.line = TapeLine(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 4, 18, 4)
        row.addWidget(self.line)
        self.setFocusProxy(self.line)
        self.line.focus_moved.connect(self.update)
        self.line.textChanged.connect(self.update)

    def set_hint(self, hint: str) -> None:
        self.hint = hint
        self.line.setAccessibleDescription(hint)
        self._leave_room()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(600, 58)

    def resizeEvent(self, event: object) -> None:
        super().resizeEvent(event)  # type: ignore[arg-type]  # PySide hands a QResizeEvent
        self._leave_room()

    def paintEvent(self, _: QPaintEvent) -> None:
        colours = theme.current()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colours.accent if self.line.hasFocus() else colours.ink, 2))
        painter.setBrush(colours.card)
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 8, 8)
        width = self._hint_width()
        if width:
            painter.setFont(fonts.font())
            painter.setPen(colours.muted)
            painter.drawText(QPointF(self.width() - 18 - width, self.height() / 2 + 6), self.hint)
        painter.end()

    def _hint_width(self) -> int:
        """How wide the hint is; 0 where the line needs its room."""
        width = QFontMetrics(fonts.font()).horizontalAdvance(self.hint)
        typed = QFontMetrics(self.line.font()).horizontalAdvance(self.line.text())
        return width if typed + width + 80 < self.width() else 0

    def _leave_room(self) -> None:
        width = self._hint_width()
        self.line.setTextMargins(0, 0, width + 16 if width else 0, 0)
