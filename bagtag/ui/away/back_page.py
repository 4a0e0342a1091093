"""Check-in: what is scanned or ticked is back, each looked at; what is not ticked stays away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.errors import BadInput, Trouble
from bagtag.domain.phrases import listed
from bagtag.domain.sending import Back, Batch, Scanned
from bagtag.ui.away.away_acts import FinishAct, is_escape
from bagtag.ui.away.away_words import called, key_of
from bagtag.ui.away.back_row import BackRow
from bagtag.ui.away.looks import Looks
from bagtag.ui.card.card_parts import Scroll
from bagtag.ui.card.sign_rows import Verdict
from bagtag.ui.card.task_signs import CROSS, TICK
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import button, label, tight
from bagtag.ui.forms.sight import InSight

if TYPE_CHECKING:
    from bagtag.domain.change import Change

SCAN = "Scan each tag, or tick what is here. What is not ticked stays at the shop."
NOTHING = "Nothing is ticked yet. Scan the tags of what is back, or tick it."
SHOWN = 6
"""How many parts are named where more may stay away; the rest are counted."""


class BackPage(QWidget):
    """What was ticked and typed is kept while one looks elsewhere, until it is checked in."""

    checked_in = Signal(int)
    left = Signal(int)

    def __init__(self, desk: Desk, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk, self._looks = desk, looks
        self.batch: Batch | None = None
        self.rows: dict[int, BackRow] = {}
        self._is_busy = self._was_warned = False
        self.head = label("", self, scale="head")
        self.scanned = Verdict(self)
        self.view = Scroll(self, "What is back")
        self.count = label("", self, tone="muted")
        self.wrong = label("", self, tone="accent")
        self.finish = FinishAct("Check it in", self)
        self.leave = button("Leave it\u2002Esc", self, role="quiet", name="Leave it")
        self._later = QTimer(self)  # a row that is just opened has its height a moment later
        self._later.setSingleShot(True)
        self._later.timeout.connect(self._bring)
        self._near: BackRow | None = None
        self._lay()
        InSight(self.view, ())
        self.finish.clicked.connect(self.save)
        self.leave.clicked.connect(self._leave)

    def _lay(self) -> None:
        self.view.column.setContentsMargins(2, 2, 12, 2)
        self.view.column.setSpacing(8)
        self.view.column.addStretch(1)
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
        out = {item.away.id: item for item in batch.out}
        for away_id in [one for one in self.rows if one not in out]:
            self._drop(away_id)
        for place, (away_id, item) in enumerate(out.items()):
            row = self.rows.get(away_id)
            if row is not None and row.item.away != item.away:  # other figures are wanted now
                was_here = row.is_here
                self._drop(away_id)
                self._make(away_id, batch, place).tick(was_here)
            elif row is None:
                self._make(away_id, batch, place)
        self._count()

    def _make(self, away_id: int, batch: Batch, place: int) -> BackRow:
        item = next(one for one in batch.items if one.away.id == away_id)
        row = BackRow(item, self._looks, self.view.body)
        row.changed.connect(self._count)
        self.view.column.insertWidget(place, row)
        self.rows[away_id] = row
        return row

    def _drop(self, away_id: int) -> None:
        row = self.rows.pop(away_id)
        self.view.column.removeWidget(row)
        row.hide()
        row.deleteLater()

    def _clear(self) -> None:
        for away_id in list(self.rows):
            self._drop(away_id)
        self._was_warned = False
        self.wrong.hide()

    def _count(self) -> None:
        """How many are back, and what stays away."""
        here = [row for row in self.rows.values() if row.is_here]
        gone = [row.item.called for row in self.rows.values() if not row.is_here]
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
        self._near = row
        row.begin()
        self._later.start(0)

    def _strange(self, error: BaseException) -> None:
        if isinstance(error, Trouble):
            self.scanned.say(error.sentence, CROSS)
        else:
            self.desk.tell_error(error)

    def _bring(self) -> None:
        """The row that was scanned comes into sight, whole where there is room for it."""
        if self._near is not None and self._near in self.rows.values():
            self.view.ensureWidgetVisible(self._near, 0, 12)

    # What is kept

    def save(self) -> None:
        """Check in what is ticked. What speaks against it is said first, once."""
        if self._is_busy:
            return
        try:
            items = self._items()
        except BadInput as wrong:
            self._say(wrong.sentence)
            return
        unsaid = [row for row in self.rows.values() if row.needs_why]
        if unsaid and not self._was_warned:
            self._warn(unsaid)
            return
        self._is_busy = True
        self.desk.act(services.send_outs.back, items, then=self._kept, failed=self._failed)

    def _items(self) -> list[Back]:
        """What is back; BadInput, said at its field, for what is no figure."""
        found: list[Back] = []
        for row in self.rows.values():
            if row.is_here:
                try:
                    found.append(row.back())
                except BadInput as wrong:
                    row.say_wrong(wrong.sentence, wrong.field)
                    raise
        if not found:
            raise BadInput(NOTHING)
        return found

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
