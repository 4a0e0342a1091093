"""One picture for many parts: a photo of a tray is chosen or pasted once and given to each."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.ui.card.card_taking import PICTURES
from bagtag.ui.desk import Desk
from bagtag.ui.photos.photo_sources import Coming, clipboard_pictures, keep

if TYPE_CHECKING:
    from bagtag.store.photo_files import Taken


class AuditPhotos(QObject):
    """Pictures are kept in the pool; then one act gives them to all the parts."""

    def __init__(self, desk: Desk, over: QWidget) -> None:
        super().__init__(over)
        self.desk = desk
        self._over = over
        self._ids: tuple[int, ...] = ()

    def choose(self, removal_ids: Sequence[int]) -> None:
        """Ask for picture files for these parts."""
        self._ids = tuple(removal_ids)
        dialog = QFileDialog(self._over, "Choose photos", "", PICTURES)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
        dialog.filesSelected.connect(self._chosen)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _chosen(self, names: list[str]) -> None:
        self.add(self._ids, [Path(name) for name in names])

    def paste(self, removal_ids: Sequence[int]) -> bool:
        """Take what lies on the clipboard; False where that is no picture."""
        pictures = clipboard_pictures()
        if pictures and removal_ids:
            self.add(removal_ids, pictures)
        return bool(pictures)

    def add(self, removal_ids: Sequence[int], coming: Sequence[Coming]) -> None:
        self._ids = tuple(removal_ids)
        self.desk.draw(
            keep, services.photos.keep, self.desk.store, list(coming), 0, then=self._kept
        )

    def _kept(self, answer: tuple[int | str, list[Taken], list[str]]) -> None:
        _, taken, refused = answer
        if taken:
            self.desk.act(services.photos.enter_all, self._ids, tuple(taken), then=self._entered)
        if refused:
            self.desk.said.emit(" ".join(refused), True)

    def _entered(self, _: Change) -> None:
        self._ids = ()
