"""A table that looks like pieces of tape one below the other, and not like a sheet."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView


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
