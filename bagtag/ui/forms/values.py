"""Captioned values, side by side."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from bagtag.ui.forms.basics import clear_layout, label, tight


class Value(QWidget):
    """A small caption and below it what it says."""

    def __init__(self, caption: str, text: str, parent: QWidget, *, tone: str = "ink") -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        tight(column, 2)
        column.addWidget(label(caption, self, scale="small", tone="muted"))
        self.said = label(text, self, tone=tone)
        selectable = Qt.TextInteractionFlag.TextSelectableByMouse
        self.said.setTextInteractionFlags(selectable)
        column.addWidget(self.said)
        column.addStretch(1)
        self.setAccessibleName(f"{caption}: {text}")


class Values(QWidget):
    """Captioned values side by side, in as many columns as there is room for."""

    COLUMN = 230

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._grid = QGridLayout(self)
        tight(self._grid)
        self._grid.setHorizontalSpacing(24)
        self._grid.setVerticalSpacing(12)
        self._values: list[Value] = []
        self._columns = 0

    def show_values(self, pairs: list[tuple[str, str, str]]) -> None:
        """Caption, text and tone of each; those without text are left out."""
        clear_layout(self._grid)
        kept = [pair for pair in pairs if pair[1]]
        self._values = [Value(caption, text, self, tone=tone) for caption, text, tone in kept]
        self._columns = 0
        self._lay()

    def texts(self) -> dict[str, str]:
        """What is said, by caption."""
        return dict(value.accessibleName().split(": ", 1) for value in self._values)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay()

    def _lay(self) -> None:
        columns = max(1, min(4, self.width() // self.COLUMN))
        if columns == self._columns:
            return
        for column in range(max(self._columns, columns)):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)
        self._columns = columns
        for index, value in enumerate(self._values):
            self._grid.addWidget(value, index // columns, index % columns)
            value.show()
