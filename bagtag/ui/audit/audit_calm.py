"""What the audit page says when there is nothing to see to: large and calm."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.ui.forms.basics import label


class AuditCalm(QWidget):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.head = label("", self, scale="big")
        self.next = label("", self, scale="head", tone="muted")
        column = QVBoxLayout(self)
        column.setContentsMargins(40, 20, 40, 40)
        column.setSpacing(14)
        column.addStretch(2)
        for said in (self.head, self.next):
            said.setAlignment(Qt.AlignmentFlag.AlignHCenter)
            column.addWidget(said)
        column.addStretch(3)

    def say(self, head: str, what_next: str) -> None:
        self.head.setText(head)
        self.next.setText(what_next)
