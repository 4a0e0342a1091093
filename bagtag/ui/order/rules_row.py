"""A rule in words, with a button that drops it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QWidget

from bagtag.ui.forms.basics import Press, label


class DropPress(Press):
    """Delete drops the rule, as Enter does."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.click()
        else:
            super().keyPressEvent(event)


class RuleSlip(QFrame):
    """A rule on a piece of tape."""

    dropped = Signal(int)

    def __init__(self, rule_id: int, words: str, parent: QWidget, *, in_force: bool = True) -> None:
        super().__init__(parent)
        self.rule_id = rule_id
        self.setProperty("surface", "tape")
        said = words if in_force else f"{words}. Out of force."
        self.said = label(said, self, tone="ink" if in_force else "muted")
        self.drop = DropPress("Drop\u2002Del", self)
        self.drop.setProperty("role", "quiet")
        self.drop.setAccessibleName(f"Drop: {words}")
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 2, 4, 2)
        row.addWidget(self.said, 1)
        row.addWidget(self.drop)
        self.drop.clicked.connect(self._drop)

    def _drop(self) -> None:
        self.dropped.emit(self.rule_id)
