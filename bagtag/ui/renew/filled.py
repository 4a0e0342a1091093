"""A form of Renew that is filled in: its head, its fields, two buttons."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.ui.forms.basics import ENTER, button, is_inside, label, tight
from bagtag.ui.forms.fields_form import FieldsForm
from bagtag.ui.forms.sight import InSight, scrolling


class Filled(QFrame):
    """A form with its head, what is wrong with none of its fields, and two buttons. Enter keeps,
    Esc leaves."""

    kept = Signal()
    left = Signal()

    def __init__(self, form: FieldsForm, word: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.form = form
        self.head = label("", self, scale="head")
        self.wrong = label("", self, tone="accent")
        self.keep = button(f"{word}\u2002Enter", self, role="primary", name=word)
        self.leave = button("Leave it\u2002Esc", self, role="quiet", name="Leave it")
        acts = QHBoxLayout()
        for press in (self.keep, self.leave):
            acts.addWidget(press)
        acts.addStretch(1)
        column = QVBoxLayout(self)
        tight(column, 10)
        area = scrolling(form, self)
        InSight(area, ())
        for widget in (self.head, area, self.wrong):
            column.addWidget(widget)
        column.setStretchFactor(area, 1)
        column.addLayout(acts)
        self.wrong.hide()
        self.keep.clicked.connect(self.kept)
        self.leave.clicked.connect(self.left)

    def say(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER and is_inside(self.focusWidget(), self):
            self.kept.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)
