"""The strip audit: before the bench is cleared, what is missing, and one key to mend it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.audit_finding import Lack
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.change import Change
from bagtag.ui.audit import audit_words as words
from bagtag.ui.audit.audit_calm import AuditCalm
from bagtag.ui.audit.audit_list import AuditList
from bagtag.ui.audit.audit_model import Key, key_of
from bagtag.ui.audit.audit_photos import AuditPhotos
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import is_inside, label, tight
from bagtag.ui.stage import Stage

if TYPE_CHECKING:
    from bagtag.services.audit import Audit
    from bagtag.store.work import Store

REST_MS = 150
"""How long changes rest before the audit is asked for anew."""
PRINT, PHOTO, OPEN = "Ctrl+P", "F4", "F6"


class AuditPage(Stage):
    """`mend` asks for the place where a finding is mended; `left` for the strip."""

    title = "Audit"
    mend = Signal(object)
    """An `AuditRow`."""
    left = Signal()
    typed = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.audit: Audit | None = None
        self._job_id = 0
        self._wanted: list[Key] = []
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(REST_MS)
        self.photos = AuditPhotos(desk, self)
        self._make()
        self._lay()
        self._connect()

    def _make(self) -> None:
        self.head = label("", self, scale="big")
        self.help = label("", self, tone="muted")
        self.cautions = label(" ".join(TORQUE_CAUTIONS), self, scale="small", tone="muted")
        self.list = AuditList(self.desk, self)
        self.calm = AuditCalm(self)
        self.enter_act = Act("Open the entry", "", self, role="primary")
        self.photo_act = Act("Add a photo", PHOTO, self)
        self.open_act = Act("Nothing covers it", OPEN, self)
        self.print_act = Act("Print the audit", PRINT, self)
        self.strip_act = Act("", "", self, role="quiet")
        self.strip_act.say_with("Back to the strip", "Esc")

    def _lay(self) -> None:
        top = QHBoxLayout()
        tight(top, 24)
        top.addWidget(self.head)
        top.addWidget(self.help, 1)
        self.head.setWordWrap(False)
        foot = QHBoxLayout()
        foot.setSpacing(10)
        for act in (self.enter_act, self.photo_act, self.open_act):
            foot.addWidget(act)
        foot.addStretch(1)
        foot.addWidget(self.print_act)
        foot.addWidget(self.strip_act)
        self.body = QStackedWidget(self)
        self.body.addWidget(self.list)
        self.body.addWidget(self.calm)
        column = QVBoxLayout(self)
        tight(column, 8)
        column.addLayout(top)
        column.addWidget(self.body, 1)
        column.addWidget(self.cautions)
        column.addLayout(foot)

    def _connect(self) -> None:
        self._soon.timeout.connect(self._ask)
        self.list.moved.connect(self._offer)
        self.list.entered.connect(self.mend_it)
        self.list.left.connect(self.left)
        self.list.typed.connect(self.typed)
        self.enter_act.clicked.connect(self.mend_it)
        self.photo_act.clicked.connect(self.add_photos)
        self.open_act.clicked.connect(self.say_open)
        self.print_act.clicked.connect(self.print_it)
        self.strip_act.clicked.connect(self.left)

    # What is shown

    def enter(self) -> None:
        self._ask()
        self.setFocus()

    def hear(self, change: Change) -> None:
        """Ask anew once the changes rest."""
        if change.job_id in (0, self.desk.job_id):
            self._soon.start()

    def _ask(self) -> None:
        self._soon.stop()
        if self.desk.job_id != self._job_id:
            self._begin()
        if self.desk.job_id:
            self.desk.ask(audit_of, self.desk.job_id, then=self._known)

    def _begin(self) -> None:
        """Another job: nothing is known of it yet."""
        self._job_id, self.audit, self._wanted = self.desk.job_id, None, []
        self.list.show_rows(())
        self.body.setCurrentWidget(self.list)
        self.setFocusProxy(self.list)
        self.head.setText(words.LOOKING)
        self.head.show()
        self.help.hide()
        self.cautions.hide()
        self._offer()

    def _known(self, answer: tuple[int, Audit]) -> None:
        job_id, audit = answer
        if job_id == self.desk.job_id:
            self._show(audit)

    def _show(self, audit: Audit) -> None:
        wanted = self._wanted or self._from_here()
        self._wanted = []
        self.audit = audit
        self.list.show_rows(audit.rows)
        self._say(audit)
        focus = QApplication.focusWidget()
        had_focus = focus is None or is_inside(focus, self)
        self.body.setCurrentWidget(self.list if audit.rows else self.calm)
        self.setFocusProxy(self.list if audit.rows else self.strip_act)
        if audit.rows:
            self.list.go_to(self.list.findings.first_of(wanted))
        if had_focus:
            self.setFocus()
        self._offer()

    def _say(self, audit: Audit) -> None:
        found, looked_at = len(audit.rows), audit.looked_at
        empty = not found and not looked_at
        head = words.NOTHING_LOGGED[0] if empty else words.head_words(found, looked_at)
        self.setAccessibleName(head)
        self.head.setText(head)
        self.head.setVisible(bool(found))
        self.help.setVisible(bool(found))
        self.cautions.setVisible(any(row.finding.lack.tells_torque for row in audit.rows))
        self.help.setText(f"{words.entries(looked_at)} looked at. {words.HELP}")
        if not found:
            self.calm.say(*(words.NOTHING_LOGGED if empty else words.calm_words(looked_at)))

    # What is chosen

    def _from_here(self) -> list[Key]:
        """The finding that is chosen, then those after it, then those before it, nearest first."""
        keys = self.list.findings.keyed()
        at = self.list.currentIndex().row()
        after = [key for place, key in keys if place >= at]
        before = [key for place, key in reversed(keys) if place < at]
        return [*after, *before]

    def choose_next(self) -> None:
        """When the page stands again, the finding after this one is chosen, mended or not."""
        here = self.list.here
        keys = self._from_here()
        self._wanted = [key for key in keys if here is None or key != key_of(here.finding)] + keys

    def _offer(self) -> None:
        """The acts that make sense for what is chosen."""
        row = self.list.here
        for act in (self.enter_act, self.photo_act, self.open_act):
            act.offer(False)
        if row is None:
            return
        self.enter_act.say_with(words.act_of(row.finding).large, "Enter")
        self.enter_act.offer(True)
        count = len(self._photo_ids())
        if count:
            self.photo_act.say("Add a photo" if count == 1 else f"Add one photo to all {count}")
            self.photo_act.offer(True)
        self.open_act.offer(row.finding.lack is Lack.OPENER)
        photos = f" {words.PHOTO_HELP}" if row.finding.lack is Lack.PHOTO else ""
        looked_at = self.audit.looked_at if self.audit else 0
        self.help.setText(f"{words.entries(looked_at)} looked at. {photos.strip() or words.HELP}")

    def _photo_ids(self) -> list[int]:
        """The chosen parts that have no photo."""
        chosen = [row.finding for row in self.list.chosen()]
        return [finding.removal_id for finding in chosen if finding.lack is Lack.PHOTO]

    def untagged(self) -> tuple[int, ...]:
        """Every part without a tag, in the order off."""
        rows = self.audit.rows if self.audit else ()
        return tuple(r.finding.removal_id for r in rows if r.finding.lack is Lack.TAG)

    # What is done

    def mend_it(self) -> None:
        """Go to where the chosen finding is mended."""
        if self.list.here is not None:
            self.mend.emit(self.list.here)

    def add_photos(self) -> None:
        """One picture, or several, for all the chosen parts."""
        if ids := self._photo_ids():
            self.photos.choose(ids)

    def say_open(self) -> None:
        """Nothing covers the chosen area: it needs no opener."""
        row = self.list.here
        if row is not None and row.finding.lack is Lack.OPENER:
            self.desk.act(services.jobs.set_open, row.finding.area_id, True)

    def print_it(self) -> None:
        from bagtag.ui.audit.audit_dialog import open_audit

        open_audit(self.desk, self.window())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.matches(QKeySequence.StandardKey.Paste) and self.photos.paste(self._photo_ids()):
            event.accept()
        else:
            super().keyPressEvent(event)


def audit_of(store: Store, job_id: int) -> tuple[int, Audit]:
    """The audit of a job, and which job it is of."""
    return job_id, services.audit.audit(store, job_id)
