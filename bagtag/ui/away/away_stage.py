"""Away: what is at outside shops; packing a batch, and looking at what is back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.datum import Datum
from bagtag.domain.sending import Batch
from bagtag.ui.away.away_words import key_of
from bagtag.ui.away.back_page import BackPage
from bagtag.ui.away.batch_list import BatchList
from bagtag.ui.away.batch_page import BatchPage
from bagtag.ui.away.looks import Looks
from bagtag.ui.away.pack_page import PackPage
from bagtag.ui.forms.basics import tight
from bagtag.ui.stage import Stage

if TYPE_CHECKING:
    from bagtag.ui.desk import Desk


class AwayStage(Stage):
    """Four pages, one at a time: all send-outs, one of them, packing, check-in."""

    title = "Away"

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.batches: Sequence[Batch] = ()
        self._job_id = self._wanted = self._back_part = 0
        self._is_first = True
        looks = self._looks = Looks(desk, self)
        self.pages = QStackedWidget(self)
        self.all = BatchList(looks, self.pages)
        self.one = BatchPage(desk, looks, self.pages)
        self.pack = PackPage(desk, looks, self.pages)
        self.back = BackPage(desk, looks, self.pages)
        for page in (self.all, self.one, self.pack, self.back):
            self.pages.addWidget(page)
        column = QVBoxLayout(self)
        tight(column)
        column.addWidget(self.pages)
        self._connect()

    def _connect(self) -> None:
        self.all.send.clicked.connect(self.begin)
        self.all.opened.connect(self.show_batch)
        self.all.checked_in.connect(self.check_in)
        self.one.checking_in.connect(self.check_in)
        self.one.adding.connect(self._add)
        self.one.left.connect(self.show_all)
        self.pack.packed.connect(self.show_batch)
        self.pack.left.connect(self._leave_packing)
        self.back.checked_in.connect(self._checked_in)
        self.back.left.connect(self.show_batch)

    # What is shown

    def enter(self) -> None:
        if self.desk.job_id != self._job_id:
            self._job_id, self._is_first = self.desk.job_id, True
            self.pages.setCurrentWidget(self.all)
        if self.desk.job_id:
            self.desk.ask(batches_of, self.desk.job_id, then=self._known)

    def _known(self, answer: tuple[int, Sequence[Batch], Datum]) -> None:
        job_id, self.batches, self._looks.datum = answer
        if job_id != self.desk.job_id:
            return
        self.all.show_batches(self.batches)
        page = self.pages.currentWidget()
        if page is self.pack:
            self.pack.refresh()
        elif page is self.back:
            self._refresh_back()
        elif page is self.one:
            self._refresh_one()
        first, self._is_first = self._is_first, False
        if self._wanted:
            self._show_wanted()
        elif first and page is self.all:
            self.show_all()

    def _refresh_one(self) -> None:
        found = self._batch(self.one.key)
        if found is None:
            self.show_all()
        else:
            self.one.show_batch(found)

    def _refresh_back(self) -> None:
        found = self._batch(key_of(self.back.batch)) if self.back.batch is not None else None
        if found is None:
            self.show_all()
        else:
            self.back.show_batch(found)

    def _batch(self, key: int) -> Batch | None:
        return next((batch for batch in self.batches if key_of(batch) == key), None)

    # Where one goes

    def show_all(self) -> None:
        """All send-outs, the keys on the one that was open."""
        was = self.one.key if self.pages.currentWidget() is self.one else 0
        self.pages.setCurrentWidget(self.all)
        self.all.begin(was)

    def show_batch(self, send_out_id: int) -> None:
        """Show one send-out; one that is not known yet (a traveller was scanned, or it has just
        been packed) as soon as it is."""
        found = self._batch(send_out_id)
        if found is None:
            self._wanted = send_out_id
            self.enter()
            return
        self.one.begin(found)
        self.pages.setCurrentWidget(self.one)

    def _show_wanted(self) -> None:
        wanted, part = self._wanted, self._back_part
        self._wanted = self._back_part = 0
        if self._batch(wanted) is None:
            self.show_all()
        elif part:
            self.check_in(wanted)
            self.back.tick_part(part)
        else:
            self.show_batch(wanted)

    def check_in_part(self, send_out_id: int, removal_id: int) -> None:
        """Look at what is back of a send-out, this part ticked, as soon as both are known."""
        self._wanted, self._back_part = send_out_id, removal_id
        self.enter()

    def check_in(self, key: int) -> None:
        """Look at what is back of a send-out."""
        found = self._batch(key)
        if found is not None:
            self.pages.setCurrentWidget(self.back)
            self.back.begin(found)

    def begin(self) -> None:
        """Pack a new batch."""
        self.pages.setCurrentWidget(self.pack)
        self.pack.begin(self.batches)

    def _add(self, key: int) -> None:
        found = self._batch(key)
        if found is not None:
            self.pages.setCurrentWidget(self.pack)
            self.pack.begin_more(found)

    def take_scan(self, code: str) -> bool:
        """Whether a scanned code is for what is open here: it is ticked, or goes with the rest."""
        page = self.pages.currentWidget()
        if page in (self.back, self.pack) and self.isVisible():
            page.take_scan(code)
            return True
        return False

    def _leave_packing(self) -> None:
        if self.pack.send_out_id:
            self.show_batch(self.pack.send_out_id)
        else:
            self.show_all()

    def _checked_in(self, key: int) -> None:
        """What stayed away is in sight; parts that went without a batch are among the others."""
        if key > 0:
            self.show_batch(key)
        else:
            self.show_all()


def batches_of(store: Any, job_id: int) -> tuple[int, Sequence[Batch], Datum]:
    """The send-outs of a job, and how its sides are named."""
    job = services.jobs.get_job(store, job_id)
    return job_id, services.send_outs.batches(store, job_id), job.datum
