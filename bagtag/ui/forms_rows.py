"""A short list of what was entered, each to be opened again or taken out."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.ui.forms import button, clear_layout, tight
from bagtag.ui.forms_plain import Slip


class Row(QWidget):
    """One line: Enter opens it, Delete takes it out."""

    opened = Signal()
    removed = Signal()

    def __init__(self, text: str, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.press = Slip(text, self)
        self.press.setAccessibleName(f"Change {name}: {text}")
        self.press.setToolTip("Enter changes it, Delete takes it out")
        self.out = button("Take out", self, role="quiet", name=f"Take out {name}: {text}")
        row = QHBoxLayout(self)
        tight(row, 6)
        row.addWidget(self.press, 1)
        row.addWidget(self.out)
        self.press.clicked.connect(self.opened)
        self.out.clicked.connect(self.removed)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.removed.emit()
        else:
            super().keyPressEvent(event)


class Rows(QWidget):
    """The lines, and which one is open."""

    opened = Signal(int)
    removed = Signal(int)

    def __init__(self, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._name = name
        self._rows: list[Row] = []
        self._column = QVBoxLayout(self)
        tight(self._column, 6)

    def set_rows(self, texts: Sequence[str], opened: int | None = None) -> None:
        """Show these lines; the open one is not shown, its editor stands for it."""
        if [row.press.text() for row in self._rows] == list(texts):
            self._show_open(opened)
            return
        clear_layout(self._column)
        self._rows = [Row(text, self._name, self) for text in texts]
        for row in self._rows:
            row.opened.connect(self._open)
            row.removed.connect(self._remove)
            self._column.addWidget(row)
        self._show_open(opened)

    def row(self, place: int) -> Row:
        return self._rows[place]

    def press(self, place: int) -> Slip:
        return self._rows[place].press

    def __len__(self) -> int:
        return len(self._rows)

    def _show_open(self, opened: int | None) -> None:
        for place, row in enumerate(self._rows):
            row.setVisible(place != opened)
        self.setVisible(any(place != opened for place in range(len(self._rows))))

    def _open(self) -> None:
        self.opened.emit(self._place())

    def _remove(self) -> None:
        self.removed.emit(self._place())

    def _place(self) -> int:
        row = self.sender()
        return next(place for place, known in enumerate(self._rows) if known is row)
