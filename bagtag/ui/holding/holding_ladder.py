"""From which day on which steps can go in, as a ladder of bars: one rung for each day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.ui import fonts, theme
from bagtag.ui.holding.holding_words import NAMED, TODAY, named, rung_words, steps

if TYPE_CHECKING:
    from bagtag.services.readiness import HoldingUp, RungRow

HEAD, BAR = 46, 14
"""How high the day and its bar stand, in pixels, above the names."""
AIR = 14
_WRAPPED = int(Qt.TextFlag.TextWordWrap)


@dataclass(frozen=True, slots=True)
class Rung:
    """A day in words, how many steps can go in before it, how many more from then on, and which."""

    said: str
    before: int
    count: int
    names: str


class Ladder(QWidget):
    """Bars as long as there are steps, those before in grey, those of the day in the accent; below
    each bar stands what it counts."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.rungs: list[Rung] = []
        self._all = 1
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_rungs(self, found: HoldingUp) -> None:
        before, self.rungs = 0, []
        for row in found.rungs:
            self.rungs.append(_rung(row, before, found))
            before += len(row.steps)
        self._all = max(before, 1)
        said = (f"{one.said}: {steps(one.count)}" for one in self.rungs)
        self.setAccessibleName(", ".join(said))
        told = (f"{one.said}: {one.names}." for one in self.rungs)
        self.setAccessibleDescription(" ".join(told))
        self._fit()
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """As high as the names need at this width."""
        high = sum(self._high(one, self.width()) for one in self.rungs)
        self.setFixedHeight(round(high) + 2)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        top = 0.0
        for one in self.rungs:
            high = self._high(one, self.width())
            self._paint(painter, QRectF(0, top, self.width(), high), one)
            top += high
        painter.end()

    def _high(self, one: Rung, width: float) -> float:
        return HEAD + self._names(one, width).height() + AIR

    def _names(self, one: Rung, width: float) -> QRectF:
        """The room that its names take."""
        room = QRectF(0, 0, width, 10_000)
        return QFontMetricsF(fonts.font(theme.SMALL)).boundingRect(room, _WRAPPED, one.names)

    def _paint(self, painter: QPainter, room: QRectF, one: Rung) -> None:
        colours = theme.current()
        painter.setFont(fonts.font(theme.BODY, bold=True))
        painter.setPen(QPen(colours.ink))
        painter.drawText(QPointF(room.left(), room.top() + 18), one.said)
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop
        painter.setFont(fonts.font(theme.BODY))
        painter.drawText(room, int(right), steps(one.count))
        self._bars(painter, room.translated(0, 26), one)
        painter.setFont(fonts.font(theme.SMALL))
        painter.setPen(QPen(colours.muted))
        painter.drawText(room.adjusted(0, HEAD, 0, 0), _WRAPPED, one.names)

    def _bars(self, painter: QPainter, at: QRectF, one: Rung) -> None:
        colours = theme.current()
        painter.setPen(Qt.PenStyle.NoPen)
        shares = ((1.0, colours.line), ((one.before + one.count) / self._all, colours.accent))
        for share, colour in (*shares, (one.before / self._all, colours.muted)):
            painter.setBrush(colour)
            if share:
                wide = max(at.width() * share, BAR)
                painter.drawRoundedRect(QRectF(0, at.top(), wide, BAR), 4, 4)


def _rung(row: RungRow, before: int, found: HoldingUp) -> Rung:
    names = named(row.steps, TODAY if row.day == found.today else NAMED)
    return Rung(rung_words(row.day, found.today), before, len(row.steps), names)
