"""What the main window does once the store is open: jobs, stages, scans, undo."""

from __future__ import annotations

import sys
from importlib import import_module
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QObject, QProcess
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Ref
from bagtag.domain.model import Removal
from bagtag.ui import late_words
from bagtag.ui.bench_page import BenchPage
from bagtag.ui.desk import Desk
from bagtag.ui.plain_page import PlainPage
from bagtag.ui.scanning.scanner import Scanner
from bagtag.ui.scanning.tag_work import TagWork
from bagtag.ui.stage import Stage
from bagtag.ui.stage_bar import STAGES
from bagtag.ui.window import MainWindow

if TYPE_CHECKING:
    from bagtag.domain.sending import Late
    from bagtag.ui.audit.audit_page import AuditPage
    from bagtag.ui.audit.audit_work import AuditWork
    from bagtag.ui.holding.holding_page import HoldingPage
    from bagtag.ui.holding.holding_work import HoldingWork

BENCH = ("Strip", "Build")
AUDIT, HOLDING = "Audit", "Holding"
UNDER = {AUDIT: "Strip", HOLDING: "Build"}
"""Pages of their own, each under the word of a stage."""
PAGES = {
    "Job": ("job.job_stage", "JobStage"),
    "Containers": ("containers.containers_stage", "ContainersStage"),
    "Away": ("away.away_stage", "AwayStage"),
    "Holding": ("holding.holding_page", "HoldingPage"),
    "Renew": ("renew.renew_stage", "RenewStage"),
    "Measure": ("measure.measure_stage", "MeasureStage"),
    "Close": ("stages.close_stage", "CloseStage"),
    "Audit": ("audit.audit_page", "AuditPage"),
}
"""Pages that are made when they are first gone to."""


