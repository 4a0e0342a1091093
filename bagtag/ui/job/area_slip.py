"""One area in the tree, indented as deep as it lies."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from bagtag.domain.model import Area
from bagtag.ui.forms.inks import inks, sized

INDENT, HIGH = 30, 52


class AreaSlip(QAbstractButton):
    """Its name, and what opens it. The tree takes its keys."""

    def __init__(self, area: Area, depth: int, opener: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.area, self.level, self.opener = area, depth, opener
        self.setText(area.name)
        bare = "nothing covers it" if area.is_open else "nothing opens it yet"
        opened = f"opened by {opener}" if opener else bare
        self.detail = opened
        self.setAccessibleName(f"{area.name}, {opened}")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def sizeHint(self) -> QSize:
        return QSize(300, HIGH)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.ignore()

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours, left = inks(), self.level * INDENT
        if self.level:
            painter.setPen(QPen(colours.muted, 1.5))
            x = left - INDENT / 2
            painter.drawLine(int(x), 0, int(x), self.height() // 2)
            painter.drawLine(int(x), self.height() // 2, left - 3, self.height() // 2)
        frame = QRectF(left + 1, 2, self.width() - left - 2, self.height() - 4)
        focus = self.hasFocus()
        painter.setPen(QPen(colours.accent if focus else colours.line, 2 if focus else 1))
        painter.setBrush(colours.tape)
        painter.drawRoundedRect(frame, 5, 5)
        self._paint_words(painter, frame)
        painter.end()

    def _paint_words(self, painter: QPainter, frame: QRectF) -> None:
        room = frame.adjusted(14, 0, -14, 0)
        painter.setFont(sized(self, 16, bold=True))
        painter.setPen(inks().ink)
        name = painter.fontMetrics().elidedText(
            self.text(), Qt.TextElideMode.ElideRight, int(room.width() * 0.5)
        )
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, name)
        painter.setFont(sized(self, 13))
        painter.setPen(inks().muted)
        detail = painter.fontMetrics().elidedText(
            self.detail, Qt.TextElideMode.ElideRight, int(room.width() * 0.46)
        )
        right = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
        painter.drawText(room, right, detail)
