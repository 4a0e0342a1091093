"""The photo under a hole map: read in the background, for the sheet that shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QImage

from bagtag.ui.desk import Desk
from bagtag.ui.holes.hole_ground import read_levels

if TYPE_CHECKING:
    from bagtag.domain.model import Photo
    from bagtag.ui.holes.hole_sheet import HoleSheet

MISSING = "The file of this photo is missing from the store, or damaged."


class PhotoUnder(QObject):
    """Keeps the photo on the sheet that the map lies on."""

    missed = Signal(str)
    """It cannot be shown: a sentence."""

    def __init__(self, desk: Desk, sheet: HoleSheet) -> None:
        super().__init__(sheet)
        self._desk, self._sheet = desk, sheet
        self._digest = ""

    def show(self, digest: str, photo: Photo | None) -> None:
        """The map lies on the photo of this hash; None where the part has it no more."""
        if digest == self._digest:
            return
        self._digest = digest
        self._sheet.set_photo(())
        if photo is not None:
            self._desk.draw(read_levels, self._desk.store, photo, then=self._read)

    def _read(self, answer: tuple[str, list[QImage]]) -> None:
        digest, images = answer
        if digest != self._digest:
            return
        self._sheet.set_photo(images)
        if not images:
            self.missed.emit(MISSING)
