"""Job: which machine, whose, what for, which side is which, and the areas it is made of."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.model import Area, Job
from bagtag.ui.desk import Desk
from bagtag.ui.job.job_list import JobList
from bagtag.ui.job.job_page import JobPage
from bagtag.ui.stage import Stage

if TYPE_CHECKING:
    from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class JobShown:
    """A job with its areas; `openers` names the removals that open them."""

    job: Job
    areas: tuple[Area, ...]
    openers: dict[int, str]


def look_up(store: "Store", job_id: int) -> JobShown:
    job = services.jobs.get_job(store, job_id)
    areas = services.jobs.areas_of(store, job_id)
    ids = [area.opener_id for area in areas if area.opener_id is not None]
    rows = services.views.strip_rows(store, job_id, ids)
    names = {row.removal.id: f"{row.removal.number} {row.removal.name}" for row in rows}
    return JobShown(job, tuple(areas), names)


class JobStage(Stage):
    """The jobs of the store at the left, the one that is open at the right."""

    title = "Job"

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.list = JobList(desk, self)
        self.page = JobPage(desk, self)
        self._new = False
        self._chosen = False
        self._area = 0
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(20)
        row.addWidget(self.list, 3)
        row.addWidget(self.page, 7)
        self.list.setMinimumWidth(240)
        self.list.setMaximumWidth(380)
        self.list.chosen.connect(self._choose)
        self.list.found.connect(self._show_part)
        self.list.wants_new.connect(self.open_new)
        self.page.kept.connect(self._keep)
        self.page.left.connect(self._leave)
        desk.job_chosen.connect(self._job_chosen)

    def enter(self) -> None:
        self.list.refresh()
        if self._new:
            return
        if self.desk.job_id:
            self.desk.ask(look_up, self.desk.job_id, then=self._show)
        else:
            self.open_new()

    def hear(self, change: Change) -> None:
        self.list.hear(change)
        if not self._new and change.job_id in (0, self.desk.job_id) and self.desk.job_id:
            self.desk.ask(look_up, self.desk.job_id, then=self._show)

    def show_area(self, area_id: int) -> None:
        """Open the form of an area as soon as the job is shown."""
        self._area, self._new = area_id, False
        self.enter()

    def open_new(self) -> None:
        """An empty page for a new job."""
        self._new = True
        self.page.show_new()

    def _show(self, shown: JobShown) -> None:
        if shown.job.id == self.desk.job_id and not self._new:
            self.page.show_job(shown.job)
            self.page.areas.set_areas(shown.job.id, shown.areas, shown.openers)
            area_id, self._area = self._area, 0
            if any(area.id == area_id for area in shown.areas):
                self.page.areas.edit(area_id)
                self.page.areas.form.opener.setFocus()

    def _job_chosen(self, _: int) -> None:
        """Another job is shown, from wherever it was chosen; what was typed here waits."""
        self._new = False

    def _choose(self, job_id: int) -> None:
        self.desk.choose_job(job_id)
        self.list.refresh()
        self.desk.ask(look_up, job_id, then=self._show)

    def _show_part(self, job_id: int, removal_id: int) -> None:
        if job_id != self.desk.job_id:
            self._choose(job_id)
        self.desk.show_removal.emit(removal_id)

    def _leave(self) -> None:
        """Back to the job as it is in the store."""
        self.page.forget()
        self._new = False
        if self.desk.job_id:
            self.desk.ask(look_up, self.desk.job_id, then=self._show)
        else:
            self.page.show_new()

    def _keep(self) -> None:
        form = services.jobs.JobForm(*self.page.values())
        if self._new:
            self.desk.act(services.jobs.open_job, form, then=self._opened, failed=self._failed)
        else:
            self.desk.act(
                services.jobs.edit_job, self.page.job_id, form,
                then=self._kept, failed=self._failed,
            )  # fmt: skip

    def _opened(self, change: Change) -> None:
        self._new = False
        self.page.forget()
        self._choose(change.new_id or 0)
        self.page.areas.new.setFocus(Qt.FocusReason.OtherFocusReason)

    def _kept(self, _: Change) -> None:
        self.page.forget()
        self.desk.ask(look_up, self.desk.job_id, then=self._show)

    def _failed(self, error: BaseException) -> None:
        if not isinstance(error, Trouble):
            raise error
        self.page.say(error)
