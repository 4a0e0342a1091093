"""A step of the plan painted: its place beside the tape, on the tape what it is called."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem

from bagtag.domain.standing import Standing
from bagtag.ui import theme
from bagtag.ui.order.left_lines import StepLine
from bagtag.ui.strip.tape import Tape, measured

if TYPE_CHECKING:
    from bagtag.ui.order.order_list import OrderList

ROW, GAP = 54, 6
INDENT = 22
_GUTTER = 46.0
"""Left of the tapes, for the places in the plan."""
_STRONG = {Standing.NEXT, Standing.AWAY}


class OrderDelegate(QStyledItemDelegate):
    def __init__(self, view: OrderList) -> None:
        super().__init__(view)
        self._view = view

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
        line = self._view.lines.lines[index.row()]
        assert isinstance(line, StepLine)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(QPointF(option.rect.left(), option.rect.top() + GAP / 2))
        self._place(painter, line)
        left = _GUTTER + line.depth * INDENT
        painter.translate(left, 0)
        width = option.rect.width() - 2 - left
        has_keys = self._view.hasFocus()
        tape = Tape(painter, width, has_keys=has_keys, height=ROW - GAP)
        here = index.row() == self._view.currentIndex().row()
        shown = self._view.is_shown(index.row())
        self._tape(tape, line, chosen=here and shown)
        if here and has_keys and not shown:
            tape.keys_here()
        if self._view.is_moving(index.row()):
            _lifted(tape)
        painter.restore()

    @staticmethod
    def _place(painter: QPainter, line: StepLine) -> None:
        """The place at the right of its gutter, and a stroke down the side of a bench build."""
        colours, (font, _) = theme.current(), measured(theme.SMALL, False)
        painter.setFont(font)
        painter.setPen(QPen(colours.muted))
        room = QRectF(0, 0, _GUTTER - 10, ROW - GAP)
        painter.drawText(
            room, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, str(line.step.place)
        )
        painter.setPen(QPen(colours.line, 3))
        for depth in range(line.depth):
            x = _GUTTER + depth * INDENT + INDENT / 2
            painter.drawLine(QPointF(x, -GAP / 2), QPointF(x, ROW - GAP / 2))

    @staticmethod
    def _tape(tape: Tape, line: StepLine, *, chosen: bool) -> None:
        step, colours = line.step, tape.colours
        settled, strong = step.standing is Standing.IN, step.standing in _STRONG
        tape.ground(colours.card if settled else colours.tape, chosen=chosen)
        ink = colours.muted if settled else colours.ink
        word = line.word or step.standing.value
        end = tape.width - tape.right_room(word)
        tape.text(12, 21, step.called, 16, True, ink, tape.width - 14)
        tape.text(12, 39, line.under, 13, False, colours.muted, end)
        tape.right(39, word, colours.accent if strong else colours.muted, bold=strong)


def _lifted(tape: Tape) -> None:
    """A broken edge around what is on the move."""
    colours = tape.colours
    tape.painter.setBrush(Qt.BrushStyle.NoBrush)
    tape.painter.setPen(QPen(colours.paper, 4))
    box = QRectF(2, 2, tape.width - 4, tape.height - 4)
    tape.painter.drawRoundedRect(box, 4, 4)
    tape.painter.setPen(QPen(colours.accent, 2, Qt.PenStyle.DashLine))
    tape.painter.drawRoundedRect(box, 4, 4)
