"""A clock face to click: where the gap, the tab or the dot stood."""

from math import atan2, cos, hypot, pi, sin

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.sentence import hour_words
from bagtag.ui.forms.inks import inks, sized

SIZE = 190
_TURNS = {
    Qt.Key.Key_Right: 0.5,
    Qt.Key.Key_Down: 0.5,
    Qt.Key.Key_Left: -0.5,
    Qt.Key.Key_Up: -0.5,
}


class ClockFace(QWidget):
    """Twelve hours and their halves; arrows turn it by half an hour."""

    chosen = Signal(float)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._hour: float | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Clock face: click the hour, or turn it with the arrow keys")
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    @property
    def hour(self) -> float | None:
        return self._hour

    def set_hour(self, hour: float | None) -> None:
        self._hour = hour
        self.setAccessibleDescription("" if hour is None else hour_words(hour))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(SIZE, SIZE)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        across = event.position().x() - self.width() / 2
        down = event.position().y() - self.height() / 2
        if hypot(across, down) > 8:
            self._choose(hour_at(across, down))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        turn = _TURNS.get(Qt.Key(event.key()))
        if turn is None:
            super().keyPressEvent(event)
        else:
            self._choose(turned(12.0 if self._hour is None else self._hour, turn))

    def _choose(self, hour: float) -> None:
        self.set_hour(hour)
        self.chosen.emit(hour)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_dial(painter)
        self._paint_hours(painter)
        if self._hour is not None:
            self._paint_hand(painter, self._hour)
        painter.end()

    def _paint_dial(self, painter: QPainter) -> None:
        colours = inks()
        painter.setPen(QPen(colours.accent if self.hasFocus() else colours.ink, 2))
        painter.setBrush(colours.card)
        painter.drawEllipse(self._middle(), self._radius(), self._radius())
        painter.setPen(QPen(colours.muted, 1.5))
        for half in range(24):
            inner = 0.94 if half % 2 else 0.90
            painter.drawLine(self._spot(half / 2, inner), self._spot(half / 2, 0.98))

    def _paint_hours(self, painter: QPainter) -> None:
        colours = inks()
        for hour in range(1, 13):
            mine = self._hour == hour
            painter.setFont(sized(self, 16, bold=mine))
            painter.setPen(colours.accent if mine else colours.ink)
            spot = self._spot(hour, 0.76)
            place = QRectF(spot.x() - 16, spot.y() - 12, 32, 24)
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, str(hour))

    def _paint_hand(self, painter: QPainter, hour: float) -> None:
        accent = inks().accent
        painter.setPen(QPen(accent, 5, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        painter.drawLine(self._middle(), self._spot(hour, 0.52))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(accent)
        painter.drawEllipse(self._middle(), 7, 7)
        painter.drawEllipse(self._spot(hour, 0.96), 6, 6)

    def _middle(self) -> QPointF:
        return QPointF(self.width() / 2, self.height() / 2)

    def _radius(self) -> float:
        return min(self.width(), self.height()) / 2 - 8

    def _spot(self, hour: float, out: float) -> QPointF:
        angle = hour / 12 * 2 * pi
        far = self._radius() * out
        return self._middle() + QPointF(sin(angle) * far, -cos(angle) * far)


def hour_at(across: float, down: float) -> float:
    """The nearest half hour to a point right of and below the middle; 12 and up to 12.5."""
    turn = atan2(across, -down) / (2 * pi) * 12
    return _on_dial(round(turn * 2) / 2)


def turned(hour: float, by: float) -> float:
    return _on_dial(hour + by)


def _on_dial(hour: float) -> float:
    """Hours run from 1 to 12.5: half past twelve is 12.5, not 0.5."""
    return hour % 12 if hour % 12 >= 1 else hour % 12 + 12
