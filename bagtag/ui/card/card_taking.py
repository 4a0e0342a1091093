"""Photos for the part on the card: chosen from files or dropped, and shown large."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.model import Photo, PhotoRole
from bagtag.ui.desk import Desk
from bagtag.ui.photos.photo_view import PhotoView

PICTURES = "Pictures (*.jpg *.jpeg *.png *.webp *.tif *.tiff *.bmp *.gif *.heic *.heif)"


class CardTaking(QObject):
    def __init__(self, desk: Desk, over: QWidget) -> None:
        super().__init__(over)
        self.desk = desk
        self._for = (0, PhotoRole.OFF)

    def choose(self, removal_id: int, role: PhotoRole) -> None:
        """Ask for picture files."""
        self._for = removal_id, role
        dialog = QFileDialog(self._over(), "Choose photos", "", PICTURES)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
        dialog.filesSelected.connect(self._chosen)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _chosen(self, names: list[str]) -> None:
        self.add(*self._for, [Path(name) for name in names])

    def add(self, removal_id: int, role: PhotoRole, paths: Sequence[Path]) -> None:
        """Take picture files in; one that is no picture is said, the rest are taken."""
        self.desk.act(services.photos.add, removal_id, list(paths), role, then=self._added)

    def _added(self, result: tuple[Change, list[str]]) -> None:
        if result[1]:
            self.desk.said.emit(" ".join(result[1]), True)

    def show_large(self, photos: Sequence[Photo], photo: Photo) -> None:
        PhotoView(self.desk, photos, list(photos).index(photo), self._over()).open()

    def _over(self) -> QWidget:
        over = self.parent()
        assert isinstance(over, QWidget)
        return over
