"""The photos on the card: as it came off, as fitted; a picture dropped on one is taken in."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDropEvent,
    QFont,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPixmap,
)
from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy, QWidget

from bagtag import services
from bagtag.domain.model import Photo, PhotoRole
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, tight
from bagtag.ui.forms.dropped import files_in
from bagtag.ui.forms.inks import inks_of

if TYPE_CHECKING:
    from bagtag.services.views import BenchCard

HEIGHT, WIDEST = 150, 420


def thumb_of(desk: Desk, photos: Sequence[Photo]) -> Path | None:
    """The thumbnail file of the first photo."""
    return services.photos.thumb(desk.store, photos[0].hash) if photos else None


class PhotoBox(QFrame):
    """One picture of a part, or the words that there is none yet."""

    pressed = Signal()
    dropped = Signal(list)

    def __init__(self, role: PhotoRole, parent: QWidget) -> None:
        super().__init__(parent)
        self.role = role
        self.photos: tuple[Photo, ...] = ()
        self._thumb = QPixmap()
        self.setProperty("surface", "card")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAcceptDrops(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_photos(self, photos: tuple[Photo, ...], thumb: Path | None) -> None:
        self.photos = photos
        self._thumb = QPixmap(str(thumb)) if thumb is not None and thumb.exists() else QPixmap()
        self.setAccessibleName(f"Photo {self.caption}")
        self.update()

    @property
    def caption(self) -> str:
        more = f", 1 of {len(self.photos)}" if len(self.photos) > 1 else ""
        return f"{self.role.value}{more}"

    def sizeHint(self) -> QSize:
        return QSize(240, HEIGHT)

    def minimumSizeHint(self) -> QSize:
        return QSize(120, HEIGHT)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        room = QRectF(self.rect()).adjusted(6, 6, -6, -28)
        if self._thumb.isNull():
            self._words(painter, room)
        else:
            self._picture(painter, room)
        self._caption(painter)
        painter.end()

    def _picture(self, painter: QPainter, room: QRectF) -> None:
        size = self._thumb.deviceIndependentSize()
        scale = min(room.width() / size.width(), room.height() / size.height())
        place = QRectF(0, 0, size.width() * scale, size.height() * scale)
        place.moveCenter(room.center())
        path = QPainterPath()
        path.addRoundedRect(place, 4, 4)
        painter.setClipPath(path)
        painter.drawPixmap(place, self._thumb, QRectF(self._thumb.rect()))
        painter.setClipping(False)

    def _words(self, painter: QPainter, room: QRectF) -> None:
        fitted = self.role is PhotoRole.FITTED
        words = "no photo yet:\nclick to take one in" if not fitted else "take it when it is in"
        painter.setPen(inks_of(self)[0])
        painter.setFont(_font(self, 14))
        painter.drawText(room, Qt.AlignmentFlag.AlignCenter, words)

    def _caption(self, painter: QPainter) -> None:
        painter.setPen(inks_of(self)[0])
        painter.setFont(_font(self, 13))
        place = QRectF(self.rect()).adjusted(8, self.height() - 26, -8, -6)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, self.caption)
        if self.hasFocus():
            painter.setPen(inks_of(self)[1])
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(2, 2, -2, -2), 6, 6)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self.rect().contains(event.position().toPoint()):
            self.pressed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (*ENTER, Qt.Key.Key_Space):
            self.pressed.emit()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if event.mimeData().hasUrls():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        paths = files_in(event.mimeData())
        if paths:
            event.acceptProposedAction()
            self.dropped.emit(paths)


class CardPhotos(QWidget):
    """Both boxes. `wanted` asks for a file of a role; `looked_at` for a photo to be shown large."""

    wanted = Signal(object)
    looked_at = Signal(object)
    dropped = Signal(object, list)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.off = PhotoBox(PhotoRole.OFF, self)
        self.fitted = PhotoBox(PhotoRole.FITTED, self)
        row = QHBoxLayout(self)
        tight(row, 12)
        for box in (self.off, self.fitted):
            row.addWidget(box)
            box.pressed.connect(self._pressed)
            box.dropped.connect(self._dropped)
            box.setMaximumWidth(WIDEST)
        row.addStretch(0)

    def show_card(self, card: "BenchCard") -> None:
        self.off.show_photos(card.photos_off, thumb_of(self.desk, card.photos_off))
        self.fitted.show_photos(card.photos_fitted, thumb_of(self.desk, card.photos_fitted))

    def _pressed(self) -> None:
        box = self.sender()
        assert isinstance(box, PhotoBox)
        if box.photos:
            self.looked_at.emit(box.photos[0])
        else:
            self.wanted.emit(box.role)

    def _dropped(self, paths: list[Path]) -> None:
        box = self.sender()
        assert isinstance(box, PhotoBox)
        self.dropped.emit(box.role, paths)


def _font(widget: QWidget, pixels: int) -> QFont:
    font = QFont(widget.font())
    font.setPixelSize(pixels)
    return font
