"""The card of a task: what is done and where, large, with what it asks and waits for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QStackedLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import Ref, task
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.standing import Standing
from bagtag.ui.card.card_block import Block
from bagtag.ui.card.card_facts import torque_cautions
from bagtag.ui.card.joint_view import JointView
from bagtag.ui.card.sign_panel import SignPanel
from bagtag.ui.card.sign_words import hold_words
from bagtag.ui.card.task_acts import TaskActs
from bagtag.ui.card.task_facts import TaskFacts, TaskPieces, TaskTorques
from bagtag.ui.card.task_head import TaskHead
from bagtag.ui.card.why_here import WhyHere
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import tight
from bagtag.ui.forms.scroll import Emptiness, Scroll

if TYPE_CHECKING:
    from bagtag.services.task_views import TaskCard

LOW = 420
"""A card with less height than this has its name in smaller letters."""


class TaskCardView(QFrame):
    """Shows one task of the build."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.task_id = 0
        self.card: TaskCard | None = None
        self.setProperty("surface", "card")
        self.setAccessibleName("The card of a task")
        self.empty = Emptiness(self)
        self.page = QWidget(self)
        self.head = TaskHead(self.page)
        self.view = Scroll(self.page, "What to know about the task")
        self.why = WhyHere(desk, self.view.body)
        self.hold = Block(self.view.body)
        self.cautions = Block(self.view.body)
        self.torque_cautions = torque_cautions(self.view.body)
        self.torques = TaskTorques(self.view.body)
        self.joint = JointView(desk, self.view.body)
        self.facts = TaskFacts(self.view.body)
        self.pieces = TaskPieces(desk, self.view.body)
        self.signing = SignPanel(desk, "Done", self.page)
        self.acts = TaskActs(self.page)
        self._lay()
        self._connect()
        self.show_nothing()

    def _lay(self) -> None:
        around = QVBoxLayout(self)
        around.setContentsMargins(20, 12, 20, 12)
        self._stack = QStackedLayout()
        around.addLayout(self._stack)
        self._stack.addWidget(self.empty)
        self._stack.addWidget(self.page)
        column = QVBoxLayout(self.page)
        tight(column, 10)
        column.addWidget(self.head)
        column.addWidget(self.view, 1)
        column.addWidget(self.signing, 1)
        column.addWidget(self.acts)
        parts = (self.why, self.joint, self.torques, self.hold, self.cautions)
        for part in (*parts, self.torque_cautions, self.facts, self.pieces):
            self.view.column.addWidget(part)
        self.view.column.addStretch(1)

    def _connect(self) -> None:
        acts = self.acts
        acts.done.clicked.connect(self.sign)
        acts.take_back.clicked.connect(self.take_back)
        acts.edit.clicked.connect(self.edit)
        acts.why.clicked.connect(self._why)
        acts.delete.clicked.connect(self.delete)
        acts.passes.clicked.connect(self._passes)
        acts.holes.clicked.connect(self._holes)
        self.joint.shown.connect(self._joint_shown)
        self.signing.shut.connect(self._signing_shut)
        self.desk.changed.connect(self._heard)
        self.desk.job_chosen.connect(self._job_chosen)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _joint_shown(self) -> None:
        """The pass now due says its torque large; the lines then only say what they are."""
        self.torques.be_brief(self.joint.is_up)

    def _fit(self) -> None:
        low = self.height() < LOW
        self.joint.be_small(low)
        self.head.be_small(low, bare=low and not self.signing.isHidden())

    # What is shown

    def show_nothing(self, sentence: str = "") -> None:
        self.task_id, self.card = 0, None
        self.signing.set_aside(None)
        self.why.put_away()
        self.joint.show_nothing()
        self.empty.say(sentence or "No task is on the card.", "Choose a step of the build.")
        self._stack.setCurrentWidget(self.empty)

    def show_task(self, task_id: int) -> None:
        """Put a task on the card."""
        if task_id != self.task_id:
            self.signing.set_aside(task(task_id))
            self.why.put_away()
        self.task_id = task_id
        self.desk.ask(services.task_views.card, task_id, then=self._show, failed=self._gone)

    def _show(self, card: TaskCard) -> None:
        if card.task.id != self.task_id:
            return
        fresh = self.card is None or self.card.task.id != card.task.id
        self.card = card
        parts = (self.head, self.torques, self.facts, self.pieces, self.acts)
        for part in parts:
            part.show_card(card)
        self.joint.show_step(self.ref, card.step.standing)
        self.hold.say("A second pair of eyes signs this", hold_words(_barred(card)))
        self.cautions.say("", card.cautions)
        self.torque_cautions.setVisible(OVERRIDE in card.cautions)
        if card.step.sign_off is not None:
            self.signing.set_aside(None)
        self._stack.setCurrentWidget(self.page)
        if fresh:
            self.view.verticalScrollBar().setValue(0)

    def _gone(self, error: Exception) -> None:
        if isinstance(error, Trouble):
            self.show_nothing(error.sentence)
        else:
            self.desk.tell_error(error)

    def _heard(self, _: Change) -> None:
        if self.task_id:
            self.show_task(self.task_id)

    def _job_chosen(self, _: int) -> None:
        self.show_nothing()

    # What can be done

    @property
    def ref(self) -> Ref:
        return task(self.task_id)

    def sign(self) -> None:
        """Sign it off as done; what is asked is asked in place."""
        self.signing.begin(self.ref)

    def _signing_shut(self, is_shut: bool) -> None:
        self._fit()
        self.view.setVisible(is_shut)
        self.acts.setVisible(is_shut)
        if is_shut:
            self.setFocus()  # Enter must not press what Qt would choose next

    def take_back(self) -> None:
        self.desk.act(services.signing.take_back, self.ref)

    def edit(self) -> None:
        from bagtag.ui.order.task_form import open_task_form

        open_task_form(self.desk, self, self.task_id)

    def delete(self) -> None:
        """Take it out of the build; undo brings it back."""
        self.desk.act(services.tasks.delete_task, self.task_id)

    def _passes(self) -> None:
        from bagtag.ui.order.passes_form import open_passes

        if self.card is not None and self.card.tightens is not None:
            open_passes(self.desk, self, self.card.tightens.id)

    def _holes(self) -> None:
        from bagtag.ui.holes.hole_dialog import open_hole_map

        if self.card is not None and self.card.tightens is not None:
            open_hole_map(self.desk, self, self.card.tightens.id)

    def _why(self) -> None:
        self.why.show_step(self.ref)
        self.view.verticalScrollBar().setValue(0)


def _barred(card: TaskCard) -> tuple[str, ...]:
    """Who must not sign it, while it is open."""
    return () if card.step.standing is Standing.IN else card.not_by
