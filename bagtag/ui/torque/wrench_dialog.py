"""The torque wrenches of the bench: a list, and the form of the one that is open."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.wrench import Wrench
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import ENTER, button, is_inside, label, panel, tight
from bagtag.ui.forms.sight import InSight, scrolling
from bagtag.ui.torque.wrench_form import WrenchForm
from bagtag.ui.torque.wrench_list import WrenchList

_NONE = "No wrench is in the list yet. Add one: its scale is what a setting is rounded to."
_ABOUT = "A setting is rounded to the marks of a wrench, and its scale is looked at before it."


def open_wrenches(desk: Desk, parent: QWidget | None = None) -> WrenchesDialog:
    """Open the list of torque wrenches."""
    dialog = WrenchesDialog(desk, parent)
    dialog.open()
    return dialog


class WrenchesDialog(QDialog):
    """Enter keeps what is filled in, Esc leaves it as it was, and then the list."""

    known = Signal()
    """The list is on screen."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self._is_busy = self._is_known = False
        self.setWindowTitle("Torque wrenches")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.said = label(_ABOUT, self, tone="muted")
        self.list = WrenchList(self)
        self.new = button("Add a wrench", self, name="Add a wrench")
        self.frame = panel(self, "tape")
        self.form = WrenchForm(self.frame)
        self.wrong = label("", self.frame, tone="accent")
        self.keep = button("Keep it\u2002Enter", self.frame, role="primary", name="Keep it")
        self.leave = button("Leave it\u2002Esc", self.frame, role="quiet", name="Leave it")
        self.out = button("Take it out", self.frame, role="quiet", name="Take it out of the list")
        self.undo = Act("Undo", "Ctrl+Z", self, role="quiet")
        self.close_it = button("Close\u2002Esc", self, name="Close")
        self._lay()
        self._connect()
        self._show_form(False)
        self._ask()

    def _lay(self) -> None:
        left, right = QVBoxLayout(), QVBoxLayout(self.frame)
        tight(left, 12)
        left.addWidget(label("Torque wrenches", self, scale="head"))
        left.addWidget(self.said)
        left.addWidget(scrolling(self.list, self), 1)
        below = QHBoxLayout()
        for press in (self.new, self.undo, self.close_it):
            below.addWidget(press)
        below.addStretch(1)
        left.addLayout(below)
        left.addWidget(label(OVERRIDE, self, scale="small", tone="muted"))
        right.setContentsMargins(16, 14, 16, 14)
        right.setSpacing(10)
        sight = scrolling(self.form, self.frame)
        InSight(sight, ())
        right.addWidget(sight, 1)
        right.addWidget(self.wrong)
        acts = QHBoxLayout()
        for press in (self.keep, self.leave, self.out):
            acts.addWidget(press)
        acts.addStretch(1)
        right.addLayout(acts)
        across = QHBoxLayout(self)
        across.setContentsMargins(24, 20, 24, 20)
        across.setSpacing(20)
        across.addLayout(left, 5)
        across.addWidget(self.frame, 6)
        self.wrong.hide()
        self.undo.offer(False)
        self.resize(900, 560)

    def _connect(self) -> None:
        self.list.opened.connect(self.edit)
        self.list.removed.connect(self.take_out)
        self.new.clicked.connect(self.add)
        self.keep.clicked.connect(self.save)
        self.leave.clicked.connect(self.go_back)
        self.out.clicked.connect(self._take_open_out)
        self.undo.clicked.connect(self.take_back)
        self.close_it.clicked.connect(self.reject)
        self.desk.changed.connect(self._heard)

    # What is in the list

    def _ask(self) -> None:
        self.desk.ask(services.wrenches.all_wrenches, then=self._answer)

    def _heard(self, change: Change) -> None:
        if change.touches("wrench"):
            self._ask()

    def _answer(self, wrenches: Sequence[Wrench]) -> None:
        self.list.show_wrenches(wrenches)
        self.said.setText(_ABOUT if wrenches else _NONE)
        if not self._is_known:
            self._is_known = True
            (self.list if wrenches else self.new).setFocus()
        self.known.emit()

    # What is open

    def add(self) -> None:
        self._open(Wrench("", 0, 0))

    def edit(self, one: Wrench) -> None:
        self._open(one)

    def _open(self, one: Wrench) -> None:
        self.form.load(one)
        self.list.mark(one.id)
        self.out.setVisible(bool(one.id))
        self._show_form(True)
        self.form.begin()

    def go_back(self) -> None:
        """Leave the form; what was filled in there is not kept."""
        self._show_form(False)
        self.list.mark(0)
        (self.list if len(self.list) else self.new).setFocus()

    def _show_form(self, shown: bool) -> None:
        self.frame.setVisible(shown)
        self.wrong.hide()

    # What is done

    def save(self) -> None:
        one = self.form.wrench()
        if one is None:
            wrong = self.form.first_wrong()
            if wrong is not None:
                wrong.setFocus()
            return
        wrenches = services.wrenches
        self._act(wrenches.edit_wrench if one.id else wrenches.add_wrench, one, self._kept)

    def take_out(self, one: Wrench) -> None:
        self._act(services.wrenches.delete_wrench, one.id, self._kept)

    def _take_open_out(self) -> None:
        self._act(services.wrenches.delete_wrench, self.form.wrench_id, self._kept)

    def take_back(self) -> None:
        """Undo the act just done here: wrenches belong to no job, so the window's own undo, which
        is a job's, does not reach them."""
        self._act(services.history.undo, 0, self._undone)

    def _act(self, service: Callable[..., Any], what: object, then: Callable[..., None]) -> None:
        if self._is_busy:
            return
        self._is_busy = True
        self.desk.act(service, what, then=then, failed=self._failed)

    def _kept(self, _: Change) -> None:
        self._is_busy = False
        self.undo.offer(True)
        self.go_back()

    def _undone(self, _: Change) -> None:
        self._is_busy = False
        self.undo.offer(False)
        self.go_back()

    def _failed(self, error: Exception) -> None:
        self._is_busy = False
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
        elif self.frame.isHidden():
            self.said.setText(error.sentence)
        elif not self.form.say(error.field, error.sentence):
            self.wrong.setText(error.sentence)
            self.wrong.show()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        in_form = not self.frame.isHidden() and is_inside(self.focusWidget(), self.frame)
        if event.key() in ENTER and in_form:
            self.save()
        elif event.key() == Qt.Key.Key_Escape and not self.frame.isHidden():
            self.go_back()
        elif event.key() not in ENTER:
            super().keyPressEvent(event)
