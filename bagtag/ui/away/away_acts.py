"""The act that finishes a page of Away, and the key that leaves it."""

from PySide6.QtCore import QElapsedTimer, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import ENTER, Press
from bagtag.ui.forms.lone_keys import QUIET

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


class SurePress(Press):
    """Enter right after a letter presses it not: a scan that was misread looks at nothing."""

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(text, parent)
        self._letter = QElapsedTimer()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        is_scanned = self._letter.isValid() and self._letter.elapsed() < QUIET
        if event.text().isalnum():
            self._letter.start()
            event.ignore()
        elif event.key() not in ENTER or not is_scanned:
            super().keyPressEvent(event)


def is_escape(event: QKeyEvent) -> bool:
    return event.key() == Qt.Key.Key_Escape and not event.modifiers()
