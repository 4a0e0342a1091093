"""A list of parts to choose from: by arrow, space and typing, or by dragging them somewhere."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QAbstractListModel,
    QMimeData,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRectF,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from bagtag.domain.standing import Standing
from bagtag.ui.theme import current

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


class Ticks(QStyledItemDelegate):
    """A box before each part, ticked when it is chosen, so that colour alone says nothing."""

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
