"""Thumbnails for the strip: read scaled in the pool, kept as pixmaps up to a bound."""

from collections import OrderedDict
from pathlib import Path

from PySide6.QtCore import QObject, QSize, Qt, Signal
from PySide6.QtGui import QImage, QImageReader, QPixmap

from bagtag import services
from bagtag.ui.desk import Desk

KEPT = 300
Key = tuple[str, int, float]
"""Hash, side in pixels, pixel ratio."""


class Thumbs(QObject):
    """Square cuts of thumbnails. `get` answers at once, with None while one is under way."""

    arrived = Signal()

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self.desk = desk
        self._kept: OrderedDict[Key, QPixmap] = OrderedDict()
        self._asked: set[Key] = set()

    def get(self, digest: str, side: int, ratio: float) -> QPixmap | None:
        key = (digest, side, ratio)
        if key in self._kept:
            self._kept.move_to_end(key)
            return self._kept[key]
        if key not in self._asked and self.desk.is_open:
            self._asked.add(key)
            path = services.photos.thumb(self.desk.store, digest)
            self.desk.draw(load, key, path, then=self._loaded)
        return None

    def _loaded(self, answer: tuple[Key, QImage]) -> None:
        key, image = answer
        self._asked.discard(key)
        pixmap = QPixmap.fromImage(image)
        pixmap.setDevicePixelRatio(key[2])
        self._kept[key] = pixmap
        while len(self._kept) > KEPT:
            self._kept.popitem(last=False)
        self.arrived.emit()


def load(key: Key, path: Path) -> tuple[Key, QImage]:
    """A square cut from the middle of a picture; empty where the file is gone or unreadable."""
    side = round(key[1] * key[2])
    reader = QImageReader(str(path))
    reader.setAutoTransform(True)
    size = reader.size()
    if size.isValid():
        reader.setScaledSize(size.scaled(side, side, Qt.AspectRatioMode.KeepAspectRatioByExpanding))
    image = reader.read()
    if image.isNull():
        return key, image
    left, top = (image.width() - side) // 2, (image.height() - side) // 2
    return key, image.copy(max(left, 0), max(top, 0), *_cut(image.size(), side))


def _cut(size: QSize, side: int) -> tuple[int, int]:
    return min(size.width(), side), min(size.height(), side)
