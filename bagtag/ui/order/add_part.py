"""A part that was never logged: a shop took it off, or it is new and was never on the machine."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING
from uuid import uuid4

from PySide6.QtWidgets import QHBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import Ref, part
from bagtag.domain.model import Fate, Origin
from bagtag.ui.desk import Desk
from bagtag.ui.field.chip_shown import of_tape
from bagtag.ui.forms.basics import Field, Line, label, tight
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.order.add_beside import BesidePick
from bagtag.ui.order.pick_rows import Rows, rows_of
from bagtag.ui.sheets.sheet_stepper import Stepper

if TYPE_CHECKING:
    from bagtag.scan.tape import Tape
    from bagtag.services.tape import TapeReader

WORDS = {
    Origin.SHOP: ("A part the shop took off", "It left with a casting and was never logged here."),
    Origin.NEW: ("A new part", "It was never on the machine; the closing count knows it as new."),
}
_ON_TAPE = ("name", "held_by", "which_way", "container_id", "condition", "goes_on", "note", "size")
"""Fields of an entry that the line of tape says."""


def open_part(desk: Desk, parent: QWidget | None, origin: Origin, ref: Ref | None) -> PartDialog:
    """Open the form of a part of this origin that goes in beside a step."""
    dialog = PartDialog(desk, parent, origin, ref)
    dialog.open()
    return dialog


class PartDialog(FormDialog):
    def __init__(self, desk: Desk, parent: QWidget | None, origin: Origin, ref: Ref | None) -> None:
        title, under = WORDS[origin]
        super().__init__(desk, title, parent)
        self.say_title(title, under)
        self.origin, self._ref = origin, ref
        self._uid = str(uuid4())
        self._rows = Rows()
        self._reader: TapeReader | None = None
        self.tape: Tape | None = None
        self._counts_tape, self._count_is_mine = False, False
        self._make()
        self._lay_part()
        self.desk.ask(services.tape.reader, self.job_id, then=self._reader_known)
        self.desk.ask(rows_of, self.job_id, then=self._rows_known)
        self.fit(480)
        self.line.setFocus()

    def _make(self) -> None:
        self.line = Line(self.inner, "What it is, as on tape", hint="4 x dowel, bag 9, engine oil")
        self.heard = label("", self.inner, scale="small", tone="muted")
        self.beside = BesidePick(self.inner)
        self.count = Stepper("How many", self.inner, least=1, most=9999)
        self.area = PickLine("Area", "area", self.inner, hint="that of the step")
        name = Field("What it is, as on tape", self.line, self.inner)
        self.fields = dict.fromkeys(_ON_TAPE, name) | {
            "quantity": Field("How many", self.count, self.inner),
            "anchor": self.beside.field,
            "area_id": self.area.field,
        }
        self.line.textChanged.connect(self._read)
        self.count.changed.connect(self._counted)
        self.beside.picked.connect(self._say_area)

    def _lay_part(self) -> None:
        row = QHBoxLayout()
        tight(row, 12)
        row.addWidget(self.fields["quantity"])
        row.addWidget(self.area, 1)
        self.fields["quantity"].setFixedWidth(230)
        self.column.addWidget(self.fields["name"])
        self.column.addWidget(self.heard)
        self.column.addWidget(self.beside)
        self.column.addLayout(row)
        self.column.addStretch(1)
        self.heard.hide()

    # What is known

    def _reader_known(self, reader: TapeReader) -> None:
        self._reader = reader
        self._read()

    def _rows_known(self, rows: Rows) -> None:
        self._rows = rows
        self.beside.set_parts(rows)
        self.beside.step.set_value(rows.part_near(self._ref))
        self.area.set_rows(rows.areas)
        self._say_area()

    def _read(self) -> None:
        """Say below the line what was understood; the count and the area follow it."""
        self.tape = self._reader.read(self.line.text()) if self._reader is not None else None
        shown = of_tape(self.tape, None, fate_by_kind=False) if self.tape is not None else ()
        said = ", ".join(chip.spoken for chip in shown if chip.understood)
        self.heard.setText(said)
        self.heard.setVisible(bool(self.line.text().strip() and said))
        if self.tape is not None and not self._count_is_mine:
            self._counts_tape = True
            self.count.set_value(self.tape.entry.quantity)
            self._counts_tape = False

    def _counted(self) -> None:
        self._count_is_mine = self._count_is_mine or not self._counts_tape

    def _say_area(self) -> None:
        step = self._rows.step(self.beside.ref)
        area = step.area if step is not None else ""
        self.area.line.setPlaceholderText(f"that of the step: {area}" if area else "none")

    # What is kept

    def entry(self) -> Entry:
        """The part as the form says it. What is always renewed is so when the shop took it off;
        a new one is here."""
        read = self.tape.entry if self.tape is not None else Entry(self.line.text())
        chips = self.tape.chips if self.tape is not None else ()
        says_fate = any(chip.kind == "fate" for chip in chips)
        is_plain = self.origin is Origin.NEW and not says_fate
        step = self._rows.step(self.beside.ref)
        area_id = self.area.value or read.area_id or (step.area_id if step is not None else None)
        return replace(
            read,
            quantity=round(self.count.value),
            area_id=area_id,
            fate=Fate.REFIT if is_plain else read.fate,
            uid=self._uid,
        )

    def save(self) -> None:
        if not (self.beside.step.settle() and self.area.settle()):
            return
        wanted = (self.tape.container_wanted or "") if self.tape is not None else ""
        extras = services.strip.Extras(
            container_wanted=wanted, origin=self.origin, beside=self.beside.anchor
        )
        self.act(services.strip.log_removal, self.job_id, self.entry(), extras)

    def kept(self, result: Change) -> None:
        if result.new_id is not None:
            self.desk.show_step.emit(part(result.new_id))
