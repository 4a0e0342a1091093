"""A box before each line of a list, ticked where the line is chosen."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRectF
from PySide6.QtGui import QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from bagtag.ui.theme import current

Index = QModelIndex | QPersistentModelIndex


class Ticks(QStyledItemDelegate):
    """A box before each line, ticked when it is chosen, so that colour alone says nothing."""

    ROOM = 30

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        inner = QStyleOptionViewItem(option)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        colours = current()
        if chosen:
            painter.fillRect(option.rect, colours.tape)
        inner.rect = option.rect.adjusted(self.ROOM, 0, 0, 0)
        super().paint(painter, inner, index)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(option.rect.x() + 10, option.rect.center().y() - 8, 18, 18)
        current_row = bool(option.state & QStyle.StateFlag.State_HasFocus)
        painter.setPen(QPen(colours.accent if current_row else colours.muted, 2))
        painter.drawRoundedRect(box, 3, 3)
        if chosen:
            painter.setPen(QPen(colours.ink, 2.5))
            spots = ((0.2, 0.55), (0.42, 0.76), (0.8, 0.26))
            points = [
                QPointF(box.x() + box.width() * x, box.y() + box.height() * y) for x, y in spots
            ]
            painter.drawPolyline(QPolygonF(points))
        painter.restore()
