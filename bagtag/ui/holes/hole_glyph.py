"""The shape that tells a line of hardware from the others, on the map and in the list of lines."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.hole_check import corners, shape_of
from bagtag.ui import theme

INNER = 0.55
"""How large the inner shape of a double one is."""


def paint_glyph(
    painter: QPainter, mark: str, middle: QPointF, radius: float, colours: theme.Colours,
    *, is_heavy: bool = False,
) -> None:  # fmt: skip
    """Draw the shape of a line, with the middle of the hole as a dot; a hole of no line is a
    dashed circle. A light edge keeps it in sight on a dark photo."""
    path = _path(mark, radius).translated(middle)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    edge = 6.5 if is_heavy else 5.0
    painter.setPen(_pen(colours.card, edge))
    painter.drawPath(path)
    style = Qt.PenStyle.SolidLine if mark else Qt.PenStyle.DotLine
    painter.setPen(_pen(colours.ink, 3.5 if is_heavy else 2.0, style))
    painter.drawPath(path)
    painter.setPen(QPen(colours.card, 1))
    painter.setBrush(colours.ink)
    painter.drawEllipse(middle, 2.5, 2.5)


def _pen(ink: QColor, width: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
    return QPen(ink, width, style, Qt.PenCapStyle.SquareCap, Qt.PenJoinStyle.RoundJoin)


def _path(mark: str, radius: float) -> QPainterPath:
    shape = shape_of(mark)
    path = QPainterPath()
    for share in (1.0, INNER) if shape.is_double and mark else (1.0,):
        points = [QPointF(x, y) * radius * share for x, y in corners(shape)] if mark else []
        if points:
            path.addPolygon(QPolygonF([*points, points[0]]))
        else:
            path.addEllipse(QPointF(0, 0), radius * share, radius * share)
    return path


class Glyph(QWidget):
    """The shape of a line, beside its words."""

    SIDE = 40

    def __init__(self, mark: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._mark = mark
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(self.SIDE, self.SIDE)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        room = QRectF(self.rect())
        paint_glyph(painter, self._mark, room.center(), self.SIDE * 0.3, theme.current())
        painter.end()
