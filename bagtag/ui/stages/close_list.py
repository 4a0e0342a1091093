"""What does not add up, as pieces of tape: each leads to its part or its task."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import (
    QPointF,
    QRectF,
    Qt,
    Signal,
)
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QTableView,
    QWidget,
)

from bagtag.domain.closing_rows import Leftover
from bagtag.ui import fonts, theme
from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.spoken_rows import Index, SpokenRows
from bagtag.ui.forms.tape_table import RowPainter, dress
from bagtag.ui.stages.close_words import rest_of, weight_of

ROW, GAP, EDGE = 72, 8, 14
"""Heights of a row, of which the gap to the next; the room at its sides."""
_SENTENCE = 15
_WRAP = int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop)
_DOTS = Qt.TextElideMode.ElideRight


class LeftoverModel(SpokenRows):
    def spoken(self, line: Leftover) -> str:
        return line.sentence


class _Tape(RowPainter):
    """The thing in bold, below it what it most likely is, at the right its pieces."""

    def __init__(self, view: LeftoverList) -> None:
        super().__init__(view, ROW)
        self._leftovers = view.leftovers

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        here = self.is_here(place)
        tape = rect.adjusted(0, GAP / 2, -2, -GAP / 2)
        self.paint_tape(painter, tape, here=here)
        one = self._leftovers.lines[place]
        word = "Enter: show it" if here and self.view.hasFocus() else weight_of(one)
        right = self._weight(painter, tape, word, here=here)
        self._words(painter, tape, one, right)

    def _weight(self, painter: QPainter, tape: QRectF, word: str, *, here: bool) -> float:
        """Paint the word at the right; where the room before it ends."""
        colours, font = theme.current(), fonts.font(theme.SMALL, bold=here)
        painter.setFont(font)
        painter.setPen(QPen(colours.accent if here else colours.muted))
        wide = QFontMetricsF(font).horizontalAdvance(word)
        right = tape.right() - EDGE
        painter.drawText(QPointF(right - wide, tape.center().y() + 5), word)
        return right - max(wide, 96) - 18

    def _words(self, painter: QPainter, tape: QRectF, one: Leftover, right: float) -> None:
        rest = rest_of(one)
        left = tape.left() + EDGE
        width = right - left
        bold, font = fonts.font(theme.BODY, bold=True), fonts.font(_SENTENCE)
        metrics = QFontMetricsF(font)
        lines = 0 if not rest else 1 if metrics.horizontalAdvance(rest) <= width else 2
        top = tape.center().y() - (22 + lines * metrics.height()) / 2
        painter.setPen(QPen(theme.current().ink))
        painter.setFont(bold)
        shown = QFontMetricsF(bold).elidedText(one.subject, _DOTS, width)
        painter.drawText(QPointF(left, top + 16), shown)
        painter.setFont(font)
        room = QRectF(left, top + 22, width, 2 * metrics.height() + 1)
        painter.drawText(room, _WRAP, metrics.elidedText(rest, _DOTS, 1.9 * width))


class LeftoverList(QTableView):
    """A table of one column, so that a long list paints at once. `chosen` says which step the row
    that was pressed leads to."""

    chosen = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.leftovers = LeftoverModel(self)
        self.setAccessibleName("What does not add up, the most telling first")
        self.setProperty("bare", "true")
        self.setModel(self.leftovers)
        self.setItemDelegate(_Tape(self))
        dress(self, ROW, ROW // 2)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.viewport().setCursor(Qt.CursorShape.PointingHandCursor)
        self.clicked.connect(self._press)

    def show_rows(self, rows: Sequence[Leftover]) -> None:
        """Show these; the place stays where it was as far as there is one."""
        place = max(self.currentIndex().row(), 0)
        self.leftovers.put(rows)
        if rows:
            self.setCurrentIndex(self.leftovers.index(min(place, len(rows) - 1)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            self._press(self.currentIndex())
        else:
            super().keyPressEvent(event)

    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.viewport().update()

    def _press(self, index: Index) -> None:
        if index.isValid():
            self.chosen.emit(self.leftovers.lines[index.row()].ref)
