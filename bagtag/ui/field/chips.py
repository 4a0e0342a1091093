"""Chips: what was understood of a line, each in its own rounded box."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.ui import fonts, theme

HEIGHT, PAD, GAP = 28, 12, 8


class ChipRow(QWidget):
    """One row of chips and, behind them, a word on what else there is.

    A chip in outline stands for words that were only kept, not understood.
    """

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.chips: tuple[tuple[str, bool], ...] = ()
        self.tail = ""
        self.sentence = ""
        self.setFixedHeight(HEIGHT + 8)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_chips(self, chips: Sequence[tuple[str, bool]], tail: str = "") -> None:
        """Texts, each with whether it was understood."""
        self.chips, self.tail, self.sentence = tuple(chips), tail, ""
        self.setAccessibleDescription(", ".join(text for text, _ in chips))
        self.update()

    def show_sentence(self, sentence: str) -> None:
        """What is wrong, in place of the chips."""
        self.chips, self.tail, self.sentence = (), "", sentence
        self.setAccessibleDescription(sentence)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(400, HEIGHT + 8)

    def paintEvent(self, _: QPaintEvent) -> None:
        if not (self.chips or self.tail or self.sentence):
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = fonts.font(theme.BODY if self.sentence else 15)
        painter.setFont(font)
        metrics, colours = QFontMetrics(font), theme.current()
        if self.sentence:
            painter.setPen(QPen(colours.accent))
            painter.drawText(QPointF(PAD, _base(metrics)), self.sentence)
        else:
            left = self._paint_chips(painter, metrics, colours)
            painter.setPen(QPen(colours.muted))
            painter.drawText(QPointF(left + 4, _base(metrics)), self.tail)
        painter.end()

    def _paint_chips(
        self, painter: QPainter, metrics: QFontMetrics, colours: theme.Colours
    ) -> float:
        left = float(PAD)
        room = self.width() - metrics.horizontalAdvance(f"  {self.tail}") - 48
        for place, (text, understood) in enumerate(self.chips):
            width = metrics.horizontalAdvance(text) + 2 * PAD
            if left + width > room and place:
                painter.setPen(QPen(colours.muted))
                more = f"+{len(self.chips) - place}"
                painter.drawText(QPointF(left, _base(metrics)), more)
                return left + metrics.horizontalAdvance(more) + GAP
            box = QRectF(left + 0.5, 4.5, width, HEIGHT - 1)
            painter.setPen(QPen(colours.tape if understood else colours.muted, 1))
            painter.setBrush(colours.tape if understood else colours.paper)
            painter.drawRoundedRect(box, 14, 14)
            painter.setPen(QPen(colours.ink if understood else colours.muted))
            painter.drawText(QPointF(left + PAD, _base(metrics)), text)
            left += width + GAP
        return left


def _base(metrics: QFontMetrics) -> float:
    return 4 + (HEIGHT + metrics.ascent() - metrics.descent()) / 2
