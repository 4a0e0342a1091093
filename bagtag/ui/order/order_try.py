"""What would come of a step that is on the move, and after it was let go: why."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.ui.forms.basics import ENTER, Field, Line, button, label, tight
from bagtag.ui.order.what_if_words import along_words, breaks_words
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.services.rules import WhatIf

LOOKING = "Looking where it would stand …"
STILL = "It stands where it stood. Go on with Alt and the arrows, or Esc."


class TryPanel(QFrame):
    """Three faces: what a move would make; whether to make it although others break; why."""

    make = Signal()
    put_back = Signal()
    told_why = Signal(str)
    """Why the rule is there; empty where nothing was said."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "tape")
        self.words = label("", self)
        self.words.setStyleSheet("font-weight: bold;")
        self.breaks = label("", self, tone="accent")
        self.moves = label("", self, scale="small", tone="muted")
        self.line = Line(self, "Why (optional)", hint="why (optional)")
        self.why = Field("Why (optional)", self.line, self)
        self.why.caption.hide()
        self.go = button("Make it\u2002Enter", self, role="primary", name="Make the rule")
        self.back = button("Put back\u2002Esc", self, name="Put it back")
        self.done = button("Done\u2002Enter", self, name="Done")
        self._lay()
        self.go.clicked.connect(self.make)
        self.back.clicked.connect(self.put_back)
        self.done.clicked.connect(self._tell_why)

    def _lay(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 8)
        column.setSpacing(6)
        for said in (self.words, self.breaks, self.moves):
            column.addWidget(said)
        row = QHBoxLayout()
        tight(row, 8)
        row.addWidget(self.why, 1)
        for press in (self.go, self.back, self.done):
            row.addWidget(press)
        row.addStretch(0)
        column.addLayout(row)

    # Its faces

    def show_looking(self) -> None:
        self._say(LOOKING)
        self._offer(self.back)

    def show_still(self) -> None:
        self._say(STILL)
        self._offer(self.back)

    def show_found(self, found: WhatIf) -> None:
        """What a move would make, which ties it would break, and what comes along."""
        self._say(found.words, breaks_words(found), along_words(found))
        self._offer(*((self.go, self.back) if found.kind is not None else (self.back,)))

    def show_wrong(self, sentence: str) -> None:
        self._say(sentence)
        self._offer(self.back)

    def ask_anyway(self, found: WhatIf) -> None:
        """It breaks others: the safe choice has the keys."""
        self.show_found(found)
        self.go.setText("Make it all the same")
        mark(self.go, role="plain")
        mark(self.back, role="primary")
        self.back.setFocus()

    def ask_why(self, words: str) -> None:
        """The rule is made; a word on why may follow."""
        self._say(f"✓ {words}")
        self.line.clear()
        self._offer(self.why, self.done)
        self.line.setFocus()

    @property
    def asks_why(self) -> bool:
        return not self.why.isHidden()

    def _say(self, words: str, breaks: str = "", moves: str = "") -> None:
        for said, text in ((self.words, words), (self.breaks, breaks), (self.moves, moves)):
            said.setText(text)
            said.setVisible(bool(text))
        self.setAccessibleName(" ".join(filter(None, (words, breaks, moves))))
        self.show()

    def _offer(self, *wanted: QWidget) -> None:
        for widget in (self.why, self.go, self.back, self.done):
            widget.setVisible(widget in wanted)
        self.go.setText("Make it\u2002Enter")
        mark(self.go, role="primary")
        mark(self.back, role="plain")

    def _tell_why(self) -> None:
        self.told_why.emit(self.line.text().strip())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER and self.asks_why:
            self._tell_why()
        elif event.key() == Qt.Key.Key_Escape and self.asks_why:
            self.told_why.emit("")
        elif event.key() == Qt.Key.Key_Escape:
            self.put_back.emit()
        else:
            super().keyPressEvent(event)
