"""The build, above the card: how far it has come, the next step, who signs."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSettings, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.standing import Standing
from bagtag.ui.card_parts import Act
from bagtag.ui.checklist_dialog import open_checklist
from bagtag.ui.desk import Desk
from bagtag.ui.forms import Line, label, tight
from bagtag.ui.theme import current, mark

if TYPE_CHECKING:
    from bagtag.services.board import Board, Step

NEXT = "F5"
WHO = "bench/who"
"""Where the name of the last person at the bench is kept."""


def standings(board: "Board") -> Mapping[int, Standing]:
    """Where each removal of a board stands, for the strip."""
    return {step.removal_id: step.standing for step in board.steps}


def last_at_the_bench(otherwise: str) -> str:
    """The name that signed last on this machine."""
    return str(QSettings().value(WHO, "")) or otherwise


class Progress(QWidget):
    """A quiet bar: fitted, can go in now, the rest."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._shares = (0.0, 0.0)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_shares(self, done: int, ready: int, of: int) -> None:
        self._shares = (done / of, (done + ready) / of) if of else (0.0, 0.0)
        self.setAccessibleName(f"{done} of {of} fitted, {ready} can go in now")
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(120, 6)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        colours = current()
        done, ready = self._shares
        for share, colour in ((1.0, colours.line), (ready, colours.muted), (done, colours.accent)):
            painter.setBrush(colour)
            if share:
                wide = max(self.width() * share, self.height())
                painter.drawRoundedRect(QRectF(0, 0, wide, self.height()), 3, 3)
        painter.end()


class OneLine(QLabel):
    """A sentence on one line, cut where there is no room; the whole of it in its tool tip."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.sentence = ""
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("scale", "small")
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def say(self, sentence: str) -> None:
        self.sentence = sentence
        self.setToolTip(sentence)
        self.setAccessibleName(sentence)
        self._cut()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._cut()

    def _cut(self) -> None:
        right = Qt.TextElideMode.ElideRight
        self.setText(self.fontMetrics().elidedText(self.sentence, right, self.width()))


class BuildBar(QFrame):
    """`board_read` hands the fresh board on, so that the strip need not ask for it again."""

    board_read = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.board: Board | None = None
        self._shown = 0
        desk.who = last_at_the_bench(desk.who)
        self.progress = Progress(self)
        self.count = label("", self, scale="head")
        self.waiting = OneLine(self)
        self.next = Act("Next step", NEXT, self, role="primary")
        self.paper = Act("Print the checklist", "", self)
        self.who = Line(self, "Who signs: name or initials", hint="name or initials")
        self.who.setMaximumWidth(150)
        self.who.setText(desk.who)
        self._lay()
        self.next.clicked.connect(self.show_next)
        self.paper.clicked.connect(self.print_checklist)
        self.who.textChanged.connect(self._who_typed)

    def _lay(self) -> None:
        words = QVBoxLayout()
        tight(words, 2)
        words.addWidget(self.count)
        words.addWidget(self.progress)
        words.addWidget(self.waiting)
        row = QHBoxLayout(self)
        tight(row, 12)
        row.addLayout(words, 1)
        row.addWidget(self.next)
        row.addWidget(self.paper)
        caption = label("signs", self, scale="small", tone="muted")
        caption.setWordWrap(False)
        row.addWidget(caption)
        row.addWidget(self.who)

    def enter(self) -> None:
        """Ask for the board of the chosen job."""
        if self.desk.job_id:
            self.desk.ask(
                services.board.board, self.desk.job_id, then=self._show, failed=self._no_order
            )

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
        self.waiting.say(waiting_words(board))
        mark(self.waiting, tone="muted")
        self.next.setEnabled(bool(self._ready()))
        self.paper.setEnabled(bool(of))
        self.board_read.emit(board)

    def _no_order(self, error: Exception) -> None:
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
            return
        self.board = None
        self.count.setText("No order works")
        self.waiting.say(error.sentence)
        mark(self.waiting, tone="accent")
        self.next.setEnabled(False)

    def _ready(self) -> list["Step"]:
        steps = self.board.steps if self.board else ()
        return [step for step in steps if step.standing is Standing.NEXT]

    def show_next(self) -> None:
        """Show the next step that can go in; pressed again, the one after it."""
        ready = [step.removal_id for step in self._ready()]
        if ready:
            after = ready.index(self._shown) + 1 if self._shown in ready else 0
            self._shown = ready[after % len(ready)]
            self.desk.show_removal.emit(self._shown)

    def print_checklist(self) -> None:
        open_checklist(self.desk, self)

    def _who_typed(self, typed: str) -> None:
        self.desk.who = typed.strip()
        QSettings().setValue(WHO, self.desk.who)


def progress_words(done: int, of: int) -> str:
    if not of:
        return "Nothing to build yet"
    return "Everything is back in" if done == of else f"{done} of {of} fitted"


def waiting_words(board: "Board") -> str:
    """`4 can go in now. 5 wait: 2 for a new part, 1 to be decided, 2 for other parts.`"""
    steps = board.steps
    if not steps:
        return "Log what comes off under Strip; the build is that log, turned round."
    ready = sum(step.standing is Standing.NEXT for step in steps)
    said = f"{ready} can go in now." if ready else ""
    reasons = [word for word in map(_reason, steps) if word]
    kinds = [f"{reasons.count(word)} {word}" for word in REASONS if word in reasons]
    if not reasons:
        return said or "Every step is signed off. Close the job next."
    verb = "waits" if len(reasons) == 1 else "wait"
    return f"{said} {len(reasons)} {verb}: {', '.join(kinds)}.".strip()


REASONS = ("away", "for a new part", "to be decided", "for other parts")


def _reason(step: "Step") -> str:
    """Why a step waits, in one word; the part's own reasons first."""
    if step.standing is Standing.AWAY:
        return "away"
    if step.standing is not Standing.WAITS:
        return ""
    own = [h.sentence for h in step.hindrances if h.removal_id is None]
    if any("new part" in sentence for sentence in own):
        return "for a new part"
    return "to be decided" if any("decided" in sentence for sentence in own) else "for other parts"
