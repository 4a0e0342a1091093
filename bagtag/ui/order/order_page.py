"""Order: the plan, below it why the chosen step stands where it does, and the rules."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.fitting import Ref
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import button, tight
from bagtag.ui.order.order_list import OrderList
from bagtag.ui.order.order_moving import Moving
from bagtag.ui.order.order_newest import Newest
from bagtag.ui.order.order_reasons import ReasonsPanel
from bagtag.ui.order.order_try import TryPanel
from bagtag.ui.order.rules_view import RulesView

if TYPE_CHECKING:
    from bagtag.services.board import Board
    from bagtag.services.rules import RuleRow


class OrderPage(QWidget):
    chosen = Signal(object)
    opened = Signal(object)
    typed = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.board: Board | None = None
        self.plan = OrderList(self)
        self.reasons = ReasonsPanel(desk, self)
        self.panel = TryPanel(self)
        self.panel.hide()
        self.moving = Moving(desk, self.plan, self.panel)
        self.rules = RulesView(desk, self)
        self.to_rules = button("Rules", self, role="quiet")
        self._counting = Newest(desk, self)
        self._lay()
        self._connect()

    def _lay(self) -> None:
        page = QWidget(self)
        column = QVBoxLayout(page)
        tight(column, 6)
        column.addWidget(self.plan, 1)
        column.addWidget(self.panel)
        column.addWidget(self.reasons)
        self._page = page
        self._stack = QStackedLayout(self)
        self._stack.addWidget(page)
        self._stack.addWidget(self.rules)

    def _connect(self) -> None:
        self._counting.answered.connect(self._rules_known)
        for walked in (self.plan, self.rules.list):
            walked.chosen.connect(self.chosen)
            walked.opened.connect(self.opened)
            walked.typed.connect(self.typed)
        self.plan.chosen.connect(self._explain)
        self.plan.moved.connect(self._move_seen)
        self.moving.ended.connect(self._move_ended)
        self.to_rules.clicked.connect(self.open_rules)
        self.rules.left.connect(self.close_rules)

    # What is shown

    def show_board(self, board: Board | None) -> None:
        first = self.board is None or board is None or self.board.job_id != board.job_id
        self.board = board
        was_moving = self.plan.on_move is not None
        self.plan.show_board(board)
        if was_moving:
            self.moving.plan_is_fresh()
        if board is None:
            self.reasons.show_step(None)
            return
        if first:
            self.plan.go_to_work()
        self._counting.ask(services.rules.rules_of, board.job_id)
        self._explain(self.plan.shown)

    def _rules_known(self, rows: list[RuleRow]) -> None:
        self.to_rules.setText(f"Rules ({len(rows)})")
        self.to_rules.setAccessibleName(f"Rules: {len(rows)}")
        self.rules.show_rules(rows)

    def choose(self, ref: Ref) -> bool:
        is_other = self.plan.shown != ref
        found = self.plan.choose(ref)
        if is_other:
            self._explain(ref)
        return found

    def _explain(self, ref: Ref | None) -> None:
        """Why a step stands where it does."""
        self.moving.went_on_to(ref)
        step = self.board.step(ref) if self.board is not None and ref is not None else None
        self.reasons.show_step(step)

    def _move_seen(self, _: object) -> None:
        self.reasons.hide()

    def _move_ended(self) -> None:
        self.panel.hide()
        self.reasons.show()

    def open_rules(self) -> None:
        self._stack.setCurrentWidget(self.rules)
        self.rules.begin()

    def close_rules(self) -> None:
        self._stack.setCurrentWidget(self._page)
        self.plan.setFocus()

    def focus_list(self) -> None:
        if self._stack.currentWidget() is self.rules:
            self.rules.begin()
        else:
            self.plan.setFocus()
