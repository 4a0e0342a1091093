"""A special tool noted with the part that needs it."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.fitting import Ref
from bagtag.domain.model import Removal
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, Line
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.order.pick_rows import Rows, rows_of

TITLE = "Special tools of a part"
_UNDER = "Pullers, holders, sleeves: what no drawer has by its size. Commas between several."


def open_special(desk: Desk, parent: QWidget | None, ref: Ref | None = None) -> SpecialDialog:
    """Open the form; `ref` is the part that is most likely meant."""
    dialog = SpecialDialog(desk, parent, ref)
    dialog.open()
    return dialog


class SpecialDialog(FormDialog):
    """What is noted already stands in the line; emptied, the note is taken away."""

    def __init__(self, desk: Desk, parent: QWidget | None, ref: Ref | None) -> None:
        super().__init__(desk, TITLE, parent, keep="Keep it")
        self.say_title(TITLE, _UNDER)
        self.part = PickLine("Which part", "part", self.inner, eager=True)
        self.tools = Line(self.inner, "Special tools", hint="flywheel puller, thread protector")
        self.fields = {
            "part": self.part.field,
            "tools": Field("Special tools", self.tools, self.inner),
        }
        self.column.addWidget(self.part)
        self.column.addWidget(self.fields["tools"])
        self.column.addStretch(1)
        self.part.picked.connect(self._picked)
        self.part.set_value(ref)
        self._picked()
        self.desk.ask(rows_of, self.job_id, then=self._rows_known)
        self.fit(420)
        (self.tools if ref is not None else self.part).setFocus()

    def _rows_known(self, rows: Rows) -> None:
        self.part.set_rows(rows.pick_parts())

    def _picked(self) -> None:
        if self.part.value is not None:
            self.desk.ask(services.strip.get_removal, self.part.value.id, then=self._part_known)

    def _part_known(self, removal: Removal) -> None:
        self.tools.setText(removal.tools)

    def save(self) -> None:
        if not self.part.settle():
            return
        if self.part.value is None:
            self.say_wrong("Choose the part that needs the tool.", "part")
        else:
            self.act(services.tools.note_special, self.part.value.id, self.tools.text())
