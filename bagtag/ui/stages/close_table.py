"""A table of the closing count: few columns, a thin line between rows, bold where it is open."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from bagtag.domain.fitting import Ref
from bagtag.ui import fonts
from bagtag.ui.forms.basics import ENTER, TOUCH
from bagtag.ui.forms.tape_table import dress
from bagtag.ui.stages.close_words import TableRow
from bagtag.ui.theme import BODY, current

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()
FIGURE = 92
"""The width of a column of figures, in pixels."""
_ROLE = Qt.ItemDataRole
_MIDDLE = Qt.AlignmentFlag.AlignVCenter
_FIGURES = ("Off", "Back", "Renewed", "Scrapped", "Pieces", "No.")


class CountModel(QAbstractTableModel):
    def __init__(self, heads: Sequence[str], parent: QWidget) -> None:
        super().__init__(parent)
        self.heads = tuple(heads)
        self.rows: Sequence[TableRow] = ()

    def show_rows(self, rows: Sequence[TableRow]) -> None:
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.heads)

    def data(self, index: Index, role: int = _ROLE.DisplayRole) -> Any:
        if not index.isValid():
            return None
        row, column = self.rows[index.row()], index.column()
        if role == _ROLE.DisplayRole:
            return row.cells[column]
        if role == _ROLE.AccessibleTextRole:
            return self.spoken(row) if column == 0 else f"{self.heads[column]} {row.cells[column]}"
        if role == _ROLE.FontRole:
            return fonts.font(BODY, bold=row.open_ and column == len(self.heads) - 1)
        if role == _ROLE.TextAlignmentRole:
            return self._side(column) | _MIDDLE
        return None

    def headerData(self, section: int, way: Qt.Orientation, role: int = _ROLE.DisplayRole) -> Any:
        if way is not Qt.Orientation.Horizontal:
            return None
        if role == _ROLE.DisplayRole:
            return self.heads[section]
        return self._side(section) | _MIDDLE if role == _ROLE.TextAlignmentRole else None

    def spoken(self, row: TableRow) -> str:
        """`M6x12 bolt. Off 4, Back 3, What does not add up 1 left`"""
        said = zip(self.heads[1:], row.cells[1:], strict=True)
        rest = ", ".join(f"{head} {cell}" for head, cell in said if cell != "–")
        return f"{row.cells[0].strip()}. {rest}"

    def is_figure(self, column: int) -> bool:
        return self.heads[column] in _FIGURES

    def _side(self, column: int) -> Qt.AlignmentFlag:
        flag = Qt.AlignmentFlag
        return flag.AlignRight if self.is_figure(column) and column else flag.AlignLeft


class _Lines(QStyledItemDelegate):
    """A thin line below each row, and no box round a single cell."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        super().paint(painter, option, index)
        painter.setPen(QPen(current().line, 1))
        painter.drawLine(option.rect.bottomLeft(), option.rect.bottomRight())


class CountTable(QTableView):
    """`chosen` says which step the row that was pressed leads to."""

    chosen = Signal(object)

    def __init__(self, name: str, heads: Sequence[str], parent: QWidget) -> None:
        super().__init__(parent)
        self.count = CountModel(heads, self)
        self.setAccessibleName(name)
        self.setModel(self.count)
        self.setItemDelegate(_Lines(self))
        self.setStyleSheet("QTableView { border-width: 2px; }")  # as wide as with the focus
        dress(self, TOUCH, TOUCH // 2)
        self._head()
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setWordWrap(False)
        self.clicked.connect(self._press)

    def _head(self) -> None:
        across = self.horizontalHeader()
        across.show()
        across.setHighlightSections(False)
        across.setSectionsClickable(False)
        across.setMinimumSectionSize(40)
        across.setStyleSheet("QHeaderView::section { padding: 6px 12px 6px 10px; }")  # as the cells
        for column in range(self.count.columnCount()):
            is_figure = self.count.is_figure(column)
            mode = QHeaderView.ResizeMode.Fixed if is_figure else QHeaderView.ResizeMode.Stretch
            across.setSectionResizeMode(column, mode)
            if is_figure:
                self.setColumnWidth(column, FIGURE)

    def show_rows(self, rows: Sequence[TableRow]) -> None:
        """Show rows; the place stays where it was as far as there is one."""
        place = max(self.currentIndex().row(), 0)
        self.count.show_rows(rows)
        if rows:
            self.setCurrentIndex(self.count.index(min(place, len(rows) - 1), 0))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            self._press(self.currentIndex())
        else:
            super().keyPressEvent(event)

    def _press(self, index: Index) -> None:
        ref: Ref | None = self.count.rows[index.row()].ref if index.isValid() else None
        if ref is not None:
            self.chosen.emit(ref)
