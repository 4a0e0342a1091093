"""Frames of a camera: every few of them looked through for a tag, the rest let go."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QImage

from bagtag import services
from bagtag.ui.desk import Desk

if TYPE_CHECKING:
    from PySide6.QtMultimedia import QVideoFrame

EVERY = 3
"""One frame in this many is looked through."""
SHOWN = 960
"""The most pixels across that are kept of a frame for showing and reading."""


class Frames(QObject):
    """Turns video frames into pictures at once, so that no frame of the camera is held."""

    pictured = Signal(object)
    """A frame as a QImage, to be shown."""
    read = Signal(str)
    """The code of a tag that was seen; told once until another or none is seen."""

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self.desk = desk
        self.count = 0
        self.looked_through = 0
        self._busy = False
        self._last = ""

    def take(self, frame: "QVideoFrame") -> None:
        """A frame has come; it is copied out of and forgotten."""
        if not frame.isValid():
            return
        image = frame.toImage()
        if image.isNull():
            return
        self.count += 1
        if image.width() > SHOWN:
            image = image.scaledToWidth(SHOWN)
        self.pictured.emit(image)
        if self.count % EVERY == 1 and not self._busy:
            self._look_through(image)

    def _look_through(self, image: QImage) -> None:
        gray = image.convertToFormat(QImage.Format.Format_Grayscale8)
        self._busy = True
        self.looked_through += 1
        self.desk.draw(
            services.scanning.read_frame,
            gray.width(),
            gray.height(),
            packed(gray),
            then=self._seen,
            failed=self._not_read,
        )

    def _seen(self, codes: tuple[str, ...]) -> None:
        self._busy = False
        code = codes[0] if codes else ""
        if code and code != self._last:
            self.read.emit(code)
        self._last = code

    def _not_read(self, error: Exception) -> None:
        self._busy = False
        self.desk.tell_error(error)


def packed(gray: QImage) -> bytes:
    """The bytes of a grey picture, row after row, without what Qt pads each row with."""
    width, stride = gray.width(), gray.bytesPerLine()
    data = bytes(gray.constBits())
    if stride == width:
        return data
    return b"".join(data[row * stride : row * stride + width] for row in range(gray.height()))
