"""One thing that holds the job up, painted as a piece of tape: its sign, what it is, what to do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QAbstractItemView

from bagtag.domain.readiness import Chase
from bagtag.ui import fonts, theme
from bagtag.ui.forms.spoken_rows import SpokenRows
from bagtag.ui.forms.tape_table import RowPainter
from bagtag.ui.holding import holding_words as words
from bagtag.ui.strip.thumbs import Thumbs

if TYPE_CHECKING:
    from bagtag.services.readiness import HeldRow

ROW, GAP = 104, 8
THUMB = 64
_LEFT, _EDGE = 66.0, 14.0
_ELIDE = Qt.TextElideMode.ElideRight


class HoldingDelegate(RowPainter):
    def __init__(self, rows: SpokenRows, thumbs: Thumbs, parent: QAbstractItemView) -> None:
        super().__init__(parent, ROW)
        self._rows, self._thumbs = rows, thumbs

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        row: HeldRow = self._rows.lines[place]
        tape = rect.adjusted(0, GAP / 2, -2, -GAP / 2)
        self.paint_tape(painter, tape, here=self.is_here(place))
        _sign(painter, tape, row.held.chase)
        right = tape.right() - _EDGE
        right -= self._thumb(painter, tape, row, right) if row.thumb else 0
        left = tape.left() + _LEFT
        _words(painter, QRectF(left, tape.top(), right - left, 0), row)

    def _thumb(self, painter: QPainter, tape: QRectF, row: HeldRow, right: float) -> float:
        ratio = painter.device().devicePixelRatioF()
        pixmap = self._thumbs.get(row.thumb, THUMB, ratio)
        if pixmap is not None and not pixmap.isNull():
            painter.drawPixmap(QPointF(right - THUMB, tape.center().y() - THUMB / 2), pixmap)
        return THUMB + 14.0


def _sign(painter: QPainter, tape: QRectF, chase: Chase) -> None:
    """A ring with the sign of what is to be done; full where it presses."""
    colours = theme.current()
    ring = QRectF(tape.left() + 16, tape.center().y() - 17, 34, 34)
    presses = chase is not Chase.ON_ITS_WAY
    painter.setPen(QPen(colours.accent if presses else colours.muted, 2))
    painter.setBrush(colours.accent if chase is Chase.LATE else Qt.BrushStyle.NoBrush)
    painter.drawEllipse(ring)
    ink = colours.on_accent if chase is Chase.LATE else colours.accent if presses else colours.muted
    painter.setPen(QPen(ink))
    painter.setFont(fonts.font(18, bold=True))
    painter.drawText(ring, Qt.AlignmentFlag.AlignCenter, words.SIGNS[chase])


def _words(painter: QPainter, room: QRectF, row: HeldRow) -> None:
    """What it is, large; what to do about it and how it stands; what waits for it."""
    colours = theme.current()
    frees, small = words.frees_words(row), fonts.font(theme.SMALL, bold=True)
    wide = QFontMetricsF(small).horizontalAdvance(frees) + 16
    painter.setFont(small)
    painter.setPen(QPen(colours.accent if row.held.alone else colours.muted))
    painter.drawText(QPointF(room.right() - wide + 8, room.top() + 29), frees)
    act = QRectF(room.left(), room.top() + 30, room.width() - wide, 0)
    _line(painter, act, row.called, fonts.font(18, bold=True), colours.ink)
    said = f"{row.act} {row.why[:1].upper()}{row.why[1:]}."
    _line(painter, room.translated(0, 54), said, fonts.font(15), colours.ink)
    if row.waiting:
        said = f"then {', '.join(row.waiting)}"
        _line(painter, room.translated(0, 76), said, fonts.font(theme.SMALL), colours.muted)


def _line(painter: QPainter, at: QRectF, said: str, font: QFont, ink: QColor) -> None:
    """One line of text on the top of `at`, cut where there is no room."""
    painter.setFont(font)
    painter.setPen(QPen(ink))
    painter.drawText(at.topLeft(), QFontMetricsF(font).elidedText(said, _ELIDE, at.width()))
