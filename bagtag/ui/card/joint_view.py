"""A joint on its card: the pass now due, large; its holes and their turns; every pass to tick."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain import joint_words
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import Ref
from bagtag.domain.standing import Standing
from bagtag.ui.card.hole_picture import HolePicture
from bagtag.ui.card.pass_rows import PassRows
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import label, tight
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.domain.joint import Joint

DONE = "F12"
BESIDE = 620
"""The least width for the passes beside the holes, in pixels."""
OVER = (Standing.IN, Standing.SCRAPPED, Standing.AWAY)


class JointView(QFrame):
    """Shows how a step's fasteners are tightened, while the step is up; before, which fastener goes
    into which hole."""

    shown = Signal()
    """It has something else to show, or nothing."""
    ticked = Signal()
    """A pass was ticked here, or opened again."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.ref: Ref | None = None
        self.joint: Joint | None = None
        self._standing = Standing.OFF
        self.setProperty("surface", "tape")
        self.setAccessibleName("How it is tightened")
        self.count = label("", self, tone="muted")
        self.due = label("", self, scale="big")
        self.setting = label("", self)
        self.done = Act("Pass done", DONE, self, role="primary")
        self.picture = HolePicture(self)
        self.rows = PassRows(self)
        self.said = label("", self)
        self._lay()
        self.done.clicked.connect(self.tick_due)
        self.rows.ticked.connect(self._tick)
        self.hide()

    def _lay(self) -> None:
        words = QVBoxLayout()
        tight(words, 2)
        for part in (self.count, self.due, self.setting):
            words.addWidget(part)
        top = QHBoxLayout()
        top.setSpacing(12)
        top.addLayout(words, 1)
        top.addWidget(self.done, 0, Qt.AlignmentFlag.AlignTop)
        self._beside = QBoxLayout(QBoxLayout.Direction.TopToBottom)
        self._beside.setSpacing(16)
        self._beside.addWidget(self.picture, 1)
        self._beside.addWidget(self.rows, 1, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 10)
        column.setSpacing(10)
        column.addLayout(top)
        column.addLayout(self._beside)
        column.addWidget(self.said)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._turn()

    def _turn(self) -> None:
        """The passes stand beside the holes where there is room for both."""
        way = QBoxLayout.Direction
        wide = self.width() >= BESIDE and not self.picture.is_large
        self._beside.setDirection(way.LeftToRight if wide else way.TopToBottom)
        self._beside.setStretch(1, 1 if wide else 0)

    @property
    def head_height(self) -> int:
        """How high the pass now due stands, for a card that keeps it in sight."""
        if self.isHidden() or self.joint is None or not self.joint.rounds:
            return 0
        wide = max(self.width() - 28 - self.done.sizeHint().width() - 12, 100)
        parts = [one for one in (self.count, self.due, self.setting) if not one.isHidden()]
        return 20 + sum(max(one.heightForWidth(wide), 0) + 2 for one in parts)

    @property
    def is_up(self) -> bool:
        """Whether it says a pass that is now due."""
        return not self.isHidden() and not self.due.isHidden()

    def be_small(self, small: bool) -> None:
        """Leave room where the card is low."""
        mark(self.due, scale="head" if small else "big")

    # What is shown

    def show_step(self, ref: Ref, standing: Standing) -> None:
        """Show how this step is tightened, as it stands now."""
        if ref != self.ref:
            self.joint = None
            self.hide()
        self.ref, self._standing = ref, standing
        self.desk.ask(services.tightening.joint, ref, then=self._show, failed=self._gone)

    def show_nothing(self) -> None:
        self.ref = self.joint = None
        self.hide()

    def _show(self, joint: Joint) -> None:
        if joint.ref != self.ref:
            return
        self.joint = joint
        is_up = bool(joint.rounds) and (self._standing is Standing.NEXT or bool(joint.ticks))
        is_up = is_up and self._standing not in OVER
        due = joint.due if is_up else None
        self._say_due(joint, is_up)
        order = joint.rounds[due].order if due is not None else ()
        self.picture.show_map(joint.hole_map, joint.held_by, order)
        self.rows.show_joint(joint if is_up and _has_steps(joint) else None)
        self._say_more(joint, is_up, order)
        self._turn()
        if self._standing is Standing.IN:
            self._say_done(joint)
        self.setVisible(is_up or joint.hole_map is not None or not self.count.isHidden())
        self.shown.emit()

    def _say_due(self, joint: Joint, is_up: bool) -> None:
        count, due = joint_words.due_words(joint) if is_up else ("", "")
        setting = "\n".join(joint_words.setting_words(joint, joint.due or 0)) if due else ""
        for part, said in ((self.count, count), (self.due, due), (self.setting, setting)):
            part.setText(said)
            part.setVisible(bool(said))
        self.done.offer(bool(due) and _has_steps(joint))

    def _say_done(self, joint: Joint) -> None:
        """What was ticked of a step that is signed off."""
        said = f"{len(joint.ticks)} of {len(joint.rounds)} passes were ticked"
        self.count.setText(said if joint.ticks else "")
        self.count.setVisible(bool(joint.ticks))

    def _say_more(self, joint: Joint, is_up: bool, order: tuple[int, ...]) -> None:
        due = joint.due
        turns = joint_words.order_words(joint.rounds[due]) if order and due is not None else ""
        also = joint_words.also_words(joint) if is_up else ()
        said = [turns, *joint_words.miscounted(joint), *(f"{words}." for words in also)]
        holes = joint_words.hole_words(joint)
        said += [] if self.picture.has_legend else holes
        self.picture.set_sentence(". ".join(holes))
        self.said.setText("\n".join(filter(None, said)))
        self.said.setVisible(any(said))

    def _gone(self, error: Exception) -> None:
        """A step that has just been deleted: its card says so."""
        self.show_nothing()
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)

    # What can be done

    def tick_due(self) -> None:
        """The pass now due is done."""
        if self.joint is not None and self.joint.due is not None:
            self._tick(self.joint.due, True)

    def _tick(self, place: int, is_done: bool) -> None:
        act = services.tightening.tick if is_done else services.tightening.untick
        self.desk.act(act, self.ref, place, then=self._kept, failed=self._refused)

    def _kept(self, _: Change) -> None:
        self.ticked.emit()

    def _refused(self, error: Exception) -> None:
        """Say why, and show it as it stands."""
        self.desk.tell_error(error)
        if self.joint is not None:
            self.rows.show_joint(self.joint)


def _has_steps(joint: Joint) -> bool:
    """Whether there is something to tick: one torque of a few bolts needs no list."""
    return len(joint.rounds) > 1 or bool(joint.passes) or bool(joint.ticks)
