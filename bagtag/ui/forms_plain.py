"""Buttons that carry a person's own words: painted, so that no `&` in them is read as a key."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from bagtag.ui.forms import ENTER, TOUCH
from bagtag.ui.forms_inks import inks, sized


class _Plain(QAbstractButton):
    pad = 14
    pixels = 16

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setText(text)
        self.setAccessibleName(text)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (*ENTER, Qt.Key.Key_Space):
            self.click()
        else:
            event.ignore()

    def sizeHint(self) -> QSize:
        metrics = QFontMetrics(sized(self, self.pixels))
        return QSize(metrics.horizontalAdvance(self.text()) + 2 * self.pad, TOUCH)

    def minimumSizeHint(self) -> QSize:
        return QSize(min(self.sizeHint().width(), 80), TOUCH)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ground, edge, radius = self.look()
        painter.setBrush(ground)
        painter.setPen(
            QPen(inks().accent if self.hasFocus() else edge, 2 if self.hasFocus() else 1)
        )
        frame = QRectF(self.rect()).adjusted(1, self.air, -1, -self.air)
        painter.drawRoundedRect(frame, radius, radius)
        painter.setPen(inks().ink)
        painter.setFont(sized(self, self.pixels))
        room = self.rect().adjusted(self.pad, 0, -self.pad, 0)
        text = painter.fontMetrics().elidedText(
            self.text(), Qt.TextElideMode.ElideRight, room.width()
        )
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, text)
        painter.end()

    air = 1

    def look(self) -> tuple[QColor, QColor, float]:
        """Ground, edge and the radius of the corners."""
        raise NotImplementedError


class Chip(_Plain):
    """A word to take instead of typing it; by keyboard the field beside it offers the same."""

    air = 5

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(text, parent)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def look(self) -> tuple[QColor, QColor, float]:
        ground = inks().line if self.isDown() else inks().tape
        return ground, inks().line, 17


class Slip(_Plain):
    """A line of what was entered, as a slip of tape."""

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(text, parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def look(self) -> tuple[QColor, QColor, float]:
        return inks().tape, inks().line, 5
