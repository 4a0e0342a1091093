"""One part that goes away, as a piece of tape: open while one says what is wanted of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.ui.away.looks import LookBox, Looks
from bagtag.ui.away.pack_wanted import WantedForm
from bagtag.ui.forms.acts import keyless
from bagtag.ui.forms.basics import button, label, tight

if TYPE_CHECKING:
    from bagtag.services.views import StripRow

NOTHING = "Nothing is said of it yet."


class PackPart(QFrame):
    """The head opens it and shuts it; `let_go` takes the part out of what goes."""

    opened = Signal(int)
    let_go = Signal(int)

    def __init__(self, row: StripRow, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        self.removal_id = row.removal.id
        self.setProperty("surface", "tape")
        self.look = LookBox(looks, row.removal, row.thumb, self)
        called = f"{row.removal.number}  {row.removal.name}"
        self.head = button(keyless(called), self, role="quiet")
        self.head.setAccessibleName(f"What is wanted of {row.removal.number} {row.removal.name}")
        self.head.setStyleSheet("text-align: left; font-weight: bold; padding-left: 0;")
        self.said = label(NOTHING, self, tone="muted")
        self.out = button("Not this one", self, role="quiet")
        self.out.setAccessibleName(f"{row.removal.number} {row.removal.name} does not go")
        self.form = WantedForm(self)
        self._lay()
        self.head.clicked.connect(self._turn)
        self.out.clicked.connect(self._let_go)
        self.form.changed.connect(self._tell)

    def _lay(self) -> None:
        words = QVBoxLayout()
        tight(words, 0)
        words.addWidget(self.head)
        words.addWidget(self.said)
        top = QHBoxLayout()
        tight(top, 12)
        top.addWidget(self.look)
        top.addLayout(words, 1)
        top.addWidget(self.out)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 10)
        column.setSpacing(8)
        column.addLayout(top)
        column.addWidget(self.form)
        self.form.hide()

    def open(self, opened: bool) -> None:
        self.form.setVisible(opened)
        self.said.setVisible(not opened)
        self._tell()

    @property
    def is_open(self) -> bool:
        return not self.form.isHidden()

    def _turn(self) -> None:
        if self.is_open:
            self.open(False)
        else:
            self.opened.emit(self.removal_id)

    def _let_go(self) -> None:
        self.let_go.emit(self.removal_id)

    def _tell(self) -> None:
        self.said.setText(self.form.told() or NOTHING)
