"""A list of parts to choose from: by arrow, space and typing, or by dragging them somewhere."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QAbstractListModel,
    QMimeData,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListView,
    QWidget,
)

from bagtag.domain.standing import Standing
from bagtag.ui.forms.ticks import Ticks

if TYPE_CHECKING:
    from bagtag.services.views import StripRow

MIME = "application/x-bagtag-removals"
"""Ids of removals, in decimal with spaces between."""
Index = QModelIndex | QPersistentModelIndex
_ID = Qt.ItemDataRole.UserRole


def ids_in(data: QMimeData) -> list[int]:
    """The removals that are dragged; none when it is something else."""
    if not data.hasFormat(MIME):
        return []
    return [int(word) for word in bytes(data.data(MIME).data()).decode("ascii").split()]


class Parts(QAbstractListModel):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._rows: list[tuple[int, str]] = []

    def show_rows(self, rows: Sequence["StripRow"]) -> None:
        self.beginResetModel()
        self._rows = [(row.removal.id, words(row)) for row in rows]
        self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        removal_id, text = self._rows[index.row()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return text
        return removal_id if role == _ID else None

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        return flags | Qt.ItemFlag.ItemIsDragEnabled if index.isValid() else flags

    def mimeTypes(self) -> list[str]:
        return [MIME]

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:
        data = QMimeData()
        ids = [self._rows[index.row()][0] for index in indexes]
        data.setData(MIME, " ".join(map(str, ids)).encode("ascii"))
        return data


def words(row: "StripRow") -> str:
    pieces = f"{row.removal.quantity} × " if row.removal.quantity > 1 else ""
    away = " (away)" if row.standing is Standing.AWAY else ""
    return f"{row.removal.number}   {pieces}{row.removal.name}{away}"


class PartList(QListView):
    """Several can be chosen; `changed` says that others are."""

    changed = Signal()

    def __init__(self, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.parts = Parts(self)
        self.setModel(self.parts)
        self.setItemDelegate(Ticks(self))
        self.setAccessibleName(name)
        self.setUniformItemSizes(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.MultiSelection)
        self.setDragEnabled(True)
        self.setDragDropMode(QAbstractItemView.DragDropMode.DragOnly)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.selectionModel().selectionChanged.connect(self.changed)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Letters are left to the page, which may have acts on them."""
        if event.text().isalnum() and not event.modifiers():
            event.ignore()
        else:
            super().keyPressEvent(event)

    def show_rows(self, rows: Sequence["StripRow"]) -> None:
        """Show parts; those chosen before stay chosen where they are still there."""
        kept = set(self.chosen())
        self.parts.show_rows(rows)
        self.choose(kept)

    def chosen(self) -> list[int]:
        rows = sorted(index.row() for index in self.selectionModel().selectedIndexes())
        return [int(str(self.parts.index(row).data(_ID))) for row in rows]

    def choose(self, ids: Sequence[int] | set[int]) -> None:
        """Choose exactly these."""
        select = self.selectionModel().SelectionFlag.Select
        self.clearSelection()
        for row in range(self.parts.rowCount()):
            index = self.parts.index(row)
            if index.data(_ID) in ids:
                self.selectionModel().select(index, select)
        self.changed.emit()
