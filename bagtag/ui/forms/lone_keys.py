"""Single letters as keys, told from a scanner that types: only a letter that comes alone counts.

Shortcuts would not do: they take a letter out of a scan before the scanner is heard, and a scanned
code would add containers or scrap parts.
"""

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent

QUIET = 120
"""Milliseconds without another key; scanners send one every 5 to 20, people rarely under 50."""
HELD = (
    Qt.KeyboardModifier.ControlModifier
    | Qt.KeyboardModifier.AltModifier
    | Qt.KeyboardModifier.MetaModifier
)


class LoneKeys(QObject):
    """Hears the keys that a widget leaves over."""

    pressed = Signal(str)
    """One letter, large, that came alone."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._key = ""
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(QUIET)
        self._timer.timeout.connect(self._tell)

    def hear(self, event: QKeyEvent) -> bool:
        """Whether the key is a letter or digit, and so is dealt with here."""
        text = event.text()
        if not text.isalnum() or event.modifiers() & HELD:
            return False
        self._key = "" if self._timer.isActive() or event.isAutoRepeat() else text.upper()
        self._timer.start()
        return True

    def _tell(self) -> None:
        if self._key:
            self.pressed.emit(self._key)
