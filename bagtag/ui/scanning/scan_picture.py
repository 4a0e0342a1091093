"""Reading a tag out of a photo file."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from bagtag import services
from bagtag.ui.card.card_taking import PICTURES
from bagtag.ui.desk import Desk


class PictureScan(QObject):
    """Reads pictures in the background. `read` tells a code that was found, a picture's first."""

    read = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self._window = parent

    def choose(self) -> None:
        """Ask for a photo of a tag."""
        dialog = QFileDialog(self._window, "Choose a photo of a tag", "", PICTURES)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.fileSelected.connect(self.read_file)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def read_file(self, name: str | Path) -> None:
        """Read one picture file; one without a tag is said in a sentence."""
        self.desk.draw(services.scanning.read_picture, Path(name), then=self._found)

    def _found(self, codes: Sequence[str]) -> None:
        if len(codes) > 1:
            self.desk.say(f"{len(codes)} tags are in the picture. The first is shown.")
        self.read.emit(codes[0])
