"""The work of moving a step: asked while it moves, made into a rule when it is let go."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import Ref
from bagtag.ui.desk import Desk
from bagtag.ui.order.order_list import OrderList
from bagtag.ui.order.order_move import Move
from bagtag.ui.order.order_newest import Newest
from bagtag.ui.order.order_try import TryPanel

if TYPE_CHECKING:
    from bagtag.services.rules import WhatIf


class Moving(QObject):
    """Ties the plan and the panel below it. `ended` says that the panel is no longer needed."""

    ended = Signal()

    def __init__(self, desk: Desk, plan: OrderList, panel: TryPanel) -> None:
        super().__init__(panel)
        self.desk, self.plan, self.panel = desk, plan, panel
        self.found: WhatIf | None = None
        self._wants_to_go = False
        self._rule_id = 0
        self._ref: Ref | None = None
        self.newest = Newest(desk, self)
        self.newest.answered.connect(self._answered)
        self.newest.failed.connect(self._failed)
        plan.moved.connect(self._moved)
        plan.let_go.connect(self.let_go)
        plan.put_back.connect(self.put_back)
        panel.make.connect(self.make)
        panel.put_back.connect(self.put_back)
        panel.told_why.connect(self._told_why)

    def _moved(self, move: Move) -> None:
        self._keep_why()
        self._ref = move.ref
        self.found, self._wants_to_go = None, False
        other = self.plan.step_ref(move.place)
        if move.is_still or other is None:
            self.newest.forget()
            self.panel.show_still()
            return
        self.panel.show_looking()
        read = partial(services.rules.what_if, who=self.desk.who)
        self.newest.ask(read, self.desk.job_id, move.ref, move.beside, other)

    def _answered(self, found: WhatIf) -> None:
        if self.plan.on_move is None:
            return
        self.found = found
        self.plan.say(found.words)
        self.panel.show_found(found)
        if self._wants_to_go:
            self.let_go()

    def _failed(self, error: Exception) -> None:
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
        elif self.plan.on_move is not None:
            self.plan.say("not here")
            self.panel.show_wrong(error.sentence)
            if self._wants_to_go:
                self._back_with(error.sentence)

    def let_go(self) -> None:
        """The step is to stand there: at once where nothing speaks against it."""
        if self.newest.is_waiting:
            self._wants_to_go = True
        elif self.found is None or self.found.kind is None:
            self._back_with(self.found.words if self.found else "")
        elif self.found.breaks:
            self.panel.ask_anyway(self.found)
        else:
            self.make()

    def make(self) -> None:
        """Make the rule."""
        if self.found is None or self.found.kind is None:
            return
        self.desk.act(
            services.rules.add_rule,
            self.desk.job_id,
            self.found.kind,
            self.found.members,
            then=self._made,
            failed=self._not_made,
        )

    def _made(self, change: Change) -> None:
        words = self.found.words if self.found else ""
        self._forget()
        self._rule_id = change.new_id or 0
        self.panel.ask_why(words)

    def _not_made(self, error: Exception) -> None:
        if isinstance(error, Trouble):
            self.panel.show_wrong(error.sentence)
        else:
            self.desk.tell_error(error)

    def put_back(self) -> None:
        """The step stands where it stood."""
        self._forget()
        self.ended.emit()
        self.plan.setFocus()

    def _back_with(self, sentence: str) -> None:
        if sentence:
            self.desk.say(sentence)
        self.put_back()

    def _forget(self) -> None:
        self.newest.forget()
        self.found, self._wants_to_go = None, False
        self.plan.end_move()

    # Why

    def _told_why(self, why: str) -> None:
        self._keep(why)
        self.ended.emit()
        self.plan.setFocus()

    def went_on_to(self, ref: Ref | None) -> None:
        """Another step is chosen: what was typed of why is kept."""
        if ref != self._ref:
            self._keep_why()

    def _keep_why(self) -> None:
        if self._rule_id:
            self._keep(self.panel.line.text().strip())
            self.ended.emit()

    def _keep(self, why: str) -> None:
        rule_id, self._rule_id = self._rule_id, 0
        if why and rule_id:
            self.desk.act(services.rules.say_why, rule_id, why)

    def plan_is_fresh(self) -> None:
        """Another plan has come: a move that was under way counted in the old one."""
        if self.plan.on_move is None and not self._rule_id and not self.panel.isHidden():
            self._forget()
            self.ended.emit()
