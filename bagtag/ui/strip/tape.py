"""The brush for pieces of tape: the strip and the lists of the build are painted with it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPixmap

from bagtag.ui import fonts, theme

ROW, GAP = 66, 8
"""Height of a row, of which the gap to the next piece of tape."""
THUMB = 46
WIDE = 400
"""From this width on there is room for a thumbnail beside the name."""
PICTURE = QRectF(58, 9, 60, 41)
"""Where the which-way picture is."""
TEXT = 130
"""Where the name begins."""


@dataclass(frozen=True, slots=True)
class Face:
    """What stands on a piece of tape. `settled` is on card instead of tape; `strong` has its word
    in the accent."""

    number: str
    name: str
    under: str = ""
    code: str = ""
    word: str = ""
    strong: bool = False
    settled: bool = False


class Tape:
    """A piece of tape under the brush; lengths in pixels from its top left."""

    def __init__(
        self, painter: QPainter, width: float, *, has_keys: bool, height: float = ROW - GAP
    ) -> None:
        self.painter, self.width, self.height = painter, width, height
        self.colours = theme.current()
        self.outline = 3.5 if has_keys else 2.0

    @property
    def ratio(self) -> float:
        return self.painter.device().devicePixelRatioF()

    def ground(self, colour: QColor, *, chosen: bool) -> None:
        edge, weight = (self.colours.accent, self.outline) if chosen else (self.colours.line, 1.0)
        inset = weight / 2
        box = QRectF(inset, inset, self.width - weight, self.height - weight)
        self.painter.setPen(QPen(edge, weight))
        self.painter.setBrush(colour)
        self.painter.drawRoundedRect(box, 4, 4)

    def keys_here(self) -> None:
        """An edge in ink: the keys are here, and something else is on the card."""
        self.painter.setPen(QPen(self.colours.ink, 2))
        self.painter.setBrush(Qt.BrushStyle.NoBrush)
        self.painter.drawRoundedRect(QRectF(1, 1, self.width - 2, self.height - 2), 4, 4)

    def face(self, face: Face, thumb: QPixmap | None, *, chosen: bool, has_thumb: bool) -> None:
        """All that stands on it but the picture. `thumb` may still be under way."""
        colours = self.colours
        self.ground(colours.card if face.settled else colours.tape, chosen=chosen)
        ink = colours.muted if face.settled else colours.ink
        self.number(face.number, ink)
        room = self.right_room(face.code, face.word)
        has_room = has_thumb and self.width >= WIDE
        if has_room:
            self._thumb(thumb, room)
            room += THUMB + 8
        self.right(23, face.code, colours.muted)
        word_ink = colours.accent if face.strong else colours.muted
        self.right(43, face.word, word_ink, bold=face.strong)
        beside = room if face.code or has_room else 14
        self.text(TEXT, 24, face.name, 16, True, ink, self.width - beside)
        self.text(TEXT, 44, face.under, 13, False, colours.muted, self.width - room)

    def number(self, number: str, ink: QColor) -> None:
        size = 18 if len(number) < 4 else 13
        self.text(14, 35, number, size, True, ink, 56)

    def picture(self, picture: QPixmap | None) -> None:
        colours, painter = self.colours, self.painter
        self.frame()
        if picture is None:
            painter.setPen(QPen(colours.muted, 1.5))
            middle = PICTURE.center()
            painter.drawLine(middle - QPointF(7, 0), middle + QPointF(7, 0))
        else:
            painter.drawPixmap(PICTURE.topLeft() + QPointF(2, 2), picture)

    def frame(self) -> None:
        """The white ground that a picture stands on."""
        self.painter.setPen(QPen(self.colours.line, 1))
        self.painter.setBrush(self.colours.card)
        self.painter.drawRoundedRect(PICTURE.adjusted(0.5, 0.5, -0.5, -0.5), 3, 3)

    def _thumb(self, pixmap: QPixmap | None, right: float) -> None:
        if pixmap is not None and not pixmap.isNull():
            self.painter.drawPixmap(QPointF(self.width - right - THUMB, 6), pixmap)

    def text(  # noqa: PLR0917  (what, where and in which ink, as a painter is told)
        self, left: float, base: float, text: str, size: int, bold: bool, ink: QColor, end: float
    ) -> None:
        font, metrics = measured(size, bold)
        self.painter.setFont(font)
        self.painter.setPen(ink)
        shown = metrics.elidedText(text, Qt.TextElideMode.ElideRight, max(end - left, 0))
        self.painter.drawText(QPointF(left, base), shown)

    def right(self, base: float, text: str, ink: QColor, *, bold: bool = False) -> None:
        font, metrics = measured(13, bold)
        self.painter.setFont(font)
        self.painter.setPen(ink)
        at = self.width - 14 - metrics.horizontalAdvance(text)
        self.painter.drawText(QPointF(at, base), text)

    @staticmethod
    def right_room(*texts: str) -> float:
        metrics = measured(13, True)[1]
        return max(metrics.horizontalAdvance(text) for text in texts) + 26


def paint_across(painter: QPainter, y: float, width: float, words: str) -> None:
    """A line across the tapes at a height, its words on a pill in its middle."""
    colours, (font, metrics) = theme.current(), measured(13, True)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setFont(font)
    shown = metrics.elidedText(words, Qt.TextElideMode.ElideRight, width - 48)
    wide = metrics.horizontalAdvance(shown) + 24
    box = QRectF((width - wide) / 2, y - 10, wide, 20)
    painter.setPen(QPen(colours.accent, 2.5))
    painter.drawLine(QPointF(0, y), QPointF(width, y))
    painter.setPen(QPen(colours.accent, 1))
    painter.setBrush(colours.paper)
    painter.drawRoundedRect(box, 10, 10)
    painter.drawText(QPointF(box.left() + 12, y + 4.5), shown)


@lru_cache(maxsize=16)
def measured(size: int, bold: bool) -> tuple[QFont, QFontMetricsF]:
    """Roboto at a height in pixels, and its measures."""
    font = fonts.font(size, bold)
    return font, QFontMetricsF(font)
