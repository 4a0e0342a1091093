"""A finding painted as a piece of tape: its part, what is missing, and what Enter does about it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QAbstractItemView

from bagtag.ui import fonts, theme
from bagtag.ui.audit.audit_model import AuditModel, Heading
from bagtag.ui.audit.audit_words import act_of
from bagtag.ui.forms.tape_table import RowPainter
from bagtag.ui.strip.thumbs import Thumbs

if TYPE_CHECKING:
    from bagtag.services.audit import AuditRow

ROW, HEAD, GAP = 72, 42, 8
"""Heights of a finding, of which the gap to the next, and of a heading."""
THUMB = 46
_LEFT, _EDGE, _NAME, _SENTENCE = 66.0, 14.0, 16, 15
_WRAP = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop


class AuditDelegate(RowPainter):
    def __init__(self, model: AuditModel, thumbs: Thumbs, parent: QAbstractItemView) -> None:
        super().__init__(parent, ROW)
        self._model, self._thumbs = model, thumbs

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        line = self._model.lines[place]
        if isinstance(line, Heading):
            _heading(painter, rect, line)
        else:
            chosen = self.view.selectionModel().isSelected(self._model.index(place, 0))
            here = self.is_here(place)
            tape = rect.adjusted(0, GAP / 2, -2, -GAP / 2)
            self._ground(painter, tape, chosen=chosen, here=here)
            self._row(painter, tape, line, here=here)

    def _ground(self, painter: QPainter, tape: QRectF, *, chosen: bool, here: bool) -> None:
        """The one that Enter is for has a bold edge; others chosen with it a thin one."""
        colours = theme.current()
        weight = (3.5 if self.view.hasFocus() else 2.0) if here else 1.5 if chosen else 1.0
        painter.setPen(QPen(colours.accent if chosen or here else colours.line, weight))
        painter.setBrush(colours.tape)
        inset = weight / 2
        painter.drawRoundedRect(tape.adjusted(inset, inset, -inset, -inset), 4, 4)

    def _row(self, painter: QPainter, tape: QRectF, row: AuditRow, *, here: bool) -> None:
        colours = theme.current()
        right = tape.right() - _EDGE
        right -= self._thumb(painter, tape, row, right) if row.thumb else 0
        word = f"Enter: {act_of(row.finding).small}" if here else row.container
        font = fonts.font(theme.SMALL, bold=here)
        painter.setFont(font)
        painter.setPen(QPen(colours.accent if here else colours.muted))
        wide = QFontMetricsF(font).horizontalAdvance(word)
        painter.drawText(QPointF(right - wide, tape.center().y() + 5), word)
        right -= max(wide, 120) + 18
        if row.number:
            size = 18 if len(row.number) < 5 else 13
            painter.setFont(fonts.font(size, bold=True))
            painter.setPen(QPen(colours.ink))
            painter.drawText(QPointF(tape.left() + _EDGE, tape.center().y() + 6), row.number)
        self._words(painter, QRectF(tape.left() + _LEFT, tape.top(), 1, tape.height()), row, right)

    def _words(self, painter: QPainter, box: QRectF, row: AuditRow, right: float) -> None:
        """The name, and below it the sentence in one line or two."""
        colours, width = theme.current(), right - box.left()
        name_font, font = fonts.font(_NAME, bold=True), fonts.font(_SENTENCE)
        said, metrics = row.finding.sentence, QFontMetricsF(font)
        lines = 1 if metrics.horizontalAdvance(said) <= width else 2
        top = box.center().y() - (22 + lines * metrics.height()) / 2
        painter.setPen(QPen(colours.ink))
        painter.setFont(name_font)
        elide = Qt.TextElideMode.ElideRight
        name = QFontMetricsF(name_font).elidedText(row.name, elide, width)
        painter.drawText(QPointF(box.left(), top + 16), name)
        painter.setFont(font)
        room = QRectF(box.left(), top + 22, width, 2 * metrics.height() + 1)
        painter.drawText(room, int(_WRAP), metrics.elidedText(said, elide, 1.9 * width))

    def _thumb(self, painter: QPainter, tape: QRectF, row: AuditRow, right: float) -> float:
        """Paint the thumbnail so that it ends there; the width it takes."""
        ratio = painter.device().devicePixelRatioF()
        pixmap = self._thumbs.get(row.thumb, THUMB, ratio)
        if pixmap is not None and not pixmap.isNull():
            painter.drawPixmap(QPointF(right - THUMB, tape.center().y() - THUMB / 2), pixmap)
        return THUMB + 14.0


def _heading(painter: QPainter, rect: QRectF, heading: Heading) -> None:
    colours, font = theme.current(), fonts.font(theme.BODY, bold=True)
    painter.setFont(font)
    painter.setPen(QPen(colours.ink))
    base = rect.bottom() - 10
    painter.drawText(QPointF(rect.left() + 2, base), heading.lack.heading)
    wide = QFontMetricsF(font).horizontalAdvance(heading.lack.heading)
    painter.setPen(QPen(colours.muted))
    painter.setFont(fonts.font(theme.BODY))
    painter.drawText(QPointF(rect.left() + wide + 14, base), str(heading.count))
