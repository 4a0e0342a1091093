"""From a finding to where it is mended, and back to the audit with the next one chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QObject

from bagtag import services
from bagtag.domain.audit_finding import Lack
from bagtag.ui.sheets.label_dialog import open_labels

if TYPE_CHECKING:
    from bagtag.services.audit import AuditRow
    from bagtag.ui.audit.audit_page import AuditPage
    from bagtag.ui.containers.containers_stage import ContainersStage
    from bagtag.ui.job.job_stage import JobStage
    from bagtag.ui.window_work import WindowWork


class AuditWork(QObject):
    """Made with the audit's page. `away` is the entry or the area that is being mended."""

    def __init__(self, page: AuditPage, work: WindowWork) -> None:
        super().__init__(work)
        self.page, self._work = page, work
        self.away: tuple[str, int] | None = None
        self._hears_job = False
        page.mend.connect(self.mend)
        page.left.connect(self._to_strip)
        page.typed.connect(work.type_in_field)
        work.bench.entry_done.connect(self._entry_done)

    def mend(self, row: AuditRow) -> None:
        """Go to where a finding is mended."""
        finding = row.finding
        if finding.lack is Lack.TAG:
            self._print_tags()
        elif finding.lack is Lack.OPENER:
            self._show_area(finding.area_id)
        elif finding.lack is Lack.MIXED and finding.container_id:
            self._show_container(finding.container_id)
        elif finding.removal_id:
            self._open_entry(finding.removal_id, photos=finding.lack is Lack.PHOTO)

    def forget(self) -> None:
        """The person has gone elsewhere: nothing leads back to the audit by itself."""
        self.away = None

    def _open_entry(self, removal_id: int, *, photos: bool) -> None:
        self.page.choose_next()
        bench = self._work.bench
        bench.show_removal(removal_id)
        self._work.go_to("Strip")
        bench.show_removal(removal_id)
        bench.correct(removal_id)
        if photos:
            bench.focus_photos(removal_id)
        else:
            bench.entry.ask()
        self.away = "entry", removal_id

    def _print_tags(self) -> None:
        desk = self._work.desk
        order = services.labels.LabelOrder(desk.job_id, removal_ids=self.page.untagged())
        open_labels(desk, order, self._work.window)

    def _show_area(self, area_id: int) -> None:
        self.page.choose_next()
        stage = cast("JobStage", self._work.page_of("Job"))
        if not self._hears_job:
            self._hears_job = True
            stage.page.areas.form.done.connect(self._area_done)
            stage.page.areas.form.left.connect(self._area_done)
        self._work.go_to("Job")
        stage.show_area(area_id)
        self.away = "area", area_id

    def _show_container(self, container_id: int) -> None:
        self.page.choose_next()
        stage = cast("ContainersStage", self._work.page_of("Containers"))
        self._work.go_to("Containers")
        stage.show_container(container_id)

    # And back

    def _entry_done(self, removal_id: int) -> None:
        if self.away == ("entry", removal_id):
            self._work.go_to("Audit")

    def _area_done(self) -> None:
        if self.away is not None and self.away[0] == "area":
            self._work.go_to("Audit")

    def _to_strip(self) -> None:
        self._work.go_to("Strip")
