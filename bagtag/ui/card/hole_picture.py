"""The holes of a joint as a picture on the card: what goes where, and in which turn."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from bagtag.ui import theme
from bagtag.ui.forms.inks import inks_of
from bagtag.ui.picture import PictureWidget

if TYPE_CHECKING:
    from bagtag.domain.hardware import HeldBy
    from bagtag.domain.holes import HoleMap

MANY = 8
"""With more holes than this a map takes the whole width of its card."""
HIGH, HIGHER, LEAST = 320, 400, 200
LINES = 10
"""More lines of hardware than this would make the legend larger than the map: they are told below
it, in words."""
NARROW, WIDE = 0.9, 2.4
"""The shapes a picture is drawn for, width to height."""


class HolePicture(PictureWidget):
    """Drawn for the shape that its place has; out of sight where there is no map."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Hole map")
        self._map: HoleMap | None = None
        self._held: Sequence[HeldBy] = ()
        self._order: Sequence[int] = ()
        self._drawn: object = None
        self.hide()

    def show_map(
        self, hole_map: HoleMap | None, held_by: Sequence[HeldBy], order: Sequence[int]
    ) -> None:
        """With an order each hole says its turn beside its number."""
        self._map = hole_map if hole_map is not None and hole_map.holes else None
        self._held, self._order = held_by, order
        self.updateGeometry()
        self.setVisible(self._map is not None)
        self._draw()

    @property
    def is_large(self) -> bool:
        """Whether it has so many holes that it needs the width of the card."""
        return self._map is not None and len(self._map.holes) > MANY

    @property
    def has_legend(self) -> bool:
        """Whether the picture itself says what each shape is."""
        holes = self._map.holes if self._map is not None else ()
        return len({hole.mark for hole in holes}) <= LINES

    def _draw(self) -> None:
        if self._map is None:
            return
        from bagtag.domain.hole_picture import draw

        high = max(self.height(), LEAST)
        shape = min(max(self.width() / high, NARROW), WIDE)
        wanted = (self._map, tuple(self._held), tuple(self._order), shape, theme.BODY / high)
        if wanted == self._drawn:
            return  # hundreds of holes take a while
        self._drawn = wanted
        self.set_picture(
            draw(
                self._map,
                self._held,
                order=self._order or None,
                aspect=shape,
                has_legend=self.has_legend,
                lettering_size=theme.BODY / high,
            )
        )

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._draw()

    def sizeHint(self) -> QSize:
        high = HIGHER if self.is_large else HIGH
        return QSize(round(high * 1.2), high)

    def minimumSizeHint(self) -> QSize:
        return QSize(LEAST, LEAST)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.StyleChange):
            self.set_inks(*inks_of(self))
