"""Rows to choose from, narrowed by what is typed; ten thousand of them cost nothing to show."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QWidget

Index = QModelIndex | QPersistentModelIndex
_SPOKEN = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole)
NOWHERE = QModelIndex()


@dataclass(frozen=True, slots=True)
class PickRow:
    """`value` is what choosing it means, `text` is what is typed to find it; a quiet one
    is written in muted ink."""

    value: Any
    text: str
    detail: str = ""
    is_quiet: bool = False


class PickModel(QAbstractListModel):
    """Keeps the order it was given; `ticked` holds what is chosen, where several can be."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.ticked: list[Any] = []
        self._rows: Sequence[PickRow] = ()
        self._folded: list[str] = []
        self._places: dict[Any, int] = {}
        self._shown: list[int] = []

    def set_rows(self, rows: Sequence[PickRow]) -> None:
        self.beginResetModel()
        self._rows = rows
        self._folded = [row.text.casefold() for row in rows]
        self._places = {row.value: place for place, row in enumerate(rows)}
        self._shown = list(range(len(rows)))
        self.endResetModel()

    def narrow(self, typed: str) -> int:
        """Show the rows with all these words; the place of the one most likely meant, or -1."""
        words = typed.casefold().split()
        self.beginResetModel()
        self._shown = [
            place for place, text in enumerate(self._folded) if all(word in text for word in words)
        ]
        self.endResetModel()
        return self._likeliest(" ".join(words))

    def _likeliest(self, typed: str) -> int:
        """The one of that very number or name, else one that begins so, else the first."""
        texts = [self._folded[place] for place in self._shown]
        exact = (at for at, text in enumerate(texts) if is_named(text, typed))
        begins = (at for at, text in enumerate(texts) if text.startswith(typed))
        return next(exact, next(begins, 0 if texts else -1))

    def row_at(self, at: int) -> PickRow | None:
        return self._rows[self._shown[at]] if 0 <= at < len(self._shown) else None

    def row_of(self, value: Any) -> PickRow | None:
        """The row with this value, in sight or not."""
        place = self._places.get(value)
        return self._rows[place] if place is not None else None

    def at(self, value: Any) -> int:
        """Where this value is shown; -1 where it is not."""
        place = self._places.get(value, -1)
        return self._shown.index(place) if place in self._shown else -1

    def tick(self, value: Any) -> None:
        """Choose it, or no longer."""
        if value in self.ticked:
            self.ticked.remove(value)
        else:
            self.ticked.append(value)
        self.dataChanged.emit(self.index(0), self.index(self.rowCount() - 1))

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._shown)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        row = self.row_at(index.row()) if index.isValid() and role in _SPOKEN else None
        if row is None:
            return None
        chosen = "chosen" if row.value in self.ticked else ""
        return ", ".join(filter(None, (row.text, row.detail, chosen)))


def is_named(text: str, typed: str) -> bool:
    """Whether a row is of that very number or name; both in small letters."""
    return bool(typed) and typed in (text, *text.split(" ", 1))
