"""A column that scrolls, and what stands in its place while there is nothing in it."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from bagtag.ui.forms.basics import label, tight


class Scroll(QScrollArea):
    """A column that scrolls up and down, never sideways."""

    def __init__(self, parent: QWidget, name: str) -> None:
        super().__init__(parent)
        self.body = QWidget(self)
        self.column = QVBoxLayout(self.body)
        tight(self.column, 12)
        self.setWidget(self.body)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName(name)
        self.viewport().setAutoFillBackground(False)
        self.body.setAutoFillBackground(False)

    def minimumSizeHint(self) -> QSize:
        return QSize(120, 60)


class Emptiness(QWidget):
    """What a stage says when there is nothing to do in it, and what comes next."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        tight(column, 8)
        self.head = label("", self, scale="head")
        self.next = label("", self, tone="muted")
        column.addWidget(self.head)
        column.addWidget(self.next)
        column.addStretch(1)

    def say(self, head: str, what_next: str) -> None:
        self.head.setText(head)
        self.next.setText(what_next)
