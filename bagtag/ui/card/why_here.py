"""Why a step stands where it does in the order, in place on its card."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.fitting import Ref
from bagtag.domain.phrases import capital
from bagtag.ui import fonts, theme
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import button, clear_layout, label, tight
from bagtag.ui.order.rules_row import RuleSlip

if TYPE_CHECKING:
    from bagtag.services.board import Reasons

AS_LOGGED = "It stands where the log has it: the last off goes on first."
AS_PUT = "It stands where it was put when it was added."


def as_it_stands(ref: Ref) -> str:
    """Of a step that nothing holds back or brings forward."""
    return AS_LOGGED if ref.removal_id is not None else AS_PUT


class WhyHere(QFrame):
    """What holds it back, what brought it forward, and the rules that name it, each to be
    dropped."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.ref: Ref | None = None
        self.setProperty("surface", "tape")
        self.setAccessibleName("Why here")
        self.head = label("Why here", self)
        self.head.setFont(fonts.font(theme.BODY, bold=True))
        self.said = label("", self)
        self.rules = QWidget(self)
        self._rows = QVBoxLayout(self.rules)
        tight(self._rows, 4)
        self.close_it = button("Put it away\u2002Esc", self, role="quiet", name="Put it away")
        self.close_it.clicked.connect(self.put_away)
        self._lay()
        desk.changed.connect(self._heard)
        self.hide()

    def _lay(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.head, 1)
        top.addWidget(self.close_it)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 4, 8, 10)
        column.setSpacing(4)
        column.addLayout(top)
        column.addWidget(self.said)
        column.addWidget(self.rules)

    def show_step(self, ref: Ref) -> None:
        """Say why this step stands where it does."""
        self.ref = ref
        read = partial(services.board.reasons, who=self.desk.who)
        self.desk.ask(read, self.desk.job_id, ref, then=self._show)

    def put_away(self) -> None:
        self.ref = None
        self.hide()

    def _heard(self, _: Change) -> None:
        if self.ref is not None:
            self.show_step(self.ref)

    def _show(self, found: Reasons) -> None:
        if self.ref is None:
            return
        said = [f"{capital(sentence)}." for sentence in (*found.held, *found.forced)]
        self.said.setText("\n".join(said) or as_it_stands(self.ref))
        clear_layout(self._rows)
        for row in found.rules:
            slip = RuleSlip(row.rule.id, row.words, self.rules, in_force=row.in_force)
            slip.dropped.connect(self._drop)
            self._rows.addWidget(slip)
        self.rules.setVisible(bool(found.rules))
        if self.isHidden():
            self.show()
            self.close_it.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
        else:
            super().keyPressEvent(event)

    def _drop(self, rule_id: int) -> None:
        self.desk.act(services.rules.drop_rule, rule_id)
