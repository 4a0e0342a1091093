"""The closing count as a sum one can read across the bench: off = back + renewed + scrapped."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.ui import fonts
from bagtag.ui.theme import SMALL, current

if TYPE_CHECKING:
    from bagtag.services.closing import ClosingCount

HEIGHT, LEAST = 150, 96


class ClosingSum(QWidget):
    """Four figures with their words; the sign between is = when it adds up, else ≠."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._figures: list[tuple[int, str]] = []
        self._sign = "="
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Maximum)

    def show_count(self, count: "ClosingCount") -> None:
        self._figures = [
            (count.off, "off"),
            (count.back, "back"),
            (count.renewed, "renewed"),
            (count.scrapped, "scrapped"),
        ]
        self._sign = "=" if count.adds_up else "≠"
        self.setAccessibleName(self.text())
        self.update()

    def text(self) -> str:
        """`18 off = 12 back + 5 renewed + 1 scrapped`, in pieces."""
        said = [f"{figure} {word}" for figure, word in self._figures]
        return f"{said[0]} {self._sign} {' + '.join(said[1:])}" if said else ""

    def sizeHint(self) -> QSize:
        return QSize(600, HEIGHT)

    def minimumSizeHint(self) -> QSize:
        return QSize(320, LEAST)

    def paintEvent(self, _: QPaintEvent) -> None:
        if not self._figures:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = current()
        cell, sign = self._widths()
        left = 0.0
        for index, (figure, word) in enumerate(self._figures):
            if index:
                self._sign_at(painter, QRectF(left, 0, sign, self.height() - 34), index)
                left += sign
            whole = index == 0
            box = QRectF(left, 2, cell, self.height() - 4)
            painter.setPen(QPen(colours.ink if whole else colours.line, 2 if whole else 1))
            painter.setBrush(colours.card)
            painter.drawRoundedRect(box.adjusted(1, 1, -1, -1), 8, 8)
            self._figure(painter, box, figure, word)
            left += cell
        painter.end()

    def _widths(self) -> tuple[float, float]:
        """Of a figure's box and of a sign, so that four and three fill the width."""
        sign = min(56.0, self.width() * 0.07)
        return min(230.0, (self.width() - 3 * sign) / 4), sign

    def _figure(self, painter: QPainter, box: QRectF, figure: int, word: str) -> None:
        colours = current()
        centre = Qt.AlignmentFlag.AlignCenter
        painter.setPen(colours.ink)
        painter.setFont(_fitting(str(figure), box.width() - 16, box.height() - 38))
        painter.drawText(box.adjusted(0, 0, 0, -34), centre, str(figure))
        painter.setPen(colours.muted)
        painter.setFont(fonts.font(16))
        painter.drawText(box.adjusted(0, box.height() - 46, 0, -10), centre, word)

    def _sign_at(self, painter: QPainter, box: QRectF, index: int) -> None:
        colours = current()
        wrong = index == 1 and self._sign != "="
        painter.setPen(QColor(colours.accent if wrong else colours.ink))
        painter.setFont(fonts.font(36, bold=True))
        sign = self._sign if index == 1 else "+"
        painter.drawText(box.adjusted(0, 18, 0, 18), Qt.AlignmentFlag.AlignCenter, sign)


def _fitting(text: str, room: float, high: float) -> QFont:
    """The largest of the figures' sizes that has room."""
    size = 64
    while size > SMALL and (len(text) * size * 0.6 > room or size > high):
        size -= 4
    return fonts.font(size, bold=True)
