"""A step of the plan painted: its place beside the tape, on the tape what it is called."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from bagtag.domain.standing import Standing
from bagtag.ui import theme
from bagtag.ui.forms.tape_table import RowPainter
from bagtag.ui.order.left_lines import StepLine
from bagtag.ui.strip.tape import Tape, measured

if TYPE_CHECKING:
    from bagtag.ui.order.left_list import LeftList

ROW, GAP = 54, 6
INDENT = 22
_GUTTER = 46.0
"""Left of the tapes, for the places in the plan."""
_STRONG = {Standing.NEXT, Standing.AWAY}


class OrderDelegate(RowPainter):
    """`is_moving` says whether the step at a place is being moved."""

    def __init__(self, view: LeftList, is_moving: Callable[[int], bool]) -> None:
        super().__init__(view, ROW)
        self._list, self._is_moving = view, is_moving

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        line = self._list.lines.lines[place]
        assert isinstance(line, StepLine)
        painter.translate(rect.left(), rect.top() + GAP / 2)
        self._place(painter, line)
        left = _GUTTER + line.depth * INDENT
        painter.translate(left, 0)
        width = rect.width() - 2 - left
        has_keys = self.view.hasFocus()
        tape = Tape(painter, width, has_keys=has_keys, height=ROW - GAP)
        here, shown = self.is_here(place), self._list.is_shown(place)
        self._tape(tape, line, chosen=here and shown)
        if here and has_keys and not shown:
            tape.keys_here()
        if self._is_moving(place):
            _lifted(tape)

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
        name, small = (21, 39) if line.under else (30, 29)  # alone it stands in the middle
        tape.text(12, name, step.called, 16, True, ink, tape.width - 14 if line.under else end)
        tape.text(12, small, line.under, 13, False, colours.muted, end)
        tape.right(small, word, colours.accent if strong else colours.muted, bold=strong)


def _lifted(tape: Tape) -> None:
    """A broken edge around what is on the move."""
    colours = tape.colours
    tape.painter.setBrush(Qt.BrushStyle.NoBrush)
    tape.painter.setPen(QPen(colours.paper, 4))
    box = QRectF(2, 2, tape.width - 4, tape.height - 4)
    tape.painter.drawRoundedRect(box, 4, 4)
    tape.painter.setPen(QPen(colours.accent, 2, Qt.PenStyle.DashLine))
    tape.painter.drawRoundedRect(box, 4, 4)
