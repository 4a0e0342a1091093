"""A bench build: a small build of its own, made up on the bench and put in as one."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.fitting import Ref, Task, TaskKind, task
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, Line
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.forms.pick_several import PickSeveral
from bagtag.ui.order.pick_rows import Rows, rows_of


def open_bench_build(
    desk: Desk, parent: QWidget | None, ref: Ref | None = None, *, task_id: int | None = None
) -> BenchBuildDialog:
    """Open the form of a new bench build, a step being its first piece, or of one that is there."""
    dialog = BenchBuildDialog(desk, parent, ref, task_id=task_id)
    dialog.open()
    return dialog


class BenchBuildDialog(FormDialog):
    def __init__(
        self,
        desk: Desk,
        parent: QWidget | None = None,
        ref: Ref | None = None,
        *,
        task_id: int | None = None,
    ) -> None:
        is_new = task_id is None
        title = "Add a bench build" if is_new else "Edit the bench build"
        super().__init__(desk, title, parent, keep="Add it" if is_new else "Keep it")
        self.task: Task | None = None
        self._task_id = task_id
        self._first = ref
        self._make()
        self.say_title(title, "Made up on the bench, then put in as one.")
        self.keep.setEnabled(is_new)
        self.pieces.set_values([ref] if ref is not None else [])
        self._ask()
        self.fit(700)
        self.name.setFocus()

    def _make(self) -> None:
        self.name = Line(self.inner, "Name of the bench build", hint="gear cluster, cylinder head")
        self.pieces = PickSeveral("Pieces", self.inner)
        self.within = PickLine(
            "Itself a piece of", "bench build", self.inner, hint="no other bench build"
        )
        self.fields = {
            "name": Field("Name", self.name, self.inner),
            "pieces": self.pieces.field,
            "anchor": self.pieces.field,
            "build": self.within.field,
        }
        for part in (self.fields["name"], self.pieces, self.within):
            self.column.addWidget(part)
        self.column.addStretch(1)

    def _ask(self) -> None:
        if self._task_id is not None:
            self.desk.ask(services.tasks.get_task, self._task_id, then=self._task_known)
        self.desk.ask(rows_of, self.job_id, then=self._rows_known)

    def _task_known(self, one: Task) -> None:
        self.task = one
        self.name.setText(one.name)
        self.name.selectAll()
        self.within.set_value(one.build_id)
        self.keep.setEnabled(True)

    def _rows_known(self, rows: Rows) -> None:
        own = [task(self._task_id)] if self._task_id is not None else []
        if self._task_id is not None:
            self.pieces.set_values(rows.pieces(self._task_id))
        self.pieces.near = next(iter(self.pieces.values), None)
        self.pieces.set_rows(rows.pick_steps(own))
        self.within.set_rows(rows.pick_builds(self._task_id))
        first = rows.step(self._first)
        if first is not None:
            self.within.set_value(first.build_id)

    def save(self) -> None:
        ready = self.keep.isEnabled() and self.pieces.settle() and self.within.settle()
        if not ready:
            return
        name, within = self.name.text(), self.within.value
        if self.task is None:
            make = services.tasks.make_bench_build
            self.act(make, self.job_id, name, self.pieces.values, build_id=within)
            return
        form = services.tasks.TaskForm(
            TaskKind.BENCH_BUILD, name, self.task.anchor, self.task.area_id, within,
            self.task.asks, self.task.note,
        )  # fmt: skip
        self.act(services.tasks.edit_task, self.task.id, form, pieces=self.pieces.values)

    def kept(self, result: Change) -> None:
        if self.task is None and result.new_id is not None:
            self.desk.show_step.emit(task(result.new_id))
