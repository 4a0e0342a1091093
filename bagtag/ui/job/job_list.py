"""Every job of the store, and what is found in all of them as one types."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, Line, button, clear_layout, label, tight
from bagtag.ui.forms.sight import scrolling
from bagtag.ui.job.job_ticket import Ticket

if TYPE_CHECKING:
    from bagtag.services.find import Hit
    from bagtag.services.jobs import JobRow
    from bagtag.store.work import Store

PARTS = 8


def parts_like(store: "Store", typed: str) -> "tuple[str, list[Hit]]":
    """Parts of any job that have these words; what was typed comes back with them."""
    return typed, services.find.find(store, typed, limit=PARTS) if typed else []


class JobList(QWidget):
    chosen = Signal(int)
    found = Signal(int, int)
    """A part was chosen: its job and its removal."""
    wants_new = Signal()

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self._jobs: Sequence[JobRow] = ()
        self._hits: Sequence[Hit] = ()
        self._tickets: list[tuple[Ticket, int, int]] = []
        self.search = Line(self, "Find a job, or a part in any job", hint="Find a job or a part")
        self.search.textChanged.connect(self._typed)
        self.new = button("Open a &new job", self, role="plain")
        self.new.clicked.connect(self.wants_new)
        self._list = QWidget(self)
        self._column = QVBoxLayout(self._list)
        self._column.setContentsMargins(0, 0, 6, 0)
        self._column.setSpacing(4)
        self.area = scrolling(self._list, self)
        column = QVBoxLayout(self)
        tight(column, 10)
        column.addWidget(self.search)
        column.addWidget(self.area, 1)
        column.addWidget(self.new)

    @property
    def tickets(self) -> list[Ticket]:
        return [ticket for ticket, _, _ in self._tickets]

    def refresh(self) -> None:
        self.desk.ask(services.jobs.list_jobs, then=self._listed)

    def hear(self, change: Change) -> None:
        if any(change.touches(kind) for kind in ("job", "removal", "sign_off", "away")):
            self.refresh()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        on_search = self.focusWidget() is self.search
        if on_search and event.key() in ENTER and self._tickets:
            self._tickets[0][0].click()
        elif on_search and event.key() == Qt.Key.Key_Down and self._tickets:
            self._tickets[0][0].setFocus()
        elif event.key() == Qt.Key.Key_Escape and self.search.text():
            self.search.clear()
        else:
            super().keyPressEvent(event)

    def _listed(self, jobs: "list[JobRow]") -> None:
        self._jobs = jobs
        self._show()

    def _typed(self, typed: str) -> None:
        self._show()
        self.desk.ask(parts_like, typed.strip(), then=self._parts)

    def _parts(self, answer: "tuple[str, list[Hit]]") -> None:
        typed, hits = answer
        if typed == self.search.text().strip():
            self._hits = hits
            self._show()

    def _show(self) -> None:
        typed = self.search.text().strip()
        clear_layout(self._column)
        self._tickets = []
        for job in (job for job in self._jobs if _matches(job, typed)):
            self._add(job.title, _counts(job), job.id, 0, here=job.id == self.desk.job_id)
        if typed:
            self._show_parts(typed)
        self._column.addStretch(1)

    def _show_parts(self, typed: str) -> None:
        if self._hits:
            self._say("Parts")
        for hit in self._hits:
            self._add(f"{hit.number}  {hit.name}", hit.job_title, hit.job_id, hit.removal_id)
        if not self._tickets:
            self._say(f"No job and no part answers to {typed}.")

    def _say(self, text: str) -> None:
        said = label(text, self._list, scale="small", tone="muted")
        self._column.addWidget(said)
        said.show()

    def _add(
        self, title: str, detail: str, job_id: int, removal_id: int, *, here: bool = False
    ) -> None:
        ticket = Ticket(title, detail, self._list, here=here)
        ticket.clicked.connect(self._clicked)
        self._column.addWidget(ticket)
        ticket.show()
        self._tickets.append((ticket, job_id, removal_id))

    def _clicked(self) -> None:
        pressed = self.sender()
        job_id, removal_id = next((j, r) for t, j, r in self._tickets if t is pressed)
        if removal_id:
            self.found.emit(job_id, removal_id)
        else:
            self.chosen.emit(job_id)


def _matches(job: "JobRow", typed: str) -> bool:
    text = f"{job.number} {job.title} {job.owner}".casefold()
    return all(word in text for word in typed.casefold().split())


def _counts(job: "JobRow") -> str:
    counts = [f"{job.off} off"]
    counts += [f"{job.back} back"] if job.back else []
    counts += [f"{job.away} away"] if job.away else []
    return ", ".join([*counts, job.owner] if job.owner else counts)
