"""Packing: which shop, which parts, and what is wanted of each. Parts are chosen or scanned."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput, Trouble
from bagtag.domain.sending import Batch
from bagtag.domain.standing import Standing
from bagtag.ui.away.away_acts import FinishAct, is_escape
from bagtag.ui.away.away_words import called
from bagtag.ui.away.looks import Looks
from bagtag.ui.away.pack_panels import PackPanels
from bagtag.ui.away.pack_shop import ShopForm
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import button, label, tight
from bagtag.ui.forms.pick_model import PickRow
from bagtag.ui.forms.pick_several import PickSeveral
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.forms.sight import InSight
from bagtag.ui.forms.turn import come_last

if TYPE_CHECKING:
    from bagtag.services.tags import Found
    from bagtag.services.views import StripRow
    from bagtag.ui.away.pack_part import PackPart


class PackPage(QWidget):
    """What was typed is kept while one looks elsewhere, until it is sent; so is what was typed for
    a part while it is chosen off and on again."""

    packed = Signal(int)
    """The batch that is sent, or that has more in it now."""
    left = Signal()

    def __init__(self, desk: Desk, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk, self._looks = desk, looks
        self.send_out_id = 0
        self._rows: dict[int, StripRow] = {}
        self._is_busy = False
        self._begun: tuple[int, int] | None = None
        self.head = label("", self, scale="head")
        self.left_side, self.right_side = Scroll(self, "The send-out"), PackPanels(looks, self)
        self.shop = ShopForm(self.left_side.body)
        self.pick = PickSeveral("Parts that go", self.left_side.body, noun="part")
        self.wrong = label("", self, tone="accent")
        self.send = FinishAct("Send it", self)
        self.leave = button("Leave it\u2002Esc", self, role="quiet", name="Leave it")
        self._lay()
        self.pick.changed.connect(self._chosen)
        self.right_side.let_go.connect(self._let_go)
        self.send.clicked.connect(self.save)
        self.leave.clicked.connect(self.left)

    def _lay(self) -> None:
        self.left_side.column.addWidget(self.shop)
        self.left_side.column.addWidget(self.pick)
        self.left_side.column.addStretch(1)
        self.left_side.column.setContentsMargins(2, 2, 12, 2)
        self.left_side.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        InSight(self.left_side, ())
        sides, acts = QHBoxLayout(), QHBoxLayout()
        tight(sides, 16)
        sides.addWidget(self.left_side, 5)
        sides.addWidget(self.right_side, 6)
        tight(acts, 12)
        for press in (self.send, self.leave):
            acts.addWidget(press)
        acts.addWidget(self.wrong, 1)
        column = QVBoxLayout(self)
        tight(column, 10)
        column.addWidget(self.head)
        column.addLayout(sides, 1)
        column.addLayout(acts)

    # What is shown

    def begin(self, batches: Sequence[Batch]) -> None:
        """A new batch, or the one that was begun and left; shops gone to before are offered."""
        shops = list(dict.fromkeys(batch.shop for batch in reversed(batches)))
        is_new = self._start(0, "Send it")
        self.head.setText("Send parts away" if is_new else "Send parts away, as it was left")
        if is_new:
            self.shop.clear()
        self.shop.shop.suggest(shops)
        self.shop.show()
        self.shop.shop.line.setFocus()

    def begin_more(self, batch: Batch) -> None:
        """More parts for a batch that is packed."""
        assert batch.send_out is not None
        self.head.setText(f"More parts for {called(batch)}")
        self.shop.hide()
        self._start(batch.send_out.id, "Add them")
        self.pick.line.setFocus()

    def _start(self, send_out_id: int, word: str) -> bool:
        """Whether it is begun afresh: not where the same was begun and left."""
        self.send_out_id = send_out_id
        self.send.say(word)
        self.say_nothing()
        was, self._begun = self._begun, (self.desk.job_id, send_out_id)
        if was != self._begun:
            self.pick.line.clear()
            self.pick.set_values([])
            self.right_side.clear()
        self.refresh()
        return was != self._begun

    def refresh(self) -> None:
        """Ask again which parts could go."""
        self.desk.ask(parts_of, self.desk.job_id, then=self._known)

    def _known(self, rows: list[StripRow]) -> None:
        self._rows = {row.removal.id: row for row in rows}
        here = [row for row in rows if row.standing is Standing.OFF]
        self.pick.set_rows([pick_row(row) for row in reversed(here)])
        self.right_side.set_rows(self._rows, [pick_row(row) for row in rows])
        self._show_chosen()

    # Which parts

    @property
    def panels(self) -> dict[int, PackPart]:
        return self.right_side.panels

    def _chosen(self) -> None:
        new = [one for one in self.pick.values if one not in self.panels]
        self.say_nothing()
        self._show_chosen(new[-1] if new else 0)

    def _show_chosen(self, opened: int = 0) -> None:
        self.right_side.show_chosen(self.pick.values, opened)
        come_last(self.send, self.leave)

    def _let_go(self, removal_id: int) -> None:
        self.pick.set_values([one for one in self.pick.values if one != removal_id])
        self._show_chosen()
        self.pick.line.setFocus()

    def take_scan(self, code: str) -> None:
        """A scanned part goes with it."""
        self.desk.ask(services.tags.look_up, code, then=self._found, failed=self._failed)

    def _found(self, found: Found) -> None:
        removal_id = found.removal_id or 0
        row = self._rows.get(removal_id)
        if row is None:
            self.say("This tag hangs on no part of this job. Scan the tag of a part.")
        elif row.standing is not Standing.OFF:
            self.desk.ask(services.send_outs.why_not, [removal_id], then=self._refused)
        else:
            self.say_nothing()
            self.pick.set_values(list(dict.fromkeys([*self.pick.values, removal_id])))
            self._show_chosen()
            self.right_side.go_to(removal_id)

    def _refused(self, why: dict[int, str]) -> None:
        for sentence in why.values():
            self.say(sentence)

    # What is kept

    def save(self) -> None:
        if self._is_busy or not self.pick.settle():
            return
        self.say_nothing()
        try:
            wanted = self.right_side.wanted(self.pick.values)
        except BadInput:
            return  # it is said at its field
        try:
            form = self.shop.form(date.today())
        except BadInput as wrong:
            self._failed(wrong)
            return
        self._is_busy = True
        act = services.send_outs
        more, new = (act.add_wanted, self.send_out_id), (act.send, self.desk.job_id, form)
        what = more if self.send_out_id else new
        self.desk.act(*what, wanted, then=self._kept, failed=self._failed)

    def _kept(self, change: Change) -> None:
        self._is_busy, self._begun = False, None
        self.packed.emit(self.send_out_id or change.new_id or 0)

    def _failed(self, error: BaseException) -> None:
        self._is_busy = False
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
        elif not self._said_at_field(error):
            self.say(error.sentence)

    def _said_at_field(self, error: Trouble) -> bool:
        if error.field == "removals":
            self.pick.field.say(error.sentence)
            self.pick.line.setFocus()
            return True
        if not self.shop.isHidden() and self.shop.say_wrong(error):
            return True
        return self.right_side.say_wrong(error)

    def say(self, sentence: str) -> None:
        self.wrong.setText(sentence)

    def say_nothing(self) -> None:
        self.wrong.setText("")
        self.shop.say_nothing()
        self.pick.field.say("")
        self.right_side.say_nothing()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if is_escape(event):
            self.left.emit()
        else:
            super().keyPressEvent(event)


def pick_row(row: StripRow) -> PickRow:
    said = ", ".join(filter(None, (row.area, row.container)))
    return PickRow(row.removal.id, f"{row.removal.number} {row.removal.name}", said)


def parts_of(store: Any, job_id: int) -> list[StripRow]:
    """Every part of a job, in the order off: what may go, and what may have been taken off it."""
    ids = list(services.strip.log_ids(store, job_id))
    return services.views.strip_rows(store, job_id, ids)
