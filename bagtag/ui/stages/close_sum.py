"""The closing count as a sum one can read across the bench: off = back + renewed + scrapped."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.ui import fonts
from bagtag.ui.theme import BODY, SMALL, current

if TYPE_CHECKING:
    from bagtag.domain.closing_rows import Pieces

HEIGHT, LOW, LEAST = 150, 100, 56
"""As high as it likes to be, where a figure's word has no room below it, and at the least."""
ROOMY = 480
"""The height of a page, in pixels, that has room for figures with their words below."""
_CENTRE = Qt.AlignmentFlag.AlignCenter


class ClosingSum(QWidget):
    """Four figures with their words; the sign between is = when it adds up, else ≠."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._figures: list[tuple[int, str]] = []
        self._sign = "="
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Maximum)

    def show_sum(self, pieces: "Pieces") -> None:
        self._figures = [
            (pieces.off, "off"),
            (pieces.back, "back"),
            (pieces.renewed, "renewed"),
            (pieces.scrapped, "scrapped"),
        ]
        self._sign = "=" if pieces.adds_up else "≠"
        self.setAccessibleName(self.text())
        self.update()

    def text(self) -> str:
        """`18 off = 12 back + 5 renewed + 1 scrapped`, in pieces."""
        said = [f"{figure} {word}" for figure, word in self._figures]
        return f"{said[0]} {self._sign} {' + '.join(said[1:])}" if said else ""

    def fit(self, room: int) -> None:
        """Take one line where the page has no more than this many pixels in height."""
        self.setMaximumHeight(HEIGHT if room >= ROOMY else LEAST)

    def sizeHint(self) -> QSize:
        return QSize(600, HEIGHT)

    def minimumSizeHint(self) -> QSize:
        return QSize(320, LEAST)

    def paintEvent(self, _: QPaintEvent) -> None:
        if not self._figures:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        cell, sign = self._widths()
        left = 0.0
        for index, (figure, word) in enumerate(self._figures):
            if index:
                self._sign_at(painter, QRectF(left, 0, sign, self.height()), index)
                left += sign
            box = QRectF(left, 2, cell, self.height() - 4)
            self._frame(painter, box, is_whole=index == 0)
            paint = self._beside if self.height() < LOW else self._above
            paint(painter, box, str(figure), word)
            left += cell
        painter.end()

    def _frame(self, painter: QPainter, box: QRectF, *, is_whole: bool) -> None:
        colours = current()
        painter.setPen(QPen(colours.ink if is_whole else colours.line, 2 if is_whole else 1))
        painter.setBrush(colours.card)
        painter.drawRoundedRect(box.adjusted(1, 1, -1, -1), 8, 8)

    def _widths(self) -> tuple[float, float]:
        """Of a figure's box and of a sign, so that four and three fill the width."""
        sign = min(56.0, self.width() * 0.07)
        return min(230.0, (self.width() - 3 * sign) / 4), sign

    def _above(self, painter: QPainter, box: QRectF, figure: str, word: str) -> None:
        """The figure, and below it its word."""
        painter.setPen(current().ink)
        painter.setFont(_fitting(figure, box.width() - 16, box.height() - 38))
        painter.drawText(box.adjusted(0, 0, 0, -34), _CENTRE, figure)
        painter.setPen(current().muted)
        painter.setFont(fonts.font(BODY))
        painter.drawText(box.adjusted(0, box.height() - 46, 0, -10), _CENTRE, word)

    def _beside(self, painter: QPainter, box: QRectF, figure: str, word: str) -> None:
        """The figure and its word in one line."""
        small = fonts.font(BODY)
        of_word = QFontMetricsF(small).horizontalAdvance(word)
        large = _fitting(figure, box.width() - of_word - 30, min(box.height(), 40))
        wide = QFontMetricsF(large).horizontalAdvance(figure)
        left = box.center().x() - (wide + 10 + of_word) / 2
        base = box.center().y() + QFontMetricsF(large).capHeight() / 2
        painter.setPen(current().ink)
        painter.setFont(large)
        painter.drawText(QPointF(left, base), figure)
        painter.setPen(current().muted)
        painter.setFont(small)
        painter.drawText(QPointF(left + wide + 10, base), word)

    def _sign_at(self, painter: QPainter, box: QRectF, index: int) -> None:
        colours = current()
        wrong = index == 1 and self._sign != "="
        painter.setPen(QColor(colours.accent if wrong else colours.ink))
        painter.setFont(fonts.font(36, bold=True))
        sign = self._sign if index == 1 else "+"
        painter.drawText(box, _CENTRE, sign)


def _fitting(text: str, room: float, high: float) -> QFont:
    """The largest of the figures' sizes that has room."""
    size = 64
    while size > SMALL and (len(text) * size * 0.6 > room or size > high):
        size -= 4
    return fonts.font(size, bold=True)
