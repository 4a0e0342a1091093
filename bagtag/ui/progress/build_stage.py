"""The build, above the card: how far it has come, the next step, who signs."""

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.fitting import Ref
from bagtag.domain.standing import Reach, Standing
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import Line, button, label, tight
from bagtag.ui.progress.build_progress import OneLine, Progress
from bagtag.ui.progress.build_words import progress_words, waiting_words
from bagtag.ui.sheets.checklist_dialog import open_checklist
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.services.board import Board, Step

NEXT = "F5"
PAPER = "Ctrl+P"
ADD = "Ctrl+T"
TOOLS = "Ctrl+B"
HOLDING = "F11"
ROOMY = 1080
"""The width in pixels from which there is room for the keys of its acts beside their words."""
WHO = "bench/who"
"""Where the name of the last person at the bench is kept."""


def standings(board: "Board") -> Mapping[int, Standing]:
    """Where each removal of a board stands, for the strip."""
    return {step.ref.id: step.standing for step in board.steps if step.removal_id is not None}


def last_at_the_bench(otherwise: str) -> str:
    """The name that signed last on this machine."""
    return str(QSettings().value(WHO, "")) or otherwise


class BuildBar(QFrame):
    """`board_read` hands the fresh board on, so that the strip need not ask for it again."""

    board_read = Signal(object)
    add_wanted = Signal()
    tools_wanted = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.board: Board | None = None
        self._shown: Ref | None = None
        desk.who = last_at_the_bench(desk.who)
        self.progress = Progress(self)
        self.count = label("", self, scale="head")
        self.count.setWordWrap(False)
        self.waiting = OneLine(self)
        mark(self.waiting, tone="muted")
        self.next = Act("Next step", NEXT, self, role="primary")
        self.add = Act("Add", ADD, self)
        self.tools = Act("Tools", TOOLS, self)
        self.paper = Act("Checklist", PAPER, self)
        self.held = button("Held up", self, role="quiet")
        self.held.setAccessibleName("What is holding this job up")
        self.held.setToolTip(f"What is holding this job up, and what to chase first ({HOLDING})")
        self.who = Line(self, "Who signs: name or initials", hint="name or initials")
        self.who.setMaximumWidth(150)
        self.who.setText(desk.who)
        self._lay()
        self.next.clicked.connect(self.show_next)
        self.add.setToolTip("Add a task, a part, a bench build or a rule (Ctrl+T)")
        self.add.clicked.connect(self.add_wanted)
        self.tools.setToolTip("Lay out the tools, and count them back (Ctrl+B)")
        self.tools.clicked.connect(self.tools_wanted)
        self.paper.clicked.connect(self.print_checklist)
        self.held.clicked.connect(self.ask_what_holds)
        self.who.textChanged.connect(self._who_typed)

    def _lay(self) -> None:
        words = QVBoxLayout()
        tight(words, 2)
        top = QHBoxLayout()
        tight(top, 8)
        top.addWidget(self.count, 1)
        top.addWidget(self.held)
        words.addLayout(top)
        words.addWidget(self.progress)
        words.addWidget(self.waiting)
        row = QHBoxLayout(self)
        tight(row, 12)
        row.addLayout(words, 1)
        for act in (self.next, self.add, self.tools, self.paper):
            row.addWidget(act)
        caption = label("signs", self, scale="small", tone="muted")
        caption.setWordWrap(False)
        row.addWidget(caption)
        row.addWidget(self.who)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        for act in (self.add, self.tools, self.paper):
            act.be_brief(self.width() < ROOMY)
        self.held.setText("Held up" if self.width() < ROOMY else f"What holds it up\u2002{HOLDING}")

    def enter(self) -> None:
        """Ask for the board of the chosen job."""
        if self.desk.job_id:
            read = partial(services.board.board, who=self.desk.who)
            self.desk.ask(read, self.desk.job_id, then=self._show)

    def hear(self, change: Change) -> None:
        if change.job_id in (0, self.desk.job_id):
            self.enter()

    def _show(self, board: "Board") -> None:
        if board.job_id != self.desk.job_id:
            return
        self.board = board
        of, ready = len(board.steps), len(self._ready())
        self.progress.show_shares(board.done, ready, of)
        self.count.setText(progress_words(board.done, of))
        self.waiting.say(waiting_words(board), waiting_words(board, brief=True))
        self.next.setEnabled(bool(self._ready()))
        self.paper.setEnabled(bool(of))
        self.held.setVisible(any(step.reach is Reach.WAITS for step in board.steps))
        self.board_read.emit(board)

    def _ready(self) -> list["Step"]:
        steps = self.board.steps if self.board else ()
        return [step for step in steps if step.standing is Standing.NEXT]

    def show_next(self) -> None:
        """Show the next step that can go in; pressed again, the one after it."""
        ready = [step.ref for step in self._ready()]
        if ready:
            after = ready.index(self._shown) + 1 if self._shown in ready else 0
            self._shown = ready[after % len(ready)]
            self.desk.show_step.emit(self._shown)

    def ask_what_holds(self) -> None:
        """What keeps the rest out, and what to chase first."""
        self.desk.show_stage.emit("Holding")

    def print_checklist(self) -> None:
        open_checklist(self.desk, self)

    def _who_typed(self, typed: str) -> None:
        self.desk.who = typed.strip()
        QSettings().setValue(WHO, self.desk.who)
