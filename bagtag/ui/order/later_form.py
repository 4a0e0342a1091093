"""Two-stage tightening: run in by hand now, the final torque after a step that is named."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.fitting import part, task
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.model import Removal
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import label, panel
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.order.pick_rows import Rows, rows_of

_UNDER = "Run in by hand at its own step; both steps are in the build, and neither is forgotten."
_NO_FASTENER = "No fastener is written down for it. Correct the part to add what holds it."


def open_tighten_later(desk: Desk, parent: QWidget | None, removal_id: int | None) -> LaterDialog:
    """Open the form that gives a part its final torque at a later step; without a part it asks
    which."""
    dialog = LaterDialog(desk, parent, removal_id)
    dialog.open()
    return dialog


class LaterDialog(FormDialog):
    def __init__(self, desk: Desk, parent: QWidget | None, removal_id: int | None) -> None:
        super().__init__(desk, "Tighten later", parent)
        self.say_title("Tighten later", _UNDER)
        self._rows = Rows()
        self._make()
        self.part.setVisible(removal_id is None)
        self.desk.ask(rows_of, self.job_id, then=self._rows_known)
        if removal_id is not None:
            self.part.set_value(part(removal_id))
            self._part_picked()
        self.fit(560)
        (self.part if removal_id is None else self.after).setFocus()

    def _make(self) -> None:
        self.part = PickLine("Which part", "part", self.inner, eager=True)
        self.frame = panel(self.inner, "tape")
        self.held = label("", self.frame)
        self.after = PickLine("Final torque after", "step", self.inner, eager=True)
        self.fields = {"part": self.part.field, "anchor": self.after.field}
        tape = QVBoxLayout(self.frame)
        tape.setContentsMargins(14, 10, 14, 10)
        tape.addWidget(self.held)
        tape.addWidget(label(OVERRIDE, self.frame, scale="small", tone="muted"))
        for widget in (self.part, self.frame, self.after):
            self.column.addWidget(widget)
        self.column.addStretch(1)
        self.frame.hide()
        self.part.picked.connect(self._part_picked)

    def _part_picked(self) -> None:
        chosen = self.part.value
        self.frame.setVisible(chosen is not None)
        if chosen is not None:
            self.desk.ask(services.strip.get_removal, chosen.id, then=self._removal_known)
        if self._rows.steps:
            self._offer_steps()

    def _removal_known(self, removal: Removal) -> None:
        """What is tightened, and that the maker's manual has the last word."""
        self.say_title(f"Tighten later: {removal.number} {removal.name}", _UNDER)
        lines = "\n".join(str(line) for line in removal.held_by)
        self.held.setText(lines or _NO_FASTENER)

    def _rows_known(self, rows: Rows) -> None:
        self._rows = rows
        self.part.set_rows(rows.pick_parts())
        self._offer_steps()

    def _offer_steps(self) -> None:
        """All but the part itself, from where it goes in."""
        own = self.part.value
        self.after.near = self._rows.next_to(own)
        self.after.set_rows(self._rows.pick_steps([own]))

    def save(self) -> None:
        if not (self.part.settle() and self.after.settle()):
            return
        if self.part.value is None:
            self.say_wrong("Choose the part whose fasteners are tightened later.", "part")
        elif self.after.value is None:
            self.say_wrong("Choose the step after which it gets its final torque.", "anchor")
        else:
            later = services.tasks.tighten_later
            self.act(later, self.part.value.id, self.after.value)

    def kept(self, result: Change) -> None:
        if result.new_id is not None:
            self.desk.show_step.emit(task(result.new_id))
