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


class GatheredKeys(QObject):
    """Hears the keys that a widget leaves over, and tells them once it is quiet."""

    pressed = Signal(str)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._keys = ""
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(QUIET)
        self._timer.timeout.connect(self._tell)

    def _tell(self) -> None:
        """What the keys that rested mean: each sort of hearer knows."""
        raise NotImplementedError


class LoneKeys(GatheredKeys):
    """Tells one letter, large, that came alone."""

    def hear(self, event: QKeyEvent) -> bool:
        """Whether the key is a letter or digit, and so is dealt with here."""
        text = event.text()
        if not text.isalnum() or event.modifiers() & HELD:
            return False
        self._keys = "" if self._timer.isActive() or event.isAutoRepeat() else text.upper()
        self._timer.start()
        return True

    def _tell(self) -> None:
        if self._keys:
            self.pressed.emit(self._keys)
