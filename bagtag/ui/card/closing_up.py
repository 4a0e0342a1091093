"""Closing up: what is still missing behind a cover, before it goes on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.fitting import TaskKind
from bagtag.ui.card.sign_words import waits_words
from bagtag.ui.card.step_list import StepLine, StepList
from bagtag.ui.card.task_signs import sign_of
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, Line, button, label, tight

if TYPE_CHECKING:
    from bagtag.services.signing import Missing, SignSheet

ROW = 72


class ClosingUp(QWidget):
    """Everything behind an opener that is not in. To leave it open is the first choice; to close
    it takes a reason."""

    closed = Signal()
    """It is to be closed all the same; `reason` has the text."""
    left = Signal()

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.head = label("", self, scale="head")
        self.also = label("", self, tone="muted")
        self.list = StepList(desk, "What is missing behind it", self, high=ROW)
        self.line = Line(self, "Why it is closed now", hint="for example: only to try the gasket")
        self.reason = Field("Why it is closed now", self.line, self)
        self.leave = button("Leave it open\u2002Esc", self, role="primary", name="Leave it open")
        self.close_it = button("Close it all the same", self)
        self.list.shown.connect(desk.show_step)
        self.leave.clicked.connect(self.left)
        self.close_it.clicked.connect(self.answer)
        self._lay()

    def _lay(self) -> None:
        column = QVBoxLayout(self)
        tight(column, 8)
        column.addWidget(self.head)
        column.addWidget(self.also)
        column.addWidget(self.list, 1)
        column.addWidget(self.reason)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.leave)
        row.addWidget(self.close_it)
        row.addStretch(1)
        column.addLayout(row)

    def show_sheet(self, sheet: SignSheet, reason: str) -> None:
        self.head.setText(f"Close it over {len(sheet.missing)} missing?")
        also = waits_words(sheet)
        self.also.setText("It also waits: " + "; ".join(also) + ".")
        self.also.setVisible(bool(also))
        self.list.show_lines([_line(one) for one in sheet.missing])
        self.line.setText(reason)
        self.reason.say("")

    def answer(self) -> None:
        """Close it, once there is a reason."""
        if self.line.text().strip():
            self.closed.emit()
            return
        self.reason.say("Say in a few words why it is closed over what is missing.")
        self.line.setFocus()


def _line(one: Missing) -> StepLine:
    detail = ". ".join(filter(None, (one.area, one.sentence)))
    sign = sign_of(TaskKind.OTHER) if one.ref.task_id is not None else None
    return StepLine(one.ref, one.called, detail, one.thumb, sign)
