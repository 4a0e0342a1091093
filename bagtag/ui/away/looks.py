"""What a part looks like, small: its photo, else which way it sat, else its number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPainterPath, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QWidget

from bagtag.domain.datum import Datum
from bagtag.ui import theme
from bagtag.ui.forms.inks import sized
from bagtag.ui.strip.thumbs import Thumbs
from bagtag.ui.strip.way_pixmaps import WayPixmaps

if TYPE_CHECKING:
    from bagtag.domain.model import Removal
    from bagtag.ui.desk import Desk

SIDE = 56


class Looks(QObject):
    """The small pictures of one page, all of the same size."""

    arrived = Signal()

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self.datum = Datum()
        self._thumbs = Thumbs(desk, self)
        self._ways = WayPixmaps(QSize(SIDE - 10, round((SIDE - 10) * 30 / 44)))
        self._thumbs.arrived.connect(self.arrived)

    def photo(self, digest: str, ratio: float) -> QPixmap | None:
        return self._thumbs.get(digest, SIDE, ratio) if digest else None

    def way(self, removal: Removal, ratio: float) -> QPixmap:
        return self._ways.get(removal.which_way, self.datum, ratio)


class LookBox(QWidget):
    """One part's picture on a square of card."""

    def __init__(self, looks: Looks, removal: Removal, thumb: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._looks, self._removal, self._thumb = looks, removal, thumb
        self.setFixedSize(SIDE, SIDE)
        self.setAccessibleName(f"Picture of {removal.name}")
        looks.arrived.connect(self.update)

    def show_thumb(self, thumb: str) -> None:
        self._thumb = thumb
        self.update()

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        colours = theme.current()
        frame = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        path = QPainterPath()
        path.addRoundedRect(frame, 5, 5)
        painter.fillPath(path, colours.card)
        photo = self._looks.photo(self._thumb, self.devicePixelRatioF())
        if photo is not None and not photo.isNull():
            painter.setClipPath(path)
            painter.drawPixmap(frame, photo, QRectF(photo.rect()))
            painter.setClipping(False)
        elif self._removal.which_way:
            self._paint_way(painter)
        else:
            self._paint_number(painter)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(colours.line, 1))
        painter.drawRoundedRect(frame, 5, 5)
        painter.end()

    def _paint_way(self, painter: QPainter) -> None:
        pixmap = self._looks.way(self._removal, self.devicePixelRatioF())
        size = pixmap.deviceIndependentSize()
        left, top = (SIDE - size.width()) / 2, (SIDE - size.height()) / 2
        room = QRectF(left, top, size.width(), size.height())
        painter.drawPixmap(room, pixmap, QRectF(pixmap.rect()))

    def _paint_number(self, painter: QPainter) -> None:
        painter.setFont(sized(self, 22, bold=True))
        painter.setPen(theme.current().muted)
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self._removal.number[:4])
