"""A task of the build: what is done, where it stands, what is measured."""

from __future__ import annotations

from typing import TYPE_CHECKING
from uuid import uuid4

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import Ref, Task, TaskKind, task
from bagtag.domain.task_kinds import NAMES, usual_asks, usual_side
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, Line
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.order.add_asks import AskRows
from bagtag.ui.order.add_beside import BesidePick
from bagtag.ui.order.add_kinds import KindChoices
from bagtag.ui.order.add_more import MoreOfTask
from bagtag.ui.order.build_form import open_bench_build
from bagtag.ui.order.pick_rows import Rows, rows_of

if TYPE_CHECKING:
    from bagtag.services.tasks import TaskForm

_NO_KIND = "Choose what is done: a key from 1 to 9."


def open_task_form(
    desk: Desk,
    parent: QWidget | None,
    task_id: int | None = None,
    *,
    kind: TaskKind | None = None,
    beside: Ref | None = None,
) -> TaskDialog:
    """Open the form of a task, or of a new one of this kind beside a step."""
    dialog = TaskDialog(desk, parent, task_id, kind=kind, beside=beside)
    if task_id is None:
        dialog.open()
    return dialog


class TaskDialog(FormDialog):
    """The form of a task that is there opens by itself, once it is known what it is: a bench build
    has another form."""

    def __init__(
        self,
        desk: Desk,
        parent: QWidget | None = None,
        task_id: int | None = None,
        *,
        kind: TaskKind | None = None,
        beside: Ref | None = None,
    ) -> None:
        is_new = task_id is None
        super().__init__(
            desk, "Add a task" if is_new else "Edit the task", parent,
            keep="Add it" if is_new else "Keep it",
        )  # fmt: skip
        self.task: Task | None = None
        self._task_id, self._uid = task_id, str(uuid4())
        self._suggested = ""
        self._rows = Rows()
        self._make()
        self.beside.step.set_value(beside)
        if kind is not None:
            self.kind.choose(kind)
        self._ask()
        self.fit(720)
        (self.name if kind is not None else self.kind).setFocus()

    def _make(self) -> None:
        self.kind = KindChoices(self.inner)
        self.name = Line(self.inner, "What is to be done", hint="turn it by hand")
        self.beside = BesidePick(self.inner)
        self.asks = AskRows(self.inner, self.beside.step.line)
        self.more = MoreOfTask(self.inner)
        self.fields = {
            "kind": Field("What is done", self.kind, self.inner),
            "name": Field("In words", self.name, self.inner),
            "anchor": self.beside.field,
            "asks": Field("Measured at sign-off", self.asks, self.inner),
            "area_id": self.more.area.field,
            "build": self.more.build.field,
            "note": self.more.note_field,
        }
        for part in (self.fields["kind"], self.fields["name"], self.beside):
            self.column.addWidget(part)
        self.column.addWidget(self.fields["asks"])
        self.column.addWidget(self.more)
        self.column.addStretch(1)
        self.kind.chosen.connect(self._kind_chosen)
        self.beside.picked.connect(self._follow_step)

    def _ask(self) -> None:
        if self._task_id is not None:
            self.desk.ask(
                services.tasks.get_task, self._task_id, then=self._task_known, failed=self._gone
            )
        self.desk.ask(rows_of, self.job_id, then=self._rows_known)

    # What is known

    def _rows_known(self, rows: Rows) -> None:
        self._rows = rows
        own = task(self._task_id) if self._task_id is not None else None
        self.beside.set_rows(rows, own)
        self.more.set_rows(rows, self._task_id)
        self._follow_step()

    def _gone(self, error: Exception) -> None:
        self.deleteLater()
        self.desk.tell_error(error)

    def _task_known(self, one: Task) -> None:
        if one.kind is TaskKind.BENCH_BUILD:
            open_bench_build(self.desk, self.parentWidget(), task_id=one.id)
            self.deleteLater()
            return
        self._fill(one)
        self.open()
        self.name.setFocus()
        self.name.selectAll()

    def _fill(self, one: Task) -> None:
        self.task = one
        self.say_title(f"Edit: {one.name}")
        self.fields["kind"].setVisible(one.kind is not TaskKind.TIGHTENING)
        self.kind.set_value(one.kind)
        self.name.setText(one.name)
        self.beside.set_anchor(one.anchor)
        if one.kind is TaskKind.TIGHTENING:
            self.beside.only_after()
        self.asks.set_asks(one.asks)
        self.more.fill(one)

    def _kind_chosen(self) -> None:
        """Its usual words, place and figures, where a person has given none of their own."""
        self.fields["kind"].say("")
        kind = self.kind.value
        if self.name.text().strip() in ("", self._suggested):
            self._suggested = NAMES[kind]
            self.name.setText(self._suggested)
        if self.task is None:
            self.beside.suggest(usual_side(kind))
            if self.asks.is_untouched:
                self.asks.set_asks(usual_asks(kind))

    def _follow_step(self) -> None:
        self.more.follow(self._rows.step(self.beside.ref), is_new=self._task_id is None)

    # What is kept

    def unfold(self, field: Field) -> None:
        if self.more.has(field):
            self.more.unfold()

    def save(self) -> None:
        if not self._is_whole():
            return
        try:
            form = self.form()
        except Trouble as trouble:
            self.say_wrong(trouble.sentence, trouble.field)
            return
        if self._task_id is None:
            self.act(services.tasks.add_task, self.job_id, form)
        else:
            self.act(services.tasks.edit_task, self._task_id, form)

    def form(self) -> TaskForm:
        """What is filled in; BadInput for a limit that is no figure."""
        return services.tasks.TaskForm(
            kind=self.kind.value or TaskKind.TIGHTENING,
            name=self.name.text(),
            anchor=self.beside.anchor,
            area_id=self.more.area.value,
            build_id=self.more.build.value,
            asks=self.asks.asks(),
            note=self.more.note.toPlainText(),
            uid=self._uid,
        )

    def _is_whole(self) -> bool:
        if self.task is None and self.kind.value is None:
            self.say_wrong(_NO_KIND, "kind")
            return False
        return self.beside.step.settle() and self.more.settle()

    def kept(self, result: Change) -> None:
        if self._task_id is None and result.new_id is not None:
            self.desk.show_step.emit(task(result.new_id))
