"""A line of Renew painted as a piece of tape: its sign, what it is, how far it has come."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QAbstractItemView

from bagtag.ui import theme
from bagtag.ui.forms.tape_table import RowPainter
from bagtag.ui.renew.renew_lines import Heading, pieces
from bagtag.ui.renew.renew_model import RenewModel
from bagtag.ui.renew.renew_signs import SETTLED, URGENT, paint_stand
from bagtag.ui.renew.renew_words import under
from bagtag.ui.strip.tape import Tape, measured

ROW, HEAD, GAP = 66, 44, 8
"""Heights of a line, of which the gap to the next, and of a heading."""
_RING, _LEFT, _TEXT = 26.0, 16.0, 58.0


class RenewDelegate(RowPainter):
    def __init__(self, model: RenewModel, parent: QAbstractItemView) -> None:
        super().__init__(parent, ROW)
        self._model = model

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        line = self._model.lines[place]
        if isinstance(line, Heading):
            _heading(painter, rect, line)
            return
        painter.translate(rect.left(), rect.top() + GAP / 2)
        has_keys = self.view.hasFocus()
        tape = Tape(painter, rect.width() - 2, has_keys=has_keys, height=ROW - GAP)
        stand = self._model.stand_at(place)
        colours = theme.current()
        settled = stand in SETTLED
        tape.ground(colours.card if settled else colours.tape, chosen=self.is_here(place))
        paint_stand(painter, QRectF(_LEFT, (ROW - GAP - _RING) / 2, _RING, _RING), stand)
        strong = stand in URGENT
        tape.right(24, stand.value, colours.accent if strong else colours.muted, bold=strong)
        end = tape.width - tape.right_room(stand.value)
        ink = colours.muted if settled else colours.ink
        tape.text(_TEXT, 24, pieces(line.new_part), 16, True, ink, end)
        tape.text(_TEXT, 44, under(line), 13, False, colours.muted, tape.width - 14)


def _heading(painter: QPainter, rect: QRectF, heading: Heading) -> None:
    colours = theme.current()
    font, metrics = measured(theme.BODY, True)
    small, small_metrics = measured(theme.SMALL, False)
    base, said = rect.bottom() - 10, small_metrics.horizontalAdvance(heading.said)
    painter.setFont(font)
    painter.setPen(QPen(colours.ink))
    room = rect.width() - said - 24
    title = metrics.elidedText(heading.title, Qt.TextElideMode.ElideRight, room)
    painter.drawText(QPointF(rect.left() + 2, base), title)
    painter.setFont(small)
    painter.setPen(QPen(colours.muted))
    painter.drawText(QPointF(rect.right() - said - 4, base), heading.said)
