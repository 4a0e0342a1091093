"""Check-in: what is scanned or ticked is back, each looked at; what is not ticked stays away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.errors import BadInput, Trouble
from bagtag.domain.phrases import listed
from bagtag.domain.sending import Batch, Scanned
from bagtag.ui.away.away_acts import FinishAct, is_escape
from bagtag.ui.away.away_words import called, key_of
from bagtag.ui.away.back_row import BackRow
from bagtag.ui.away.back_rows import BackRows
from bagtag.ui.away.looks import Looks
from bagtag.ui.card.sign_rows import Verdict
from bagtag.ui.card.task_signs import CROSS, TICK
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import button, label, tight
from bagtag.ui.forms.turn import come_last

if TYPE_CHECKING:
    from bagtag.domain.change import Change

SCAN = "Scan each tag, or tick what is here. What is not ticked stays at the shop."
SHOWN = 6
"""How many parts are named where more may stay away; the rest are counted."""


class BackPage(QWidget):
    """What was ticked and typed is kept while one looks elsewhere, until it is checked in."""

    checked_in = Signal(int)
    left = Signal(int)

    def __init__(self, desk: Desk, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.batch: Batch | None = None
        self._is_busy = self._was_warned = False
        self.head = label("", self, scale="head")
        self.scanned = Verdict(self)
        self.view = BackRows(looks, self)
        self.count = label("", self, tone="muted")
        self.wrong = label("", self, tone="accent")
        self.finish = FinishAct("Check it in", self)
        self.leave = button("Leave it\u2002Esc", self, role="quiet", name="Leave it")
        self._lay()
        self.view.changed.connect(self._count)
        self.finish.clicked.connect(self.save)
        self.leave.clicked.connect(self._leave)

    def _lay(self) -> None:
        acts = QHBoxLayout()
        tight(acts, 12)
        for press in (self.finish, self.leave):
            acts.addWidget(press)
        acts.addWidget(self.count, 1)
        column = QVBoxLayout(self)
        tight(column, 8)
        column.addWidget(self.head)
        column.addWidget(self.scanned)
        column.addWidget(self.view, 1)
        column.addWidget(self.wrong)
        column.addLayout(acts)
        self.wrong.hide()

    # What is shown

    def begin(self, batch: Batch) -> None:
        """Check this batch in; what was ticked of it before still is."""
        if self.batch is None or key_of(self.batch) != key_of(batch):
            self._clear()
            self.scanned.say(SCAN)
        self.show_batch(batch)
        self.setFocus()
        if self.rows:
            next(iter(self.rows.values())).here.chips[0].setFocus(Qt.FocusReason.TabFocusReason)

    def show_batch(self, batch: Batch) -> None:
        """The batch as it is now: rows that are there already keep what was said in them."""
        self.batch = batch
        self.head.setText(f"{called(batch)}: what is back?")
        self.view.show_batch(batch)
        come_last(self.finish, self.leave)
        self._count()

    def tick_part(self, removal_id: int) -> None:
        """This part is here; the keys for the first thing to be looked at."""
        for row in self.rows.values():
            if row.item.removal.id == removal_id:
                row.tick()
                self.view.go_to(row)

    @property
    def rows(self) -> dict[int, BackRow]:
        return self.view.rows

    def _clear(self) -> None:
        self.view.clear()
        self._was_warned = False
        self.wrong.hide()

    def _count(self) -> None:
        """How many are back, and what stays away."""
        here, gone = self.view.here, [row.item.called for row in self.view.gone]
        many = f"Check {len(here)} in" if len(here) > 1 else "Check it in"
        self.finish.say(many)
        self.wrong.hide()
        self._was_warned = False
        more = len(gone) - SHOWN
        named = [*gone[:SHOWN], *([f"{more} more"] if more > 0 else [])]
        stay = "stays" if len(gone) == 1 else "stay"
        self.count.setText(f"{listed(named)} {stay} away." if gone else "All of it is here.")

    # Scans

    def take_scan(self, code: str) -> None:
        """The tag of a part that is back, of something else, or of nothing here."""
        if self.batch is None:
            return
        whole = self.batch.send_out
        self.desk.ask(
            services.send_outs.scanned, whole.id if whole is not None else None, code,
            then=self._scanned, failed=self._strange,
        )  # fmt: skip

    def _scanned(self, found: Scanned) -> None:
        row = self.rows.get(found.away_id or 0)
        if row is None:
            self.scanned.say(found.sentence, CROSS)
            return
        twice = row.is_here
        said = f"{row.item.called} is ticked already." if twice else found.sentence
        row.tick()
        self.scanned.say(said, TICK)
        self.view.go_to(row)

    def _strange(self, error: BaseException) -> None:
        if isinstance(error, Trouble):
            self.scanned.say(error.sentence, CROSS)
        else:
            self.desk.tell_error(error)

    # What is kept

    def save(self) -> None:
        """Check in what is ticked. What speaks against it is said first, once."""
        if self._is_busy:
            return
        try:
            items = self.view.back()
        except BadInput as wrong:
            self._say(wrong.sentence)
            return
        unsaid = [row for row in self.rows.values() if row.needs_why]
        if unsaid and not self._was_warned:
            self._warn(unsaid)
            return
        self._is_busy = True
        self.desk.act(services.send_outs.back, items, then=self._kept, failed=self._failed)

    def _warn(self, rows: list[BackRow]) -> None:
        self._was_warned = True
        names = listed([row.item.called for row in rows])
        self._say(
            f"Something speaks against {names}. Say why in the note, leave it to be decided, or "
            "press Ctrl+Enter once more to take it as it is."
        )
        rows[0].note.setFocus()

    def _kept(self, _: Change) -> None:
        self._is_busy = False
        key = key_of(self.batch) if self.batch is not None else 0
        self._clear()
        self.batch = None
        self.checked_in.emit(key)

    def _failed(self, error: BaseException) -> None:
        self._is_busy = False
        if isinstance(error, Trouble):
            self._say(error.sentence)
        else:
            self.desk.tell_error(error)

    def _say(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.show()

    def _leave(self) -> None:
        self.left.emit(key_of(self.batch) if self.batch is not None else 0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if is_escape(event):
            self._leave()
        else:
            super().keyPressEvent(event)
