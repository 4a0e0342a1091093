"""Where photos come from: files that are chosen, and a folder that is watched."""

from pathlib import Path

from PySide6.QtCore import QSettings, Signal
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QWidget

from bagtag.ui.forms.basics import button, tight
from bagtag.ui.photos.photo_watch import PICTURES, PhotoWatch

_FILTER = "Pictures ({})".format(" ".join(f"*{end} *{end.upper()}" for end in sorted(PICTURES)))


class PhotoActs(QWidget):
    coming = Signal(list)
    """Pictures as Paths: chosen, or new in the watched folder."""
    lost = Signal(str)
    """The watched folder is gone; the sentence says so."""

    def __init__(self, settings: QSettings, parent: QWidget) -> None:
        super().__init__(parent)
        self.watch = PhotoWatch(settings, self)
        self.choose = button("Add photos…", self, name="Add photos from files")
        self.follow = button("", self, role="quiet")
        self.unfollow = button("Stop", self, role="quiet", name="Stop watching the folder")
        row = QHBoxLayout(self)
        tight(row, 8)
        for press in (self.choose, self.follow, self.unfollow):
            row.addWidget(press)
        row.addStretch(1)
        self.choose.clicked.connect(self._choose)
        self.follow.clicked.connect(self._follow)
        self.unfollow.clicked.connect(self._unfollow)
        self.watch.found.connect(self.coming)
        self.watch.lost.connect(self.lost)
        self.watch.moved.connect(self._show_folder)
        self._show_folder()

    def _choose(self) -> None:
        dialog = QFileDialog(self, "Add photos", "", _FILTER)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
        dialog.filesSelected.connect(self._chosen)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _chosen(self, names: list[str]) -> None:
        self.coming.emit([Path(name) for name in names])

    def _follow(self) -> None:
        dialog = QFileDialog(self, "The folder a phone's pictures arrive in")
        dialog.setFileMode(QFileDialog.FileMode.Directory)
        dialog.setOption(QFileDialog.Option.ShowDirsOnly)
        dialog.fileSelected.connect(self._followed)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _followed(self, folder: str) -> None:
        self.watch.choose(Path(folder))

    def _unfollow(self) -> None:
        self.watch.choose(None)
        self.follow.setFocus()

    def _show_folder(self) -> None:
        folder = self.watch.folder
        words = f"Watching: {_short(folder)}" if folder else "Watch a folder…"
        self.follow.setText(words.replace("&", "&&"))
        self.follow.setAccessibleName(f"{words}; choose the folder to watch for new pictures")
        self.unfollow.setVisible(folder is not None)


def _short(folder: Path) -> str:
    """A folder as a person says it: `~/phone`."""
    home = Path.home()
    return f"~/{folder.relative_to(home)}" if folder.is_relative_to(home) else str(folder)
