"""The act that finishes a page of Away, and the key that leaves it."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QWidget

from bagtag.ui.card.card_parts import Act

FINISH = "Ctrl+Return"


class FinishAct(Act):
    """Ctrl+Enter does it, with either Enter; it says so as it is said everywhere."""

    def __init__(self, word: str, parent: QWidget) -> None:
        super().__init__(word, FINISH, parent, role="primary")
        self._other = QShortcut(QKeySequence("Ctrl+Enter"), parent)
        self._other.setAutoRepeat(False)
        self._other.activated.connect(self.click)

    def say(self, word: str) -> None:
        super().say(word)
        self.setText(f"{word}\u2002Ctrl+Enter")
        self.setToolTip(f"{word} (Ctrl+Enter)")


def is_escape(event: QKeyEvent) -> bool:
    return event.key() == Qt.Key.Key_Escape and not event.modifiers()
