"""Small which-way pictures as pixmaps: drawn once for each set of facts, kept up to a bound."""

from __future__ import annotations

from collections import OrderedDict
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPixmap

from bagtag.ui import theme
from bagtag.ui.picture import paint

if TYPE_CHECKING:
    from collections.abc import Hashable

    from bagtag.domain.datum import Datum
    from bagtag.domain.which_way import Fact

KEPT = 400


class WayPixmaps:
    """Pictures of one size, for rows that are painted again and again."""

    def __init__(self, size: QSize) -> None:
        self._size = size
        self._kept: OrderedDict[Hashable, QPixmap] = OrderedDict()

    def get(self, facts: tuple[Fact, ...], datum: Datum, ratio: float) -> QPixmap:
        """The picture in the colours in force, at a screen's pixel ratio."""
        colours = theme.current()
        key = (facts, tuple(datum.names.items()), ratio, colours.paper.name())
        if key in self._kept:
            self._kept.move_to_end(key)
            return self._kept[key]
        self._kept[key] = made = self._draw(facts, datum, ratio, colours)
        while len(self._kept) > KEPT:
            self._kept.popitem(last=False)
        return made

    def _draw(
        self, facts: tuple[Fact, ...], datum: Datum, ratio: float, colours: theme.Colours
    ) -> QPixmap:
        from bagtag.domain.picture import draw

        pixmap = QPixmap(self._size * ratio)
        pixmap.setDevicePixelRatio(ratio)
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        room = QRectF(0, 0, self._size.width(), self._size.height())
        picture = draw(facts, datum, aspect=room.width() / room.height())
        paint(painter, picture, room, colours.ink, colours.accent, colours.muted)
        painter.end()
        return pixmap
