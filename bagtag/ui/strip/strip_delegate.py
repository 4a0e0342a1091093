"""One removal painted as a piece of tape."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QAbstractItemView, QStyledItemDelegate, QStyleOptionViewItem

from bagtag.domain import codes
from bagtag.domain.model import Fate
from bagtag.domain.standing import Standing
from bagtag.ui import fonts, theme
from bagtag.ui.strip.strip_model import StripModel
from bagtag.ui.strip.thumbs import Thumbs
from bagtag.ui.strip.way_pixmaps import WayPixmaps

if TYPE_CHECKING:
    from bagtag.services.views import StripRow

ROW, GAP = 66, 8
"""Height of a row, of which the gap to the next piece of tape."""
THUMB = 46
WIDE = 400
"""From this width on there is room for a thumbnail beside the name."""
_PICTURE = QRectF(58, 9, 60, 41)
_TEXT = 130
_STRONG = {Standing.NEXT, Standing.AWAY}


class StripDelegate(QStyledItemDelegate):
    """Paints a row of the strip. `building` shows the build's words instead of where a part is."""

    def __init__(self, model: StripModel, thumbs: Thumbs, parent: QAbstractItemView) -> None:
        super().__init__(parent)
        self._view = parent
        self._model = model
        self._thumbs = thumbs
        self._pictures = WayPixmaps(_PICTURE.adjusted(2, 2, -2, -2).size().toSize())
        self.building = False

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        return QSize(300, ROW)

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        rect = QRectF(option.rect)
        chosen = index.row() == self._view.currentIndex().row()
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(rect.left(), rect.top() + GAP / 2)
        width, place = rect.width() - 2, index.row()
        tape = _Tape(painter, width, theme.current(), has_keys=self._view.hasFocus())
        row = None if self._model.is_now(place) else self._model.row_at(place)
        if self._model.is_now(place):
            tape.ground(tape.colours.card, chosen=True)
            self._now(tape)
        elif row is None:
            tape.ground(tape.colours.tape, chosen=chosen)
        else:
            self._row(tape, row, chosen)
        painter.restore()

    def _now(self, tape: _Tape) -> None:
        tape.number(self._model.next_number, tape.colours.ink)
        tape.text(_TEXT, 32, "the next one to log", 16, False, tape.colours.muted, tape.width - 60)
        tape.right(32, "now", tape.colours.accent, bold=True)

    def _row(self, tape: _Tape, row: StripRow, chosen: bool) -> None:
        standing = self._model.standing_of(row)
        settled = standing in {Standing.IN, Standing.SCRAPPED}
        colours = tape.colours
        tape.ground(colours.card if settled else colours.tape, chosen=chosen)
        ink = colours.muted if settled else colours.ink
        tape.number(row.removal.number, ink)
        tape.picture(self._picture(tape, row))
        code = codes.show(row.code) if row.code else ""
        state = self._state(row, standing)
        strong = self.building and standing in _STRONG
        room = tape.right_room(code, state)
        room += self._thumb(tape, row, room) if row.thumb and tape.width >= WIDE else 0
        tape.right(23, code, colours.muted)
        tape.right(43, state, colours.accent if strong else colours.muted, bold=strong)
        name = row.removal.name
        if row.removal.quantity > 1:
            name = f"{row.removal.quantity} × {name}"
        tape.text(_TEXT, 24, name, 16, True, ink, tape.width - room)
        tape.text(_TEXT, 44, second_line(row), 13, False, colours.muted, tape.width - room)

    def _state(self, row: StripRow, standing: Standing) -> str:
        if self.building or standing not in {Standing.OFF, Standing.NEXT, Standing.WAITS}:
            return standing.value
        return row.container

    def _picture(self, tape: _Tape, row: StripRow) -> QPixmap | None:
        datum = self._model.datum
        if not row.told or datum is None:
            return None
        ratio = tape.painter.device().devicePixelRatioF()
        return self._pictures.get(row.told, datum, ratio)

    def _thumb(self, tape: _Tape, row: StripRow, right: float) -> float:
        """Paint the thumbnail so far from the right edge; returns the width it takes."""
        ratio = tape.painter.device().devicePixelRatioF()
        pixmap = self._thumbs.get(row.thumb, THUMB, ratio)
        left = tape.width - right - THUMB
        if pixmap is not None and not pixmap.isNull():
            tape.painter.drawPixmap(QPointF(left, 6), pixmap)
        return THUMB + 8


def second_line(row: StripRow) -> str:
    """What is worth saying about a part in one short line."""
    removal = row.removal
    said = [row.short]
    if row.opens:
        said.append(f"opens {', '.join(row.opens)}")
    if removal.fate is not Fate.REFIT:
        said.append(removal.fate.value)
    if removal.held_by:
        said.append(", ".join(f"{line.count} × {line.size()}" for line in removal.held_by[:2]))
    if removal.goes_on:
        said.append(removal.goes_on)
    return ". ".join(part for part in said if part)


class _Tape:
    """A piece of tape under the brush; lengths in pixels from its top left."""

    def __init__(
        self, painter: QPainter, width: float, colours: theme.Colours, *, has_keys: bool
    ) -> None:
        self.painter, self.width, self.colours = painter, width, colours
        self.outline = 3.5 if has_keys else 2.0
        self.height = ROW - GAP

    def ground(self, colour: QColor, *, chosen: bool) -> None:
        edge, weight = (self.colours.accent, self.outline) if chosen else (self.colours.line, 1.0)
        inset = weight / 2
        box = QRectF(inset, inset, self.width - weight, self.height - weight)
        self.painter.setPen(QPen(edge, weight))
        self.painter.setBrush(colour)
        self.painter.drawRoundedRect(box, 4, 4)

    def number(self, number: str, ink: QColor) -> None:
        size = 18 if len(number) < 4 else 13
        self.text(14, 35, number, size, True, ink, 56)

    def picture(self, picture: QPixmap | None) -> None:
        colours, painter = self.colours, self.painter
        painter.setPen(QPen(colours.line, 1))
        painter.setBrush(colours.card)
        painter.drawRoundedRect(_PICTURE.adjusted(0.5, 0.5, -0.5, -0.5), 3, 3)
        if picture is None:
            painter.setPen(QPen(colours.muted, 1.5))
            middle = _PICTURE.center()
            painter.drawLine(middle - QPointF(7, 0), middle + QPointF(7, 0))
        else:
            painter.drawPixmap(_PICTURE.topLeft() + QPointF(2, 2), picture)

    def text(  # noqa: PLR0917  (what, where and in which ink, as a painter is told)
        self, left: float, base: float, text: str, size: int, bold: bool, ink: QColor, end: float
    ) -> None:
        font, metrics = _font(size, bold)
        self.painter.setFont(font)
        self.painter.setPen(ink)
        shown = metrics.elidedText(text, Qt.TextElideMode.ElideRight, max(end - left, 0))
        self.painter.drawText(QPointF(left, base), shown)

    def right(self, base: float, text: str, ink: QColor, *, bold: bool = False) -> None:
        font, metrics = _font(13, bold)
        self.painter.setFont(font)
        self.painter.setPen(ink)
        at = self.width - 14 - metrics.horizontalAdvance(text)
        self.painter.drawText(QPointF(at, base), text)

    @staticmethod
    def right_room(*texts: str) -> float:
        metrics = _font(13, True)[1]
        return max(metrics.horizontalAdvance(text) for text in texts) + 26


@lru_cache(maxsize=16)
def _font(size: int, bold: bool) -> tuple[QFont, QFontMetricsF]:
    font = fonts.font(size, bold)
    return font, QFontMetricsF(font)
