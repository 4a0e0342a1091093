"""Closing up: what is still missing behind a cover, before it goes on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.fitting import TaskKind
from bagtag.domain.phrases import capital
from bagtag.domain.picture import draw
from bagtag.ui.card.sign_words import beside_what_is_behind
from bagtag.ui.card.step_list import StepLine, StepList
from bagtag.ui.card.task_signs import sign_of
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, Line, button, label, tight

if TYPE_CHECKING:
    from bagtag.services.signing import Missing, SignSheet

ROW, LOW = 72, 300
CAPTION, HINT = "Why it is closed now", "for example: only to try the gasket"


class ClosingUp(QWidget):
    """Everything behind an opener that is not in. To leave it open is the first choice; to close
    it takes a reason."""

    closed = Signal()
    """It is to be closed all the same; `reason` has the text."""
    left = Signal()

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.head = label("", self, scale="head")
        self.list = StepList(desk, "What is missing behind it", self, high=ROW)
        self.line = Line(self, CAPTION, hint=HINT)
        self.reason = Field(CAPTION, self.line, self)
        self.leave = button("Leave it open\u2002Esc", self, role="primary", name="Leave it open")
        self.close_it = button("Close it", self)
        self.list.shown.connect(desk.show_step)
        self.leave.clicked.connect(self.left)
        self.close_it.clicked.connect(self.answer)
        self._lay()

    def _lay(self) -> None:
        column = QVBoxLayout(self)
        tight(column, 8)
        column.addWidget(self.head)
        column.addWidget(self.list, 1)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.leave)
        row.addWidget(self.close_it)
        row.addStretch(1)
        self._foot = QBoxLayout(QBoxLayout.Direction.TopToBottom)
        self._foot.setSpacing(8)
        self._foot.addWidget(self.reason, 1)
        self._foot.addLayout(row)
        column.addLayout(self._foot)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where it is low the reason stands beside the buttons: the list needs the height."""
        super().resizeEvent(event)
        low = self.height() < LOW
        self.reason.caption.setVisible(not low)
        self.line.setPlaceholderText(CAPTION.lower() if low else HINT)
        way = QBoxLayout.Direction
        self._foot.setDirection(way.LeftToRight if low else way.TopToBottom)

    def show_sheet(self, sheet: SignSheet, reason: str) -> None:
        self.head.setText(f"Close it over {len(sheet.missing)} missing?")
        missing = [_line(one, sheet.datum) for one in sheet.missing]
        self.list.show_lines([*missing, *_also(sheet)] if missing else [])
        self.line.setText(reason)
        self.reason.say("")

    def answer(self) -> None:
        """Close it, once there is a reason."""
        if self.line.text().strip():
            self.closed.emit()
            return
        self.reason.say("Say in a few words why it is closed over what is missing.")
        self.line.setFocus()


def _line(one: Missing, datum: Datum) -> StepLine:
    """With its photo, or else with how it sits."""
    detail = ". ".join(filter(None, (one.area, one.sentence)))
    sign = sign_of(TaskKind.OTHER) if one.ref.task_id is not None else None
    if one.facts:
        sign = draw(one.facts, datum, aspect=1)
    return StepLine(one.ref, one.called, detail, one.thumb, sign)


def _also(sheet: SignSheet) -> list[StepLine]:
    """What else speaks against it: tools still out, steps that lie before it, and what keeps it out
    by itself."""
    other = sign_of(TaskKind.OTHER)
    tools = [
        StepLine(sheet.ref, capital(one.name), "laid out, not counted back", sign=other)
        for one in sheet.tools_out
    ]
    return tools + [
        StepLine(
            hindrance.ref or sheet.ref,
            capital(hindrance.sentence),
            "it waits for this too",
            sign=other,
        )
        for hindrance in beside_what_is_behind(sheet)
    ]
