"""One send-out: its shop and days, its parts with what is wanted of each, its papers."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.codes import show
from bagtag.domain.sending import Batch
from bagtag.ui import theme
from bagtag.ui.away.away_acts import FinishAct, is_escape
from bagtag.ui.away.away_words import back_words, called, key_of, price_words, when
from bagtag.ui.away.batch_dialogs import open_batch
from bagtag.ui.away.batch_item import BatchItem
from bagtag.ui.away.batch_papers import BatchPapers
from bagtag.ui.away.batch_parts import BatchParts
from bagtag.ui.away.looks import Looks
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import button, label, tight
from bagtag.ui.forms.flow import FlowBox
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.forms.sight import InSight
from bagtag.ui.forms.turn import come_last
from bagtag.ui.forms.values import Values

if TYPE_CHECKING:
    from PySide6.QtWidgets import QDialog


class BatchPage(QWidget):
    checking_in = Signal(int)
    adding = Signal(int)
    left = Signal()

    def __init__(self, desk: Desk, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.batch: Batch | None = None
        self.dialog: QDialog | None = None
        self.head = label("", self, scale="head")
        self.when = label("", self)
        self.acts = FlowBox(self, 8)
        self.back = FinishAct("What is back?", self)
        self.paper = Act("Traveller", "Ctrl+P", self)
        self.change = button("Change it", self.acts)
        self.more = button("More parts", self.acts)
        self.gone = button("It did not go", self.acts)
        self.leave = button("All send-outs\u2002Esc", self, role="quiet", name="All send-outs")
        self.view = Scroll(self, "The send-out")
        self.view.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # Tab goes from act to act in it
        self.values = Values(self.view.body)
        self.parts = BatchParts(desk, looks, self.view.body)
        self.papers_head = label("Papers", self.view.body)
        self.papers = BatchPapers(desk, self.view.body)
        self._lay()
        self._connect()

    def _lay(self) -> None:
        for press in (self.back, self.paper, self.change, self.more, self.gone):
            self.acts.flow.addWidget(press)
        self.view.column.setContentsMargins(2, 2, 12, 2)
        for widget in (self.values, self.parts, self.papers_head, self.papers):
            self.view.column.addWidget(widget)
        self.view.column.addStretch(1)
        InSight(self.view, ())
        words = QVBoxLayout()
        tight(words, 2)
        words.addWidget(self.head)
        words.addWidget(self.when)
        row = QHBoxLayout()
        tight(row, 12)
        row.addLayout(words, 1)
        row.addWidget(self.leave, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        tight(column, 10)
        column.addLayout(row)
        column.addWidget(self.acts)
        column.addWidget(self.view, 1)

    def _connect(self) -> None:
        self.back.clicked.connect(self._check_in)
        self.paper.clicked.connect(self.print_traveller)
        self.change.clicked.connect(self._change)
        self.more.clicked.connect(self._more)
        self.gone.clicked.connect(self._take_out)
        self.leave.clicked.connect(self.left)

    # What is shown

    def begin(self, batch: Batch) -> None:
        self.show_batch(batch)
        self.view.verticalScrollBar().setValue(0)
        (self.back if batch.out else self.leave).setFocus()

    def show_batch(self, batch: Batch) -> None:
        today = date.today()
        self.batch = batch
        self.head.setText(called(batch))
        said = (when(batch, today), back_words(batch) if batch.out else "")
        self.when.setText(", ".join(filter(None, said)))
        theme.mark(self.when, tone="accent" if batch.days_late(today) else "muted")
        self._offer(batch)
        self._show_values(batch)
        self.parts.show_batch(batch)
        whole = batch.send_out
        for widget in (self.papers_head, self.papers):
            widget.setVisible(whole is not None)
        if whole is not None:
            self.papers.show_papers(whole.id, batch.documents)
        come_last(*(press for item in self.items for press in item.presses), *self.papers.in_turn())

    def _offer(self, batch: Batch) -> None:
        """What makes sense now: what is all back is only looked at."""
        is_whole = batch.send_out is not None
        self.back.offer(bool(batch.out))
        self.paper.offer(is_whole and bool(batch.items))
        self.change.setVisible(is_whole)
        self.more.setVisible(is_whole and (bool(batch.out) or not batch.items))
        self.gone.setVisible(is_whole and not batch.back)

    def _show_values(self, batch: Batch) -> None:
        whole = batch.send_out
        self.values.setVisible(whole is not None)
        if whole is None:
            return
        pairs = (
            ("Work wanted of all of it", whole.work),
            ("Contact", whole.contact),
            ("Price", price_words(whole)),
            ("Note", whole.note),
            ("On the traveller", show(whole.code) if whole.code else ""),
        )
        self.values.show_values([(caption, text, "ink") for caption, text in pairs])

    @property
    def items(self) -> list[BatchItem]:
        return self.parts.items

    # What is done

    @property
    def key(self) -> int:
        return key_of(self.batch) if self.batch is not None else 0

    def _check_in(self) -> None:
        self.checking_in.emit(self.key)

    def _more(self) -> None:
        self.adding.emit(self.key)

    def print_traveller(self) -> None:
        from bagtag.ui.sheets.traveller_dialog import open_traveller

        whole = self.batch.send_out if self.batch is not None else None
        self.dialog = open_traveller(self.desk, self, self.key, whole.called if whole else "")

    def _change(self) -> None:
        if self.batch is not None and self.batch.send_out is not None:
            self.dialog = open_batch(self.desk, self, self.batch.send_out)

    def _take_out(self) -> None:
        """None of it went: undo brings it back."""
        self.desk.act(services.send_outs.delete, self.key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if is_escape(event):
            self.left.emit()
        else:
            super().keyPressEvent(event)
