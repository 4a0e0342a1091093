"""A page with one thing to say and what to do about it: no job yet, a store that will not open."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from bagtag.ui.forms.basics import Press


class PlainPage(QWidget):
    """A large sentence, a smaller one, and buttons. The first button has the focus of the page."""

    def __init__(self, head: str, body: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName(head)
        column = QVBoxLayout(self)
        column.setContentsMargins(40, 40, 40, 40)
        column.setSpacing(18)
        column.addStretch(2)
        for text, scale, tone in ((head, "big", "ink"), (body, "head", "muted")):
            column.addWidget(self._label(text, scale, tone))
        self._row = QHBoxLayout()
        self._row.setSpacing(12)
        self._row.addStretch(1)
        column.addSpacing(8)
        column.addLayout(self._row)
        column.addStretch(3)

    def add_button(self, word: str, role: str = "plain") -> QPushButton:
        made = Press(word, self)
        made.setProperty("role", role)
        made.setAccessibleName(word)
        if self.focusProxy() is None:
            self.setFocusProxy(made)
        self._row.insertWidget(self._row.count() - 1, made)
        return made

    def _label(self, text: str, scale: str, tone: str) -> QLabel:
        label = QLabel(self)
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setText(text)
        label.setWordWrap(True)
        label.setProperty("scale", scale)
        label.setProperty("tone", tone)
        return label
