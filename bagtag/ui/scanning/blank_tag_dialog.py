"""A blank tag was scanned: what shall it hang on?"""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QLabel, QPushButton, QVBoxLayout, QWidget


class BlankTagDialog(QDialog):
    """Asks once and closes."""

    on_part = Signal()
    on_entry = Signal()
    on_bag = Signal()

    def __init__(self, code: str, part: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(f"Blank tag {code}")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._column = column = QVBoxLayout(self)
        column.setContentsMargins(28, 24, 28, 24)
        column.setSpacing(12)
        column.addWidget(self._label(f"The tag {code} is blank.", "head", "ink"))
        column.addWidget(self._label("What shall it hang on?", "body", "muted"))
        if part:
            self._button(f"On {part}", self.on_part, "primary")
        self._button("On the next entry", self.on_entry, "plain" if part else "primary")
        self._button("On a new bag", self.on_bag)
        self._button("Leave it blank", None, "quiet")

    def _label(self, text: str, scale: str, tone: str) -> QLabel:
        label = QLabel(self)
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setText(text)
        label.setProperty("scale", scale)
        label.setProperty("tone", tone)
        return label

    def _button(self, word: str, signal: object, role: str = "plain") -> None:
        made = QPushButton(word.replace("&", "&&"), self)
        made.setProperty("role", role)
        made.setAccessibleName(word)
        if signal is not None:
            made.clicked.connect(signal)
        made.clicked.connect(self.accept)
        self._column.addWidget(made)
