"""A stage of the job: one of the words along the top of the window."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from bagtag.domain.change import Change
from bagtag.ui.desk import Desk


class Stage(QWidget):
    """A page that is refreshed when its job is chosen and when something in it changed.

    The window calls `enter` when the page comes to the front, and `hear` for every change while
    it is there; a page that is out of sight asks for fresh rows when it is entered.
    """

    title = ""
    escaped = Signal()
    """Escape was pressed, and nothing on the page was left to be put away."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk

    def enter(self) -> None:
        """Ask for everything the page shows."""

    def hear(self, change: Change) -> None:
        """Ask again for what the change touched; by default for everything."""
        if change.job_id in (0, self.desk.job_id):
            self.enter()

    def take_scan(self, _: str) -> bool:
        """Whether a scanned code is for this page, and done with; by default it is not."""
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.escaped.emit()
        else:
            super().keyPressEvent(event)
