"""The lines of a list of the build as a model; headings and quiet lines cannot be chosen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Qt

from bagtag.ui.forms.spoken_rows import Index, SpokenRows
from bagtag.ui.order.left_lines import Key, Line, key_of, spoken


class LinesModel(SpokenRows):
    def __init__(self, parent: Any = None) -> None:
        super().__init__(parent)
        self.lines: list[Line] = []
        self._keys: list[Key | None] = []
        self._places: dict[Key, int] = {}

    def show_lines(self, lines: Sequence[Line]) -> bool:
        """Show other lines; False where they stand as before, and only what they say is new."""
        new = list(lines)
        keys = [key_of(line) for line in new]
        if keys == self._keys:
            self.lines = new
            if new:
                self.dataChanged.emit(self.index(0), self.index(len(new) - 1))
            return False
        self.beginResetModel()
        self.lines = new
        self._keys = keys
        self._places = {key: place for place, key in enumerate(keys) if key is not None}
        self.endResetModel()
        return True

    def line_at(self, place: int) -> Line | None:
        return self.lines[place] if 0 <= place < len(self.lines) else None

    def key_at(self, place: int) -> Key | None:
        line = self.line_at(place)
        return key_of(line) if line is not None else None

    def place_of(self, key: Key) -> int:
        """The row of a line, or -1."""
        return self._places.get(key, -1)

    def spoken(self, line: Line) -> str:
        return spoken(line)

    def flags(self, index: Index) -> Qt.ItemFlag:
        can_be_chosen = index.isValid() and self.key_at(index.row()) is not None
        return super().flags(index) if can_be_chosen else Qt.ItemFlag.NoItemFlags
