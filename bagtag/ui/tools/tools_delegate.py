"""A tool painted as a piece of tape: a box for laid out, its name, and a large box for back."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractItemView

from bagtag.ui import fonts, theme
from bagtag.ui.forms.tape_table import RowPainter
from bagtag.ui.tools.tools_lines import Heading, ToolLine, Where
from bagtag.ui.tools.tools_model import ToolsModel

ROW, HEAD, GAP = 66, 44, 8
"""Heights of a tool, of which the gap to the next, and of a heading."""
LEFT, RIGHT = 58.0, 132.0
"""Widths of the two columns of boxes: laid out, counted back."""
_OUT, _BACK = 24.0, 34.0
_TICK = ((0.2, 0.52), (0.42, 0.76), (0.82, 0.24))
_WORDS = {Where.AWAY: "", Where.OUT: "count back", Where.BACK: "back"}


class ToolsDelegate(RowPainter):
    def __init__(self, model: ToolsModel, parent: QAbstractItemView) -> None:
        super().__init__(parent, ROW)
        self._model = model

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        line = self._model.lines[place]
        if isinstance(line, Heading):
            _heading(painter, rect, line)
        else:
            tape = rect.adjusted(0, GAP / 2, -2, -GAP / 2)
            self.paint_tape(painter, tape, here=self.is_here(place))
            _tool(painter, tape, line)


def _heading(painter: QPainter, rect: QRectF, heading: Heading) -> None:
    """The title, and over each column of boxes what a tick in it says."""
    colours = theme.current()
    base = rect.bottom() - 10
    painter.setFont(fonts.font(theme.BODY, bold=True))
    painter.setPen(QPen(colours.ink))
    painter.drawText(QPointF(rect.left() + (LEFT if heading.has_boxes else 2), base), heading.title)
    if not heading.has_boxes:
        return
    painter.setFont(fonts.font(theme.SMALL))
    painter.setPen(QPen(colours.muted))
    painter.drawText(QPointF(rect.left() + 4, base), "laid out")
    right = QRectF(rect.right() - RIGHT, rect.top(), RIGHT - 2, rect.height() - 6)
    foot = Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignHCenter
    painter.drawText(right, foot, "counted back")


def _tool(painter: QPainter, tape: QRectF, line: ToolLine) -> None:
    left = tape.left() + 14
    right = tape.right() - 14
    if line.is_counted:
        left, right = tape.left() + LEFT, tape.right() - RIGHT
        _out_box(painter, tape, line)
        _back_box(painter, tape, line)
    _words(painter, QRectF(left, tape.top(), right - left, tape.height()), line)


def _out_box(painter: QPainter, tape: QRectF, line: ToolLine) -> None:
    colours = theme.current()
    box = QRectF(tape.left() + 16, tape.center().y() - _OUT / 2, _OUT, _OUT)
    _box(painter, box, colours.ink, ticked=line.where is not Where.AWAY)


def _back_box(painter: QPainter, tape: QRectF, line: ToolLine) -> None:
    """Large and with its word while the tool is out: this is the box that must not be forgotten."""
    colours, word = theme.current(), _WORDS[line.where]
    edge = {Where.AWAY: colours.line, Where.OUT: colours.accent, Where.BACK: colours.muted}
    middle, high = tape.right() - RIGHT / 2, _BACK + (16 if word else 0)
    box = QRectF(middle - _BACK / 2, tape.center().y() - high / 2, _BACK, _BACK)
    _box(painter, box, edge[line.where], ticked=line.where is Where.BACK)
    painter.setFont(fonts.font(theme.SMALL, bold=line.where is Where.OUT))
    painter.setPen(QPen(colours.accent if line.where is Where.OUT else colours.muted))
    wide = QFontMetricsF(painter.font()).horizontalAdvance(word)
    painter.drawText(QPointF(middle - wide / 2, box.bottom() + 15), word)


def _box(painter: QPainter, box: QRectF, edge: QColor, *, ticked: bool) -> None:
    colours = theme.current()
    painter.setBrush(colours.card)
    painter.setPen(QPen(edge, 2))
    painter.drawRoundedRect(box, 4, 4)
    if ticked:
        cap, join = Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin
        painter.setPen(QPen(colours.ink, box.width() / 8, Qt.PenStyle.SolidLine, cap, join))
        spots = [QPointF(box.x() + x * box.width(), box.y() + y * box.height()) for x, y in _TICK]
        painter.drawPolyline(QPolygonF(spots))


def _words(painter: QPainter, room: QRectF, line: ToolLine) -> None:
    """The name and below it what it is for; "likely" where nobody wrote it."""
    colours, elide = theme.current(), Qt.TextElideMode.ElideRight
    name, small = fonts.font(18, bold=True), fonts.font(15)
    likely = "likely" if line.need is not None and line.need.is_likely else ""
    after = QFontMetricsF(small).horizontalAdvance(likely) + 12 if likely else 0
    title = QFontMetricsF(name).elidedText(line.title, elide, room.width() - after - 8)
    base = room.center().y() - 3
    painter.setFont(name)
    painter.setPen(QPen(colours.ink))
    painter.drawText(QPointF(room.left(), base), title)
    painter.setFont(small)
    painter.setPen(QPen(colours.muted))
    if likely:
        start = room.left() + QFontMetricsF(name).horizontalAdvance(title) + 12
        painter.drawText(QPointF(start, base), likely)
    detail = QFontMetricsF(small).elidedText(line.detail, elide, room.width() - 8)
    painter.drawText(QPointF(room.left(), base + 22), detail)
