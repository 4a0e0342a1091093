"""What is asked in place, without a box in front of it: Enter answers, Escape drops it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.ui.forms.basics import ENTER, button, label

CAPTION = 20
"""How high a field's caption is with the room below it, in pixels."""


class Asking(QFrame):
    """A question with its answer and two buttons; Enter answers, Escape drops it."""

    answered = Signal()
    shut = Signal(bool)
    """Whether it has just been put away; False when it has been opened."""

    def __init__(self, word: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "tape")
        self.head = label("", self)
        self.fields = QHBoxLayout()
        self.fields.setSpacing(12)
        self.yes = button(word, self, role="primary")
        self.no = button("Leave it", self)
        self.yes.clicked.connect(self.answered)
        self.no.clicked.connect(self.hide)
        self._lay()
        self.hide()

    def _lay(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 10)
        column.setSpacing(8)
        column.addWidget(self.head)
        column.addLayout(self.fields)
        self._presses = QHBoxLayout()
        self._presses.setSpacing(12)
        self._presses.addWidget(self.yes)
        self._presses.addWidget(self.no)
        self._column = column

    def _end(self, *, beside: bool) -> None:
        """The buttons stand beside the last field, or in a row of their own."""
        if not beside:
            self._presses.addStretch(1)
            self._column.addLayout(self._presses)
            return
        below_captions = QVBoxLayout()
        below_captions.addSpacing(CAPTION)
        below_captions.addLayout(self._presses)
        below_captions.addStretch(1)
        self.fields.addLayout(below_captions)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.shut.emit(False)

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.shut.emit(True)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            self.answered.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.hide()
        else:
            super().keyPressEvent(event)
