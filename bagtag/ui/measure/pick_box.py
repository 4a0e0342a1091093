"""One of a list that may be long, folded to one line."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QSizePolicy, QWidget

from bagtag.ui.forms.basics import TOUCH


class PickBox(QComboBox):
    """Up and Down choose, Space opens. Letters and digits choose nothing: a scan has them too; nor
    does the wheel, that was meant for the page."""

    def __init__(self, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setMinimumHeight(TOUCH)
        self.setMinimumContentsLength(12)
        self.setSizeAdjustPolicy(self.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.text().isprintable() and event.text() and event.key() != Qt.Key.Key_Space:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()
