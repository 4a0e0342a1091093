"""One chip: a rounded box with the words of a piece, and behind them what they were taken for."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QWidget

from bagtag.ui import fonts, theme
from bagtag.ui.field.chip_shown import Shown

HEIGHT, PAD, BETWEEN = 30, 12, 7
TEXT, WORD = 15, theme.SMALL
LONGEST = 300
"""A longer text is cut in sight; its tip and its name have the whole of it."""


class ChipButton(QAbstractButton):
    """The row around it takes its keys."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.shown = Shown("")
        self.worded = True
        self._metrics = QFontMetricsF(fonts.font(TEXT))
        self._small = QFontMetricsF(fonts.font(WORD))
        self._cut = ""
        self.wide = self.short = 0.0
        self._placed = (0, 0)
        self._in_sight = False
        self.hide()
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def show_chip(self, shown: Shown) -> None:
        """Be this chip; `wide` and `short` are then its widths with and without its word."""
        if shown == self.shown:
            return
        self.shown = shown
        self._cut = self._metrics.elidedText(shown.text, Qt.TextElideMode.ElideRight, LONGEST)
        self.short = self._metrics.horizontalAdvance(self._cut) + 2 * PAD
        word = self._small.horizontalAdvance(shown.word) + BETWEEN if shown.word else 0.0
        self.wide = self.short + word
        self.setAccessibleName(shown.spoken)
        self.setToolTip(shown.spoken)
        self.update()

    def place(self, left: float, *, worded: bool) -> None:
        """Stand at a place of the row, with the word or without it."""
        if worded != self.worded:
            self.worded = worded
            self.update()
        width = round(self.wide if worded else self.short)
        if (round(left), width) != self._placed:
            self._placed = round(left), width
            self.setGeometry(round(left), 0, width, theme.TOUCH)
        if not self._in_sight:
            self._in_sight = True
            self.show()

    def put_away(self) -> None:
        if self._in_sight:
            self._in_sight = False
            self.hide()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.ignore()

    def paintEvent(self, _: QPaintEvent) -> None:
        painter, colours = QPainter(self), theme.current()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        understood, focus = self.shown.understood, self.hasFocus()
        edge = colours.accent if focus else colours.tape if understood else colours.muted
        weight = 2.5 if focus else 1.0
        inset = weight / 2
        rim = (self.height() - HEIGHT) / 2 + inset
        box = QRectF(self.rect()).adjusted(inset, rim, -inset, -rim)
        painter.setPen(QPen(edge, weight))
        painter.setBrush(colours.tape if understood else colours.paper)
        painter.drawRoundedRect(box, 14, 14)
        base = (self.height() + self._metrics.ascent() - self._metrics.descent()) / 2
        painter.setFont(fonts.font(TEXT))
        painter.setPen(QPen(colours.ink if understood else colours.muted))
        painter.drawText(QPointF(PAD, base), self._cut)
        if self.worded and self.shown.word:
            painter.setFont(fonts.font(WORD))
            painter.setPen(QPen(colours.muted))
            painter.drawText(QPointF(self.short - PAD + BETWEEN, base), self.shown.word)
        painter.end()