class WindowWork(QObject):
    """Ties the parts of the window to each other and to the desk."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self.window = window
        self.desk: Desk = window.desk
        self.stage = ""
        self._made: dict[str, Stage] = {}
        self._empty: PlainPage | None = None
        self._audit: AuditWork | None = None
        self._holding: HoldingWork | None = None
        self._go_on = True
        self._troubles: tuple[str, ...] = ()
        self.bench = BenchPage(self.desk, window)
        window.pages.addWidget(self.bench)
        self.tags = TagWork(self)
        self.scanner = Scanner(window)
        self._connect()
        self._give_keys()
        self._ask_jobs()

    def _connect(self) -> None:
        desk, window, field = self.desk, self.window, self.window.field
        desk.changed.connect(self._changed)
        desk.job_chosen.connect(self._job_chosen)
        desk.show_removal.connect(self.show_removal)
        desk.show_step.connect(self.show_step)
        desk.check_in.connect(self.check_in)
        desk.show_stage.connect(self.go_to)
        window.stages.chosen.connect(self.go_to)
        window.title.chosen.connect(self._title_chosen)
        window.message.undo_wanted.connect(self.undo)
        field.tape_entered.connect(self._log_tape)
        field.tape_to_card.connect(self._tape_to_card)
        field.code_entered.connect(self._code_entered)
        field.hit_chosen.connect(self._hit_chosen)
        field.left.connect(self._to_strip)
        self.bench.numbered.connect(field.set_next_number)
        self.bench.refused.connect(field.take_back)
        self.bench.typed.connect(self.type_in_field)
        self.bench.audit_wanted.connect(self.open_audit)
        self.scanner.scanned.connect(self._scanned)
        field.ways.read.connect(self._take_code)

    def _give_keys(self) -> None:
        for number, stage in enumerate(STAGES, start=1):
            self._key(f"Alt+{number}", self._stage_key).setObjectName(stage)
        for keys, slot in (
            ("Ctrl+L", self.focus_field),
            ("F2", self.focus_field),
            ("F3", self.open_audit),
            ("F11", self.open_holding),
            ("Ctrl+J", self.window.title.open_menu),
            ("Ctrl+Z", self.undo),
            ("Ctrl+Shift+Z", self.redo),
            ("Ctrl+Y", self.redo),
            ("Ctrl+I", self._insert_key),
        ):
            self._key(keys, slot)

    def _key(self, keys: str, slot: object) -> QShortcut:
        made = QShortcut(QKeySequence(keys), self.window)
        made.setAutoRepeat(False)
        made.activated.connect(slot)
        return made

    def _stage_key(self) -> None:
        self.go_to(self.sender().objectName())

    # Jobs

    def _ask_jobs(self) -> None:
        self.desk.ask(services.jobs.list_jobs, then=self._jobs_known)

    def _jobs_known(self, jobs: list) -> None:  # type: ignore[type-arg]  # of services.jobs.JobRow
        window = self.window
        window.title.set_jobs(jobs)
        row = next((job for job in jobs if job.id == self.desk.job_id), None)
        if row is None and jobs and self._go_on:
            self._go_on = False
            self.desk.ask(late_words.late, then=self._late_known)
            self.desk.choose_job(jobs[0].id)
            self.go_to("Build" if jobs[0].back else "Strip")
            row = jobs[0]
        window.title.set_title(row.title if row else "")
        window.setWindowTitle(f"{row.title} – Bagtag" if row else "Bagtag")
        window.counts.show_counts(*((row.off, row.back, row.away) if row else (0, 0, 0)))
        if not jobs:
            self._show_empty()

    def _late_known(self, found: tuple[Late, ...]) -> None:
        """What is late at a shop is said on opening, and stays until it is put away."""
        if said := late_words.late_words(found, self.desk.job_id):
            self.desk.said.emit(said, True)

    def _job_chosen(self, job_id: int) -> None:
        self._go_on = False
        self._ask_jobs()
        self._ask_reader()
        self.go_to(self.stage or "Strip")

    def _ask_reader(self) -> None:
        if self.desk.job_id:
            self.desk.ask(services.tape.reader, self.desk.job_id, then=self.window.field.set_reader)
            self.desk.ask(services.kinds.troubles, then=self._kinds_read)
        else:
            self.window.field.set_reader(None)

    def _kinds_read(self, troubles: tuple[str, ...]) -> None:
        """A broken file of part kinds is named once, until it breaks in another way."""
        if troubles and troubles != self._troubles:
            self.desk.said.emit(" ".join(troubles), True)
        self._troubles = troubles

    def _title_chosen(self, job_id: int) -> None:
        if job_id:
            self.desk.choose_job(job_id)
        else:
            self.open_new_job()

    def open_new_job(self) -> None:
        """Go to the form of a job that is still to be opened."""
        page = self.page_of("Job")
        self.go_to("Job")
        page.open_new()  # type: ignore[attr-defined]  # a JobStage

    def _show_empty(self) -> None:
        if self.stage == "Job":
            return
        if self._empty is None:
            self._empty = self._make_empty()
            self.window.pages.addWidget(self._empty)
        self.window.pages.setCurrentWidget(self._empty)
        self._empty.setFocus()
        self.window.stages.set_current("")
        self.stage = ""

    def _make_empty(self) -> PlainPage:
        page = PlainPage(
            "Open a job first",
            "A job is one machine taken apart for one reason. Say which machine it is, and log "
            "each part as it comes off.",
            self.window,
        )
        page.add_button("Open a job", "primary").clicked.connect(self.open_new_job)
        page.add_button("Look at the demo").clicked.connect(self.open_demo)
        return page

    def open_demo(self) -> None:
        """The demo job in a window of its own, on a copy that is thrown away."""
        QProcess.startDetached(sys.executable, ["-m", "bagtag", "--demo"])
        self.desk.say("The demo opens in a window of its own; nothing in it is kept.")

    # Stages

    def go_to(self, stage: str) -> None:
        """Show a stage; without a job there is only the first."""
        if not self.desk.job_id and stage != "Job":
            self.window.stages.set_current(self.stage)
            self._show_empty()
            return
        if self._audit is not None:
            self._audit.forget()
        if self._holding is not None:
            self._holding.forget()
        page = self.page_of(stage)
        self.stage = stage
        self.window.stages.set_current(UNDER.get(stage, stage))
        if page is self.bench:
            self.bench.set_stage(stage)
        self.window.pages.setCurrentWidget(page)
        self.window.field.set_stage(stage)
        page.enter()
        if stage == "Strip":  # the next part is written as on tape; Tab goes on to its card
            self.focus_field()

    def open_audit(self) -> None:
        """What is still missing, before the bench is cleared."""
        self.go_to(AUDIT)

    def open_holding(self) -> None:
        """What is holding the job up: what to chase first."""
        self.go_to(HOLDING)

    def page_of(self, stage: str) -> Stage:
        if stage in BENCH:
            return self.bench
        if stage not in self._made:
            module, name = PAGES[stage]
            made = getattr(import_module(f"bagtag.ui.{module}"), name)
            self._made[stage] = made(self.desk, self.window)
            self.window.pages.addWidget(self._made[stage])
            if stage == AUDIT:
                self._audit = self._audit_work(self._made[stage])
            if stage == HOLDING:
                self._holding = self._holding_work(self._made[stage])
        return self._made[stage]

    def _audit_work(self, page: Stage) -> AuditWork:
        from bagtag.ui.audit.audit_work import AuditWork

        return AuditWork(cast("AuditPage", page), self)

    def _holding_work(self, page: Stage) -> HoldingWork:
        from bagtag.ui.holding.holding_work import HoldingWork

        return HoldingWork(cast("HoldingPage", page), self)

    def container_page(self) -> Stage:
        """The page that can show a container."""
        return self.page_of("Containers")

    @property
    def page(self) -> QWidget | None:
        return self.window.pages.currentWidget()

    # What is shown

    def show_removal(self, removal_id: int) -> None:
        """Show a removal on the card, whichever job it is of."""
        self.desk.ask(services.strip.get_removal, removal_id, then=self._removal_known)

    def show_step(self, ref: Ref) -> None:
        """Show a step of the build of this job: a removal on its card, a task on its own."""
        if ref.removal_id is not None:
            self.bench.show_removal(ref.removal_id)  # sought before the build would offer its next
        if self.stage != "Build":
            self.go_to("Build")
        if ref.removal_id is not None:
            self.bench.show_removal(ref.removal_id)
        else:
            self.bench.show_task(ref.id)

    def check_in(self, send_out_id: int, removal_id: int) -> None:
        """Look at a part that is back from a shop."""
        page = self.page_of("Away")
        self.go_to("Away")
        page.check_in_part(send_out_id, removal_id)  # type: ignore[attr-defined]  # an AwayStage

    def _removal_known(self, removal: Removal) -> None:
        if removal.job_id != self.desk.job_id:
            self.stage = self.stage if self.stage in BENCH else "Strip"
            self.desk.choose_job(removal.job_id)
        self.bench.show_removal(removal.id)
        if self.stage not in BENCH:
            self.go_to("Strip")
        self.bench.show_removal(removal.id)

    def _hit_chosen(self, hit: object) -> None:
        self.window.field.clear()
        self.show_removal(hit.removal_id)  # type: ignore[attr-defined]  # a services.find.Hit
        self._to_strip()

    def _scanned(self, code: str) -> None:
        """Letters of a scan that the strip had handed on to the field are taken out of it too."""
        popup = QApplication.activePopupWidget()
        if popup is not None:
            popup.close()  # what was scanned is shown; a menu that was open stands in its way
        line = self.window.field.frame.line
        if line.text().upper().endswith(code):
            line.setText(line.text()[: -len(code)])
        self._take_code(code)

    def _code_entered(self, code: str) -> None:
        self.window.field.clear()
        self._take_code(code)

    def _take_code(self, code: str) -> None:
        """A page that waits for codes of its own has them; else a code shows what it hangs on."""
        if not (isinstance(self.page, Stage) and self.page.take_scan(code)):
            self.tags.scanned(code)

    # What is done

    def _changed(self, change: Change) -> None:
        self.window.message.hear(change)
        self._ask_jobs()
        if any(change.touches(kind) for kind in ("container", "area", "job")):
            self._ask_reader()
        page = self.page
        if isinstance(page, Stage):
            page.hear(change)

    def _log_tape(self, tape: object) -> None:
        line = self.window.field.text
        self.window.field.clear()
        self.bench.log_tape(line, tape)

    def _tape_to_card(self, tape: object) -> None:
        self.window.field.clear()
        self.bench.tape_to_card(tape)

    def undo(self) -> None:
        """Take back the newest act of the job."""
        self.desk.act(services.history.undo, self.desk.job_id, failed=self._nothing_to)

    def redo(self) -> None:
        self.desk.act(services.history.redo, self.desk.job_id, failed=self._nothing_to)

    def _nothing_to(self, error: Exception) -> None:
        if isinstance(error, BadInput):
            self.desk.say(error.sentence)
        else:
            self.desk.tell_error(error)

    # Keys

    def focus_field(self) -> None:
        self.window.field.frame.line.setFocus()
        self.window.field.frame.line.selectAll()

    def _to_strip(self) -> None:
        if self.page is self.bench:
            self.bench.focus_left()
        elif self.stage == AUDIT and self.page is not None:
            self.page.setFocus()

    def type_in_field(self, text: str) -> None:
        self.window.field.frame.line.setFocus()
        self.window.field.frame.line.insert(text)

    def _insert_key(self) -> None:
        if self.page is self.bench:
            self.bench.insert_before(self.bench.strip.chosen_id or self.bench.card_id)

    def stop(self) -> None:
        self.scanner.stop()
