"""One photo on the strip of photos: its small picture and what it shows."""

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent, QPainter, QPainterPath, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.inks import inks, sized

WIDE, HIGH, WORDS = 148, 112, 24


class PhotoTile(QAbstractButton):
    """Enter or a click opens it large; Delete takes it out."""

    removed = Signal()

    def __init__(self, name: str, words: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.name = name
        self.setText(words)
        self.setAccessibleName(f"Photo {name}, {words}: Enter opens it, Delete takes it out")
        self.setToolTip(f"{name}\nEnter opens it large, Delete takes it out")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._pixmap = QPixmap()

    def sizeHint(self) -> QSize:
        return QSize(WIDE, HIGH + WORDS)

    def set_image(self, image: QImage) -> None:
        self._pixmap = QPixmap.fromImage(image)
        self.update()

    @property
    def has_picture(self) -> bool:
        return not self._pixmap.isNull()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (*ENTER, Qt.Key.Key_Space):
            self.click()
        elif event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.removed.emit()
        else:
            event.ignore()

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        frame = QRectF(1, 1, self.width() - 2, HIGH - 2)
        self._paint_picture(painter, frame)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        focus = self.hasFocus()
        painter.setPen(QPen(inks().accent if focus else inks().line, 3 if focus else 1))
        painter.drawRoundedRect(frame, 6, 6)
        painter.setPen(inks().muted)
        painter.setFont(sized(self, 13))
        words = QRect(2, HIGH, self.width() - 4, WORDS)
        text = painter.fontMetrics().elidedText(
            self.text(), Qt.TextElideMode.ElideRight, words.width()
        )
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter, text)
        painter.end()

    def _paint_picture(self, painter: QPainter, frame: QRectF) -> None:
        path = QPainterPath()
        path.addRoundedRect(frame, 6, 6)
        painter.fillPath(path, inks().tape)
        if self._pixmap.isNull():
            return
        size = self._pixmap.deviceIndependentSize()
        scale = max(frame.width() / size.width(), frame.height() / size.height())
        target = QRectF(0, 0, size.width() * scale, size.height() * scale)
        target.moveCenter(frame.center())
        painter.save()
        painter.setClipPath(path)
        painter.drawPixmap(target, self._pixmap, QRectF(self._pixmap.rect()))
        painter.restore()
