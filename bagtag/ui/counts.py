"""How far the job is, in three figures: "31 off, 3 back, 2 away"."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.ui import fonts, theme


class Counts(QWidget):
    """Figures that are nought are left out."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.text = ""
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_counts(self, off: int, back: int, away: int) -> None:
        pairs = ((off, "off"), (back, "back"), (away, "away"))
        self.text = ", ".join(f"{count} {word}" for count, word in pairs if count)
        self.setAccessibleName(self.text)
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(QFontMetrics(fonts.font()).horizontalAdvance(self.text) + 2, theme.TOUCH)

    def paintEvent(self, _: QPaintEvent) -> None:
        if not self.text:
            return
        painter = QPainter(self)
        painter.setFont(fonts.font())
        painter.setPen(QPen(theme.current().muted))
        painter.drawText(QPointF(0, self.height() / 2 + 6), self.text)
        painter.end()
