"""What a task has besides: its area, the bench build it is a piece of, a note. Put away until it
is wanted."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.fitting import Task
from bagtag.ui.forms.basics import Field, Note, button, is_inside, tight
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.order.pick_rows import Rows

if TYPE_CHECKING:
    from bagtag.services.steps import StepRow


class MoreOfTask(QWidget):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.press = button("More: area, bench build, note", self, role="quiet")
        self.press.clicked.connect(self._open)
        self.box = QWidget(self)
        self.area = PickLine("Area", "area", self.box, hint="that of the step")
        self.build = PickLine("Piece of the bench build", "bench build", self.box, hint="of none")
        self.note = Note(self.box, "Note")
        self.note_field = Field("Note", self.note, self.box)
        self._build_is_chosen = False
        self.build.picked.connect(self._build_chosen)
        self._lay()

    def _lay(self) -> None:
        row = QHBoxLayout()
        tight(row, 12)
        row.addWidget(self.area, 1)
        row.addWidget(self.build, 1)
        inside = QVBoxLayout(self.box)
        tight(inside, 14)
        inside.addLayout(row)
        inside.addWidget(self.note_field)
        column = QVBoxLayout(self)
        tight(column, 0)
        column.addWidget(self.press, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.box)
        self.box.hide()

    def has(self, field: Field) -> bool:
        return is_inside(field, self.box)

    def unfold(self) -> None:
        self.press.hide()
        self.box.show()

    def _open(self) -> None:
        self.unfold()
        self.area.setFocus()

    def fill(self, one: Task) -> None:
        """Show what a task has; put away where it has nothing of it."""
        self.area.set_value(one.area_id)
        self.build.set_value(one.build_id)
        self.note.setPlainText(one.note)
        if one.area_id is not None or one.build_id is not None or one.note:
            self.unfold()

    def set_rows(self, rows: Rows, task_id: int | None) -> None:
        self.area.set_rows(rows.areas)
        self.build.set_rows(rows.pick_builds(task_id))

    def follow(self, step: "StepRow | None", *, is_new: bool) -> None:
        """Its area is that of its step where none is chosen; what stands beside a piece of a bench
        build is one too, unless a person says otherwise."""
        area = step.area if step is not None else ""
        self.area.line.setPlaceholderText(f"that of the step: {area}" if area else "none")
        if is_new and not self._build_is_chosen:
            self.build.set_value(step.build_id if step is not None else None)
            if self.build.value is not None:
                self.unfold()

    def _build_chosen(self) -> None:
        self._build_is_chosen = True

    def settle(self) -> bool:
        return self.area.settle() and self.build.settle()
