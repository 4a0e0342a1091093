"""The camera as a scanner: hold a tag in front of it. Where there is none, it says what else works.

QtMultimedia comes in a wheel of its own and may be missing, or fail to load for want of a system
library; it is imported when the dialog opens.
"""

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QHideEvent, QImage, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QDialog, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag.domain.codes import show
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import label
from bagtag.ui.scanning.camera_frames import Frames
from bagtag.ui.theme import current

if TYPE_CHECKING:
    from PySide6.QtMultimedia import QCamera

OTHER_WAYS = (
    "A scanner that types, the six characters typed into the field, or a photo file of the tag "
    "work as well."
)
NOT_INSTALLED = "This installation has no camera support."
NO_CAMERA = "No camera is connected to this machine."


def multimedia() -> Any:
    """QtMultimedia, or None where it is not installed or does not load."""
    try:
        from PySide6 import QtMultimedia
    except ImportError:
        return None
    return QtMultimedia


class Finder(QWidget):
    """The live picture, as large as there is room for."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._image = QImage()
        self.setAccessibleName("Live picture of the camera")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_image(self, image: QImage) -> None:
        self._image = image
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(640, 400)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        colours = current()
        painter.fillRect(self.rect(), colours.tape)
        if not self._image.isNull():
            size = self._image.size().scaled(self.size(), Qt.AspectRatioMode.KeepAspectRatio)
            place = QRectF(0, 0, size.width(), size.height())
            place.moveCenter(QRectF(self.rect()).center())
            painter.drawImage(place, self._image)
        painter.setPen(QPen(colours.line, 1))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()


class CameraDialog(QDialog):
    """`read` tells the code of each tag that comes in front of the camera."""

    read = Signal(str)
    photo_wanted = Signal()
    """A photo file of the tag is to be chosen instead."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Scan with the camera")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.frames = Frames(desk, self)
        self.finder = Finder(self)
        self.said = label("Hold the tag flat, a hand's breadth away.", self, scale="head")
        self.under = label(OTHER_WAYS, self, tone="muted")
        self.photo = Act("Choose a photo", "Ctrl+O", self)
        self.put_away = Act("Close", "", self)
        self.camera: QCamera | None = None
        self._sink: Any = None
        self._session: Any = None
        self._lay()
        self.photo.clicked.connect(self._photo)
        self.put_away.clicked.connect(self.reject)
        self.frames.pictured.connect(self.finder.show_image)
        self.frames.read.connect(self._seen)
        self._start()

    def _lay(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 20, 20, 20)
        column.setSpacing(12)
        column.addWidget(self.said)
        column.addWidget(self.finder, 1)
        column.addWidget(self.under)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.photo)
        row.addWidget(self.put_away)
        row.addStretch(1)
        column.addLayout(row)
        self.resize(700, 560)

    def _start(self) -> None:
        """Begin with the machine's first camera, or say why there is no picture."""
        qt = multimedia()
        if qt is None:
            self.say_none(NOT_INSTALLED)
            return
        self._sink = qt.QVideoSink(self)
        self._sink.videoFrameChanged.connect(self.frames.take)
        device = qt.QMediaDevices.defaultVideoInput()
        if device.isNull():
            self.say_none(NO_CAMERA)
            return
        self._session = qt.QMediaCaptureSession(self)
        self._session.setVideoSink(self._sink)
        self.camera = qt.QCamera(device, self)
        self.camera.errorOccurred.connect(self._refused)
        self._session.setCamera(self.camera)
        self.camera.start()

    @property
    def sink(self) -> Any:
        """Where frames arrive: a QVideoSink, or None without QtMultimedia."""
        return self._sink

    def say_none(self, sentence: str) -> None:
        """No picture will come: why, and what else there is."""
        self.said.setText(sentence)
        self.finder.hide()
        self.adjustSize()

    def _refused(self, _: object, words: str) -> None:
        reason = words.strip().rstrip(".")
        self.say_none(f"The camera gives no picture: {reason or 'no reason given'}.")

    def _seen(self, code: str) -> None:
        self.said.setText(f"Read {show(code)}")
        self.read.emit(code)

    def _photo(self) -> None:
        self.reject()
        self.photo_wanted.emit()

    def hideEvent(self, event: QHideEvent) -> None:
        """A camera that nobody looks at is switched off."""
        super().hideEvent(event)
        if self.camera is not None:
            self.camera.stop()


def open_camera(desk: Desk, parent: QWidget | None = None) -> CameraDialog:
    """Open the camera over its window; connect `read` to what a scan does."""
    dialog = CameraDialog(desk, parent)
    dialog.open()
    return dialog
