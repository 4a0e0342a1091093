"""The holes of a joint as a picture on the card: what goes where, and in which turn."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize
from PySide6.QtWidgets import QWidget

from bagtag.ui.card.card_parts import inks_of
from bagtag.ui.picture import PictureWidget

if TYPE_CHECKING:
    from bagtag.domain.hardware import HeldBy
    from bagtag.domain.holes import HoleMap

HIGH, LEAST = 300, 180


class HolePicture(PictureWidget):
    """Out of sight where there is no map."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Hole map")
        self.hide()

    def show_map(
        self, hole_map: HoleMap | None, held_by: Sequence[HeldBy], order: Sequence[int]
    ) -> None:
        """With an order each hole says its turn beside its number."""
        self.setVisible(hole_map is not None and bool(hole_map.holes))
        if hole_map is not None and hole_map.holes:
            from bagtag.domain.hole_picture import draw

            label = "turn" if order else "number"
            self.set_picture(draw(hole_map, held_by, order=tuple(order) or None, label=label))
            self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(round(HIGH * self.picture.aspect), HIGH)

    def minimumSizeHint(self) -> QSize:
        return QSize(round(LEAST * self.picture.aspect), LEAST)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.StyleChange):
            self.set_inks(*inks_of(self))
