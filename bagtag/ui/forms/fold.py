"""Fields that few entries need, folded away until something is filled in."""

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.ui.forms.basics import button, tight


class Fold(QWidget):
    """A quiet button that says what is below it, and opens and shuts it."""

    def __init__(self, caption: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._caption = caption
        self.press = button("", self, role="quiet")
        self.fold = QWidget(self)
        row = QHBoxLayout()
        tight(row)
        row.addWidget(self.press)
        row.addStretch(1)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addLayout(row)
        column.addWidget(self.fold)
        self.press.clicked.connect(self._turn)
        self.open(False)

    def begin(self) -> None:
        """Put the keys on the first of its fields."""
        raise NotImplementedError

    def open(self, opened: bool) -> None:
        self.fold.setVisible(opened)
        self.press.setText(f"{'Less' if opened else 'More'}: {self._caption}")
        self.press.setAccessibleName(self.press.text())

    def _turn(self) -> None:
        self.open(self.fold.isHidden())
        if not self.fold.isHidden():
            self.begin()
