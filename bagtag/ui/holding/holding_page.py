"""What is holding the job up: what to chase first, what it frees, and from which day on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import label, tight
from bagtag.ui.forms.scroll import Emptiness, Scroll
from bagtag.ui.holding import holding_words as words
from bagtag.ui.holding.holding_ladder import Ladder
from bagtag.ui.holding.holding_list import HoldingList
from bagtag.ui.stage import Stage

if TYPE_CHECKING:
    from bagtag.services.readiness import HeldRow, HoldingUp

SHOW = "F9"


class HoldingPage(Stage):
    """`settle` asks for the place where a row is settled, `left` for the build."""

    title = "Holding"
    settle = Signal(object)
    """A `HeldRow`."""
    left = Signal()
    typed = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.found: HoldingUp | None = None
        self.head = label("", self, scale="head")
        self.help = label("", self, tone="muted")
        self.list = HoldingList(desk, self)
        self.empty = Emptiness(self)
        self.days = Scroll(self, "From when on each step can go in")
        self.days.setProperty("ring", "true")  # it is scrolled by the arrow keys too
        self.ladder = Ladder(self.days.body)
        self.go = Act("Go there", "", self, role="primary")
        self.show_part = Act("Show the part", SHOW, self)
        self.back = Act("Back to the build", "", self, role="quiet")
        self.back.say_with("Back to the build", "Esc")
        self._lay()
        self._connect()

    def _lay(self) -> None:
        side = QFrame(self)
        side.setProperty("surface", "card")
        inside = QVBoxLayout(side)
        inside.setContentsMargins(16, 14, 16, 14)
        inside.addWidget(label("What goes in when", side, scale="head"))
        inside.addWidget(self.days, 1)
        self.days.column.addWidget(self.ladder)
        self.days.column.addStretch(1)
        self.days.column.setContentsMargins(6, 4, 10, 4)
        side.setFixedWidth(300)
        self.side = side
        body = QHBoxLayout()
        tight(body, 16)
        body.addWidget(self.list, 1)
        body.addWidget(side)
        foot = QHBoxLayout()
        foot.setSpacing(10)
        foot.addWidget(self.go)
        foot.addWidget(self.show_part)
        foot.addStretch(1)
        foot.addWidget(self.back)
        column = QVBoxLayout(self)
        tight(column, 8)
        for widget in (self.head, self.help, self.empty):
            column.addWidget(widget)
        column.addLayout(body, 1)
        column.addLayout(foot)

    def _connect(self) -> None:
        self.list.moved.connect(self._offer)
        self.list.entered.connect(self.go_there)
        self.list.left.connect(self.left)
        self.list.typed.connect(self.typed)
        self.go.clicked.connect(self.go_there)
        self.show_part.clicked.connect(self.show_it)
        self.back.clicked.connect(self.left)
        self.escaped.connect(self.left)

    def enter(self) -> None:
        self._ask()
        self.setFocus()

    def hear(self, change: Change) -> None:
        """What has the keys keeps them."""
        if change.job_id in (0, self.desk.job_id):
            self._ask()

    def _ask(self) -> None:
        if self.desk.job_id:
            self.desk.ask(services.readiness.holding_up, self.desk.job_id, then=self._show)

    def _show(self, found: HoldingUp) -> None:
        if found.job_id != self.desk.job_id:
            return
        self.found = found
        self.list.show_rows(found.rows)
        self.ladder.show_rungs(found)
        self.head.setText(words.head_words(found))
        self.help.setText(words.help_words(found))
        self.empty.say(*(words.CALM if found.left else words.ALL_IN))
        for widget in (self.head, self.help, self.list, self.side):
            widget.setVisible(bool(found.rows))
        self.empty.setVisible(not found.rows)
        self.setFocusProxy(self.list if found.rows else self.back)
        self.setAccessibleName(words.head_words(found) if found.rows else words.CALM[0])
        self._offer()

    def _offer(self) -> None:
        row = self.list.here
        self.go.offer(row is not None)
        self.show_part.offer(row is not None)
        if row is not None:
            self.go.say_with(words.act_of(row), "Enter")

    def go_there(self) -> None:
        """Go to where the chosen one is settled."""
        if self.list.here is not None:
            self.settle.emit(self.list.here)

    def show_it(self) -> None:
        """Show the step that the chosen one keeps out."""
        row: HeldRow | None = self.list.here
        if row is not None:
            self.desk.show_step.emit(row.ref)
