"""A rule painted as a piece of tape: its words, and whether it is in force."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from bagtag.ui import theme
from bagtag.ui.forms.tape_table import RowPainter
from bagtag.ui.order.left_lines import RuleLine, force_words
from bagtag.ui.order.left_list import LeftList
from bagtag.ui.strip.tape import Tape, measured

ROW, GAP = 76, 8
_EDGE = 14.0
_WRAP = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop


class RulesDelegate(RowPainter):
    def __init__(self, view: LeftList) -> None:
        super().__init__(view, ROW)
        self._lines = view.lines

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        line = self._lines.lines[place]
        assert isinstance(line, RuleLine)
        painter.translate(rect.left(), rect.top() + GAP / 2)
        width, has_keys = rect.width() - 2, self.view.hasFocus()
        tape = Tape(painter, width, has_keys=has_keys, height=ROW - GAP)
        chosen = self.is_here(place)
        tape.ground(tape.colours.tape if line.row.in_force else tape.colours.card, chosen=chosen)
        _words(painter, line, width)


def _words(painter: QPainter, line: RuleLine, width: float) -> None:
    """The rule on one line or two, and below it whether it is in force."""
    colours, (font, metrics) = theme.current(), measured(15, False)
    room = QRectF(_EDGE, 7, width - 2 * _EDGE, 2 * metrics.height() + 1)
    said = metrics.elidedText(line.row.words, Qt.TextElideMode.ElideRight, 1.85 * room.width())
    painter.setFont(font)
    painter.setPen(QPen(colours.ink if line.row.in_force else colours.muted))
    painter.drawText(room, int(_WRAP), said)
    painter.setFont(measured(theme.SMALL, not line.row.in_force)[0])
    painter.setPen(QPen(colours.muted if line.row.in_force else colours.accent))
    force, small = force_words(line.row), measured(theme.SMALL, True)[1]
    shown = small.elidedText(force, Qt.TextElideMode.ElideRight, room.width())
    painter.drawText(QPointF(_EDGE, ROW - GAP - 9), shown)
