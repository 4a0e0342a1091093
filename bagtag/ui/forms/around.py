"""A widget made of others, that hands the keys on to the one they are for."""

from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QWidget


class Around(QWidget):
    """It has no focus proxy: Tab would jump back to that from whatever stands after it."""

    def first(self) -> QWidget:
        """What gets the keys: each widget made of others knows."""
        raise NotImplementedError

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.first().setFocus(event.reason())
