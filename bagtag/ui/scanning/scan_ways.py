"""The other ways to scan, always in sight: the camera, and a photo of a tag."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.scanning.scan_picture import PictureScan


class ScanWays(QWidget):
    """Two quiet acts; `read` tells the code that either of them found."""

    read = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.picture = PictureScan(desk, self)
        self.camera = Act("Camera", "Ctrl+K", self, role="quiet")
        self.photo = Act("Photo of a tag", "Ctrl+O", self, role="quiet")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        for act in (self.camera, self.photo):
            row.addWidget(act, 0, Qt.AlignmentFlag.AlignTop)
        self.camera.clicked.connect(self._open_camera)
        self.photo.clicked.connect(self.picture.choose)
        self.picture.read.connect(self.read)

    def _open_camera(self) -> None:
        from bagtag.ui.scanning.camera_dialog import open_camera

        dialog = open_camera(self.desk, self.window())
        dialog.read.connect(self.read)
        dialog.photo_wanted.connect(self.picture.choose)
