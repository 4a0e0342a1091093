"""A list of pieces of tape that the keys walk, passing over its headings."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QElapsedTimer, QItemSelectionModel, Qt
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QTableView, QWidget

from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.forms.spoken_rows import Index, SpokenRows
from bagtag.ui.forms.tape_table import dress

_STEPS = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}


class WalkedRows(SpokenRows):
    """Lines, some of which may be headings: each list says in `is_heading` which."""

    def is_heading(self, line: Any) -> bool:
        return False

    def flags(self, index: Index) -> Qt.ItemFlag:
        """A heading cannot be chosen."""
        is_line = self.line_at(index.row()) is not None
        return super().flags(index) if is_line else Qt.ItemFlag.ItemIsEnabled

    def line_at(self, place: int) -> Any:
        """The line at a place; None for a heading, and where there is none."""
        line = self.lines[place] if 0 <= place < len(self.lines) else None
        return None if line is None or self.is_heading(line) else line

    def places(self) -> list[int]:
        """Where the lines stand, without the headings."""
        return [place for place, line in enumerate(self.lines) if not self.is_heading(line)]


class WalkedList(QTableView):
    """A table of one column, so that a long list paints at once. One line is chosen at a time."""

    def __init__(self, name: str, rows: WalkedRows, high: int, parent: QWidget) -> None:
        super().__init__(parent)
        rows.setParent(self)  # gone before the view, it would have it laid out once more
        self._rows, self._high = rows, high
        self._letter = QElapsedTimer()
        self.setAccessibleName(name)
        self.setProperty("bare", "true")
        self.setModel(rows)
        dress(self, high, high // 2)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)

    def size_rows(self, heading: int) -> None:
        """Headings are `heading` pixels high, all other lines as high as the list was made for."""
        down = self.verticalHeader()
        for place, line in enumerate(self._rows.lines):
            down.resizeSection(place, heading if self._rows.is_heading(line) else self._high)

    def go_to(self, place: int) -> None:
        """Choose the line at a place, or the nearest one after it, else the last."""
        places = self._rows.places()
        if not places:
            return
        found = next((one for one in places if one >= place), places[-1])
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
        self.selectionModel().setCurrentIndex(self._rows.index(found), flag)
        first = found and self._rows.line_at(found - 1) is None
        self.scrollTo(self._rows.index(found - 1 if first else found))
        self.scrollTo(self._rows.index(found))

    def walk(self, key: Qt.Key) -> bool:
        """Whether a key only walks the list; then it has."""
        if key in _STEPS:
            self._step(_STEPS[key])
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self.go_to(0 if key == Qt.Key.Key_Home else self._rows.rowCount())
        else:
            return False
        return True

    def pass_on(self, event: QKeyEvent) -> bool:
        """Whether a key is for the page: a letter, which may be one of a scan, or Escape."""
        if not event.text().isalnum() and event.key() != Qt.Key.Key_Escape:
            return False
        self._letter.start()
        event.ignore()
        return True

    def is_scanned(self) -> bool:
        """Whether an Enter ends what a scanner typed: that does nothing here."""
        return self._letter.isValid() and self._letter.elapsed() < QUIET

    def _step(self, by: int) -> None:
        here = self.currentIndex().row()
        beyond = [place for place in self._rows.places() if (place - here) * by > 0]
        if beyond:
            self.go_to(beyond[0] if by > 0 else beyond[-1])

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scrollTo(self.currentIndex())

    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.viewport().update()
