"""What can be added to the build, each with its key."""

from __future__ import annotations

from typing import Any, NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.fitting import Ref, RuleKind
from bagtag.domain.model import Origin
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, button, label
from bagtag.ui.forms.choice import Choice, Option
from bagtag.ui.forms.lone_keys import LoneKeys
from bagtag.ui.order.add_part import open_part
from bagtag.ui.order.build_form import open_bench_build
from bagtag.ui.order.later_form import open_tighten_later
from bagtag.ui.order.rule_form import open_rule
from bagtag.ui.order.task_form import open_task_form

COLUMNS = 2


class Adding(NamedTuple):
    """One thing to add, in words."""

    what: object
    title: str
    detail: str


ADDINGS = (
    Adding("task", "A task", "clean, oil, measure, hold point"),
    Adding(Origin.SHOP, "A part the shop took off", "never logged here"),
    Adding(Origin.NEW, "A new part", "never on the machine"),
    Adding("build", "A bench build", "a gear cluster, a head"),
    Adding("later", "Tighten later", "run in by hand, final torque after"),
    Adding(RuleKind.FIRST, "Fit first", "this step needs another in"),
    Adding(RuleKind.UNTIL, "Hold until", "this step waits for another"),
    Adding(RuleKind.TOGETHER, "Goes in together", "several steps as one"),
)


def open_add(desk: Desk, parent: QWidget | None, ref: Ref | None) -> AddMenu:
    """Open what can be added; `ref` is the step on the card, None for none."""
    menu = AddMenu(desk, parent, ref)
    menu.open()
    return menu


class AddMenu(QDialog):
    """A key or a click chooses; arrows go from one to the next, Enter takes it, Esc leaves."""

    def __init__(self, desk: Desk, parent: QWidget | None, ref: Ref | None) -> None:
        super().__init__(parent)
        self.desk, self.ref = desk, ref
        self.setWindowTitle("Add to the build")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setAccessibleName("Add to the build")
        self.beside = label("", self, tone="muted")
        self.choices = [self._choice(n, adding) for n, adding in enumerate(ADDINGS, 1)]
        self.leave = button("Leave it\u2002Esc", self, role="quiet", name="Leave it")
        self.leave.clicked.connect(self.reject)
        self._alone = LoneKeys(self)
        self._alone.pressed.connect(self.press_key)
        self._lay()
        self.choices[0].setFocus()
        if ref is not None:
            desk.ask(called, desk.job_id, ref, then=self._say_beside)

    def _choice(self, number: int, adding: Adding) -> Choice:
        made = Choice(Option(adding.what, adding.title, adding.detail, str(number)), self)
        made.tall = True
        made.setCheckable(False)
        made.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        made.clicked.connect(self._clicked)
        made.stepped.connect(self._step)
        return made

    def _lay(self) -> None:
        grid = QGridLayout()
        grid.setSpacing(8)
        for place, choice in enumerate(self.choices):
            grid.addWidget(choice, place // COLUMNS, place % COLUMNS)
        acts = QHBoxLayout()
        acts.addWidget(self.leave)
        acts.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 20, 24, 16)
        column.setSpacing(12)
        column.addWidget(label("Add to the build", self, scale="head"))
        column.addWidget(self.beside)
        column.addLayout(grid)
        column.addLayout(acts)
        self.beside.setText("No step is on the card: the form asks which." if not self.ref else " ")
        self.resize(660, 0)

    def _say_beside(self, name: str) -> None:
        self.beside.setText(f"For {name}" if name else "")

    # What is chosen

    def keyPressEvent(self, event: QKeyEvent) -> None:
        here = self.focusWidget()
        if event.key() in ENTER and isinstance(here, Choice):
            here.click()
        elif not self._alone.hear(event):
            super().keyPressEvent(event)

    def press_key(self, key: str) -> None:
        """Choose what has this key, if it makes sense now."""
        for choice in self.choices:
            if choice.option.key == key:
                self.take(choice.option.value)

    def take(self, what: object) -> None:
        """Open the form of what was chosen, in place of this."""
        above = self.parentWidget()
        self.accept()
        if isinstance(what, Origin):
            open_part(self.desk, above, what, self.ref)
        elif isinstance(what, RuleKind):
            open_rule(self.desk, above, what, self.ref)
        elif what == "build":
            open_bench_build(self.desk, above, self.ref)
        elif what == "later":
            removal_id = self.ref.removal_id if self.ref is not None else None
            open_tighten_later(self.desk, above, removal_id)
        else:
            open_task_form(self.desk, above, beside=self.ref)

    def _clicked(self) -> None:
        choice = self.sender()
        assert isinstance(choice, Choice)
        self.take(choice.option.value)

    def _step(self, across: int, down: int) -> None:
        at = next(place for place, choice in enumerate(self.choices) if choice is self.sender())
        place = at + across + down * COLUMNS
        if 0 <= place < len(self.choices):
            self.choices[place].setFocus(Qt.FocusReason.TabFocusReason)


def called(store: Any, job_id: int, ref: Ref) -> str:
    """What a step of a job is called; nothing for one that is gone."""
    steps = services.steps.steps_of(store, job_id)
    return next((step.called for step in steps if step.ref == ref), "")
