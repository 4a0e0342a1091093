"""The page of one job: its fields, its datum, its areas."""

from typing import cast

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.errors import Trouble
from bagtag.domain.model import Job
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, Field, Line, Note, button, label, tight
from bagtag.ui.forms.inks import sized
from bagtag.ui.forms.sight import InSight, scrolling
from bagtag.ui.job.area_tree import AreaTree
from bagtag.ui.job.datum_form import DatumForm

Values = tuple[str, str, str, str, Datum]
"""Machine, what for, owner, notes and datum, in the order of a job's form."""
NEW = 0
"""Stands for the id of the job that is still to be opened."""
CLASH = "This job was changed elsewhere meanwhile. Yours stands here; undo has the other."
DATUM_WORDS = (
    "Left and right are as seen from there, on every label and in every sentence of this job. "
    "Give a side the machine's own name where it has one."
)


class JobPage(QFrame):
    kept = Signal()
    left = Signal()

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "card")
        self.job_id = NEW
        self._shown: Values = ("", "", "", "", Datum())
        self._typed: dict[int, tuple[Values, Values]] = {}
        self.head = label("", self, scale="big")
        self.machine = Line(self, "Machine", hint="for example: walking tractor")
        self.purpose = Line(self, "What for", hint="for example: gearbox")
        self.owner = Line(self, "Owner")
        self.note = Note(self, "Notes", lines=3)
        self.datum = DatumForm(self)
        self.areas = AreaTree(desk, self)
        self.fields = {
            "machine": Field("Machine", self.machine, self),
            "purpose": Field("What for", self.purpose, self),
            "owner": Field("Owner", self.owner, self),
            "note": Field("Notes", self.note, self),
        }
        self.said = label("", self, tone="accent")
        self.keep = button("Keep it  Enter", self, role="primary", name="Keep the job")
        self.leave = button("Leave it", self, name="Leave the job as it was")
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        self._middle = QWidget(self)
        grid = QGridLayout()
        tight(grid, 14)
        grid.addWidget(self.fields["machine"], 0, 0)
        grid.addWidget(self.fields["purpose"], 0, 1)
        grid.addWidget(self.fields["owner"], 1, 0)
        grid.addWidget(self.fields["note"], 1, 1, 2, 1)
        column = QVBoxLayout(self._middle)
        column.setContentsMargins(2, 2, 14, 8)
        column.setSpacing(14)
        column.addLayout(grid)
        column.addWidget(label("Which side is which", self, scale="head"))
        column.addWidget(label(DATUM_WORDS, self, scale="small", tone="muted"))
        column.addWidget(self.datum)
        self._areas_head = label("Areas, and what opens them", self, scale="head")
        column.addWidget(self._areas_head)
        column.addWidget(self.areas)
        column.addStretch(1)
        self.area = scrolling(self._middle, self)
        sight = InSight(self.area, (self.areas.form,))
        self.areas.opened.connect(sight.bring_later)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(24, 14, 24, 16)
        outer.setSpacing(10)
        outer.addWidget(self.head)
        outer.addWidget(self.area, 1)
        outer.addWidget(self.said)
        outer.addLayout(self._foot())
        self.said.hide()

    def _foot(self) -> QHBoxLayout:
        row = QHBoxLayout()
        tight(row, 10)
        row.addWidget(self.keep)
        row.addWidget(self.leave)
        row.addStretch(1)
        return row

    def _connect(self) -> None:
        for signal in (
            self.machine.textChanged, self.purpose.textChanged, self.owner.textChanged,
            self.note.textChanged, self.datum.changed,
        ):  # fmt: skip
            signal.connect(self._changed)
        self.keep.clicked.connect(self._keep)
        self.leave.clicked.connect(self.left)
        self._changed()

    @property
    def is_changed(self) -> bool:
        return self.values() != self._shown

    def values(self) -> Values:
        return (
            self.machine.text().strip(),
            self.purpose.text().strip(),
            self.owner.text().strip(),
            self.note.toPlainText().strip(),
            self.datum.datum,
        )

    def show_new(self) -> None:
        """Empty fields, or what was typed before; areas come once the job is open."""
        self._turn_to(NEW, ("", "", "", "", Datum()))
        self._head("Open a new job")
        self.keep.setText("Open the job  Enter")
        self.keep.setAccessibleName("Open the job")
        for part in (self._areas_head, self.areas):
            part.hide()
        self._changed()
        self.machine.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_job(self, job: Job) -> None:
        """A job as it is in the store; fields that were changed and not kept stay as typed."""
        named = {side: name for side, name in job.datum.names.items() if name}
        datum = Datum(job.datum.viewpoint, named)
        self._turn_to(job.id, (job.machine, job.purpose, job.owner, job.note, datum))
        self._head(job.title)
        self.keep.setText("Keep it  Enter")
        self.keep.setAccessibleName("Keep the job")
        for part in (self._areas_head, self.areas):
            part.show()
        self._changed()

    def forget(self) -> None:
        """What stands here is kept or left: nothing of it comes back."""
        self._shown = self.values()
        self._typed.pop(self.job_id, None)

    def _turn_to(self, job_id: int, stored: Values) -> None:
        """Show what is stored, and over it what was typed for this job."""
        if self.is_changed:
            self._typed[self.job_id] = (self._shown, self.values())
        self.job_id = job_id
        before, mine = self._typed.pop(job_id, (stored, stored))
        self._fill(stored)
        self._put(_merged(before, mine, stored))
        if any(b not in (m, t) and m != t for b, m, t in zip(before, mine, stored, strict=True)):
            self.said.setText(CLASH)
            self.said.show()

    def say(self, trouble: Trouble) -> None:
        """Say what is wrong beside its field."""
        if self.datum.say(trouble.field, trouble.sentence):
            return
        field = self.fields.get(trouble.field)
        if field is None:
            self.said.setText(trouble.sentence)
            self.said.show()
            return
        field.say(trouble.sentence)
        field.editor.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER and self.keep.isVisible():
            self._keep()
        else:
            super().keyPressEvent(event)

    def _keep(self) -> None:
        self._say_nothing()
        self.kept.emit()

    def _say_nothing(self) -> None:
        self.said.hide()
        self.datum.say_nothing()
        for field in self.fields.values():
            field.say("")

    def _fill(self, values: Values) -> None:
        self._put(values)
        self._shown = self.values()
        self._say_nothing()

    def _put(self, values: Values) -> None:
        """Only what differs, so that a cursor in a field stays where it is."""
        if values == self.values():
            return
        machine, purpose, owner, note, datum = values
        for line, text in (
            (self.machine, machine), (self.purpose, purpose), (self.owner, owner),
        ):  # fmt: skip
            if line.text().strip() != text:
                line.setText(text)
        if self.note.toPlainText().strip() != note:
            self.note.setPlainText(note)
        if self.datum.datum != datum:
            self.datum.set_datum(datum)

    def _head(self, text: str) -> None:
        self.head.setText(text)
        self.head.setFont(sized(self.head, 36, bold=True))

    def _changed(self) -> None:
        """The acts are there when there is something to keep."""
        wanted = self.is_changed or self.job_id == NEW
        self.keep.setVisible(wanted)
        self.leave.setVisible(wanted)


def _merged(before: Values, mine: Values, stored: Values) -> Values:
    """Mine where I changed a field, else what is stored now."""
    machine, purpose, owner, note, datum = (
        mine[n] if mine[n] != before[n] else stored[n] for n in range(5)
    )
    return str(machine), str(purpose), str(owner), str(note), cast(Datum, datum)
