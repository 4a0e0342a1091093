"""The top of the entry card: what is being entered, its name, how many."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.ui.forms.basics import Field, Line, button, say_at, tight
from bagtag.ui.forms.figures import count
from bagtag.ui.forms.inks import sized


class QuantityLine(Line):
    """How many; Up and Down count."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Up: 1, Qt.Key.Key_Down: -1}.get(Qt.Key(event.key()))
        now = count(self.text())
        if step is not None and now is not None:
            self.setText(str(min(max(now + step, 1), 9999)))
        else:
            super().keyPressEvent(event)


class EntryHead(QWidget):
    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.name = Line(self, "Name of the part", hint="What came off?")
        self.quantity = QuantityLine(self, "How many")
        for line in (self.name, self.quantity):
            line.set_face(_big(line))
            line.setMinimumHeight(60)
            line.textChanged.connect(self._tell)
        self.quantity.setFixedWidth(96)
        self.quantity.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.fields = {
            "name": Field("Name", self.name, self),
            "quantity": Field("How many", self.quantity, self),
        }
        self.shut = button("Leave  Esc", self, role="quiet", name="Leave this entry")
        self._lay_out()

    def _lay_out(self) -> None:
        row = QHBoxLayout(self)
        tight(row, 12)
        row.addWidget(self.fields["name"], 1, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self.fields["quantity"], 0, Qt.AlignmentFlag.AlignTop)
        beside = QVBoxLayout()  # level with the line, below the height of a caption
        tight(beside, 0)
        beside.addSpacing(20)
        beside.addWidget(self.shut)
        beside.addStretch(1)
        row.addLayout(beside)

    def say_what(self, what: str) -> None:
        """What is being entered: `New entry`, `Correct 28`."""
        self.fields["name"].caption.setText(what)

    def say(self, field: str, sentence: str) -> bool:
        return say_at(self.fields, field, sentence)

    def say_nothing(self) -> None:
        for field in self.fields.values():
            field.say("")

    def _tell(self) -> None:
        self.changed.emit()


def _big(line: Line) -> QFont:
    return sized(line, 30, bold=True)
