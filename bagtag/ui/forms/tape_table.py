"""A table that looks like pieces of tape one below the other, and not like a sheet."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
)

from bagtag.ui import theme


class RowPainter(QStyledItemDelegate):
    """Paints whole rows, `high` pixels high; each list says in `paint_row` what is in one."""

    def __init__(self, view: QAbstractItemView, high: int) -> None:
        super().__init__(view)
        self.view = view
        self._size = QSize(300, high)

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        return self._size

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.paint_row(painter, QRectF(option.rect), index.row())
        painter.restore()

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        """Paint the row at a place into its rectangle."""
        raise NotImplementedError

    def is_here(self, place: int) -> bool:
        """Whether the keys are for this row."""
        return place == self.view.currentIndex().row()

    def paint_tape(self, painter: QPainter, tape: QRectF, *, here: bool) -> None:
        """The piece of tape that a row stands on, framed where the keys are for it."""
        colours = theme.current()
        weight = (3.5 if self.view.hasFocus() else 2.0) if here else 1.0
        painter.setPen(QPen(colours.accent if here else colours.line, weight))
        painter.setBrush(colours.tape)
        inset = weight / 2
        painter.drawRoundedRect(tape.adjusted(inset, inset, -inset, -inset), 4, 4)


def dress(table: QTableView, row: int, step: int) -> None:
    """Rows `row` pixels high, scrolled by `step`; no grid, no headers, nothing edited in place."""
    down, across = table.verticalHeader(), table.horizontalHeader()
    down.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
    down.setDefaultSectionSize(row)
    across.setStretchLastSection(True)
    down.hide()
    across.hide()
    table.setShowGrid(False)
    table.setTabKeyNavigation(False)
    table.setCornerButtonEnabled(False)
    table.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    table.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.verticalScrollBar().setSingleStep(step)
