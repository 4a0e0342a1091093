"""What a hole map lies on: a photo at several sizes, or a drawn outline."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPen, QPolygonF

from bagtag import services
from bagtag.ui.forms.inks import inks
from bagtag.ui.photos.photo_sources import read_scaled

if TYPE_CHECKING:
    from bagtag.domain.holes import HoleMap
    from bagtag.domain.model import Photo
    from bagtag.store.work import Store
    from bagtag.ui.holes.hole_view import View

LEAST = 600
"""A photo is kept at halves of its size, down to this width in pixels."""


def read_levels(store: Store, photo: Photo) -> tuple[str, list[QImage]]:
    """A photo upright at its full size and at halves of it; runs in the pool. None where its file
    is missing or cannot be read."""
    path = services.photos.original(store, photo)
    _, image = read_scaled(path, QSize(), photo.hash)
    if image.isNull():
        image = _as_the_store_reads(store, photo)
    return photo.hash, [] if image.isNull() else levels(image)


def levels(image: QImage) -> list[QImage]:
    """The picture, then a half of it, and so on: a map far away is drawn from a small one, which
    is quick, and smooth where a large one would flicker."""
    made = [image.convertToFormat(QImage.Format.Format_RGB32)]
    while made[-1].width() >= 2 * LEAST:
        made.append(_half(made[-1]))
    return made


def _half(image: QImage) -> QImage:
    smooth = Qt.TransformationMode.SmoothTransformation
    size = QSize(max(image.width() // 2, 1), max(image.height() // 2, 1))
    return image.scaled(size, Qt.AspectRatioMode.IgnoreAspectRatio, smooth)


def _as_the_store_reads(store: Store, photo: Photo) -> QImage:
    """What Qt cannot read: a phone's HEIC."""
    read = services.photos.upright(store, photo)
    if read is None:
        return QImage()
    kind = QImage.Format.Format_RGB888
    return QImage(read.rgb, read.width, read.height, 3 * read.width, kind).copy()


def paint_photo(painter: QPainter, images: Sequence[QImage], place: QRectF, room: QRectF) -> None:
    """Draw what of a photo at `place` is seen in `room`, from the smallest that is sharp."""
    ratio = painter.device().devicePixelRatio()
    wanted = place.width() * ratio
    image = next((one for one in reversed(images) if one.width() >= wanted), images[0])
    seen = place.intersected(room)
    if seen.isEmpty():
        return
    across, down = image.width() / place.width(), image.height() / place.height()
    source = QRectF(
        (seen.x() - place.x()) * across,
        (seen.y() - place.y()) * down,
        seen.width() * across,
        seen.height() * down,
    )
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawImage(seen, image, source)


def paint_outline(painter: QPainter, hole_map: HoleMap, view: View) -> None:
    """Draw the sheet and the outline on it."""
    colours = inks()
    corner = view.on_screen(0, 0)
    far = view.on_screen(hole_map.width, hole_map.height)
    painter.setPen(QPen(colours.line, 1))
    painter.setBrush(colours.card)
    painter.drawRect(QRectF(corner, far))
    if hole_map.outline:
        shape: list[QPointF] = [view.on_screen(x, y) for x, y in hole_map.outline]
        painter.setPen(QPen(colours.ink, 2))
        painter.setBrush(colours.tape)
        painter.drawPolygon(QPolygonF(shape))
