"""A line of the list of jobs: a title and what is said below it."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.inks import inks, sized


class Ticket(QAbstractButton):
    """A title and a line below it: a job, or a part that was found."""

    def __init__(self, title: str, detail: str, parent: QWidget, *, here: bool = False) -> None:
        super().__init__(parent)
        self.setText(title)
        self.detail, self.here = detail, here
        self.setAccessibleName(f"{title}, {detail}{', open now' if here else ''}")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def sizeHint(self) -> QSize:
        return QSize(240, 60)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (*ENTER, Qt.Key.Key_Space):
            self.click()
        elif event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            self.focusNextPrevChild(event.key() == Qt.Key.Key_Down)
        else:
            event.ignore()

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours, focus = inks(), self.hasFocus()
        painter.setPen(QPen(colours.accent if focus else colours.line, 2 if focus else 1))
        painter.setBrush(colours.card if self.here else colours.tape)
        frame = QRectF(self.rect()).adjusted(1, 2, -1, -2)
        painter.drawRoundedRect(frame, 5, 5)
        if self.here:
            painter.fillRect(QRectF(1, 8, 4, self.height() - 16), colours.accent)
        room = frame.adjusted(16, 7, -12, -7)
        self._paint_line(painter, room, self.text(), title=True)
        self._paint_line(painter, room, self.detail, title=False)
        painter.end()

    def _paint_line(self, painter: QPainter, room: QRectF, text: str, *, title: bool) -> None:
        painter.setFont(sized(self, 16 if title else 13, bold=title))
        painter.setPen(inks().ink if title else inks().muted)
        line = painter.fontMetrics().elidedText(
            text, Qt.TextElideMode.ElideRight, int(room.width())
        )
        at = Qt.AlignmentFlag.AlignTop if title else Qt.AlignmentFlag.AlignBottom
        painter.drawText(room, at, line)
