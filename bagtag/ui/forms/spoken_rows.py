"""Rows of a list that a `RowPainter` paints whole: the model gives away what is read out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()
_SPOKEN = {Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole}


class SpokenRows(QAbstractListModel):
    """Each list says in `spoken` how one of its lines is read out."""

    def __init__(self, parent: Any = None) -> None:
        super().__init__(parent)
        self.lines: Sequence[Any] = ()

    def put(self, lines: Sequence[Any]) -> None:
        """Show other lines."""
        self.beginResetModel()
        self.lines = lines
        self.endResetModel()

    def spoken(self, line: Any) -> str:
        """A line as it is read out to who cannot see it."""
        raise NotImplementedError

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.lines)

    def data(self, index: Index, role: int = 0) -> Any:
        if not index.isValid() or role not in _SPOKEN:
            return None
        return self.spoken(self.lines[index.row()])
