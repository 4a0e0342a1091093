"""What a rule would do to the plan, told before it is made."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import Beside, Ref, RuleKind
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import label
from bagtag.ui.order.order_newest import Newest
from bagtag.ui.order.what_if_words import along_words, breaks_words

if TYPE_CHECKING:
    from bagtag.services.rules import WhatIf

_SO_ALREADY = "The plan has it so already; the rule keeps it so."


class Outcome(QFrame):
    """The rule in its words; below them what it would break, and what would come along."""

    known = Signal()
    """What was looked for is found, or cannot be said."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "tape")
        self._job_id = desk.job_id
        self.has_breaks = False
        self.words = label("", self)
        self.words.setStyleSheet("font-weight: bold;")
        self.breaks = label("", self, tone="accent")
        self.along = label("", self, scale="small", tone="muted")
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 10)
        column.setSpacing(4)
        for said in (self.words, self.breaks, self.along):
            column.addWidget(said)
        self.newest = Newest(desk, self)
        self.newest.answered.connect(self._found)
        self.newest.failed.connect(self._failed)
        self.hide()

    @property
    def is_waiting(self) -> bool:
        return self.newest.is_waiting

    def forget(self) -> None:
        """There is no rule yet."""
        self.newest.forget()
        self.has_breaks = False
        self.hide()

    def show_rule(self, words: str, *, is_so: bool = False) -> None:
        """The rule in words; `is_so` where the plan has it so without it."""
        self.newest.forget()
        self.has_breaks = False
        self.words.setText(words)
        self._say("", _SO_ALREADY if is_so else "")
        self.show()

    def look(self, kind: RuleKind, step: Ref, other: Ref) -> None:
        """Ask what the rule would do: the other is brought before the step, or the step held."""
        moved, beside, by = (other, Beside.BEFORE, step)
        if kind is RuleKind.UNTIL:
            moved, beside, by = step, Beside.AFTER, other
        self.newest.ask(services.rules.what_if, self._job_id, moved, beside, by)

    def _found(self, found: WhatIf) -> None:
        self.has_breaks = bool(found.breaks)
        self._say(breaks_words(found), along_words(found))
        self.known.emit()

    def _failed(self, error: Exception) -> None:
        """What is signed off cannot be moved, and a rule for it can still be made."""
        if isinstance(error, Trouble):
            self.known.emit()
        else:
            self.newest.desk.tell_error(error)

    def _say(self, breaks: str, along: str) -> None:
        for said, text in ((self.breaks, breaks), (self.along, along)):
            said.setText(text)
            said.setVisible(bool(text))
