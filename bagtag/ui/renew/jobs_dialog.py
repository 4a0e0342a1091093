"""What an order list is of: which jobs, whose equal lines are ordered together, which supplier."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, button, label
from bagtag.ui.forms.pick_model import PickRow
from bagtag.ui.forms.pick_several import PickSeveral
from bagtag.ui.forms.words import WordField

if TYPE_CHECKING:
    from bagtag.services.jobs import JobRow


class JobsDialog(QDialog):
    """This job is chosen; Enter goes on to the list."""

    chosen = Signal(list, str)
    """Ids of jobs, and the supplier; empty for all of them."""

    def __init__(
        self,
        desk: Desk,
        jobs: Sequence[JobRow],
        suppliers: Sequence[str] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Order list")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.pick = PickSeveral("Jobs on the list", self, noun="job")
        rows = [PickRow(job.id, f"{job.number}  {job.title}", job.owner) for job in jobs]
        self.pick.set_rows(rows)
        self.pick.set_values([desk.job_id])
        self.pick.setVisible(len(jobs) > 1)
        self.supplier = WordField("Only from", suppliers, self, "all suppliers", always=True)
        self.supplier.setVisible(len(suppliers) > 1)
        self.go = button("Show the list\u2002Enter", self, role="primary", name="Show the list")
        self.leave = button("Close\u2002Esc", self, role="quiet", name="Close")
        self._lay()
        self.go.clicked.connect(self.show_list)
        self.leave.clicked.connect(self.reject)
        (self.pick.line if len(jobs) > 1 else self.supplier.line).setFocus()

    def _lay(self) -> None:
        acts = QHBoxLayout()
        for press in (self.go, self.leave):
            acts.addWidget(press)
        acts.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 20, 20, 20)
        column.setSpacing(12)
        column.addWidget(label("Order list", self, scale="head"))
        about = "What is still to be ordered, by supplier; equal lines of several jobs are one."
        column.addWidget(label(about, self, tone="muted"))
        column.addWidget(self.pick, 1)
        column.addWidget(self.supplier)
        column.addStretch(0)
        column.addLayout(acts)
        self.resize(560, 480 if self.pick.isVisibleTo(self) else 280)

    def show_list(self) -> None:
        if not self.pick.values:
            self.pick.field.say("Choose at least one job.")
            self.pick.line.setFocus()
            return
        self.chosen.emit(list(self.pick.values), self.supplier.text)
        self.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            self.show_list()
        else:
            super().keyPressEvent(event)
