"""An instrument of the bench: its name, its smallest step, when it was calibrated."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.errors import BadInput
from bagtag.domain.measuring.figures import decimal, reading, show
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.units import LENGTH, dimension
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, Line, button
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.days import read_day, written
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.forms.signed import Signed

_UNDER = "Its smallest step tells how near a limit a figure can be called."


def open_instrument(
    desk: Desk, parent: QWidget | None, one: Instrument | None = None
) -> InstrumentDialog:
    """Open the form of an instrument, or of a new one."""
    dialog = InstrumentDialog(desk, parent, one)
    dialog.open()
    return dialog


class InstrumentDialog(FormDialog):
    """`chosen` names the instrument that was kept."""

    chosen = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget | None, one: Instrument | None) -> None:
        super().__init__(desk, "", parent, keep="Keep it")
        self.say_title("Change an instrument" if one else "Add an instrument", _UNDER)
        self._one = one or Instrument("", Decimal(0))
        self.name = Line(self.inner, "Name", hint="micrometer 75 to 100")
        self.step = Line(self.inner, "Smallest step", hint="0.01")
        units = [Option(unit, unit) for unit in services.instruments.UNITS]
        self.unit = Choices("Unit", units, self.inner, columns=len(units))
        self.day = Line(self.inner, "Last calibrated on", hint="2026-03-14")
        self.note = Line(self.inner, "Note", hint="where it lies, its zero error")
        self.aged = Signed("!", self.inner, name="Calibration")
        self.out = button("Take it out of the list", self.inner, role="quiet")
        self._lay_fields()
        self.out.clicked.connect(self._take_out)
        self._load()
        self.fit(620)
        self.name.setFocus()

    def _lay_fields(self) -> None:
        for name, editor in (
            ("name", self.name), ("resolution", self.step), ("unit", self.unit),
            ("calibrated_on", self.day), ("note", self.note),
        ):  # fmt: skip
            self.fields[name] = Field(editor.accessibleName(), editor, self.inner)
            self.column.addWidget(self.fields[name])
        self.column.addWidget(self.aged)
        self.column.addWidget(self.out)
        self.column.addStretch(1)
        self.out.setVisible(bool(self._one.id))

    def _load(self) -> None:
        one = self._one
        self.name.setText(one.name)
        self.step.setText(show(one.resolution) if one.resolution else "")
        self.unit.set_value(one.unit)
        self.day.setText(written(one.calibrated_on))
        self.note.setText(one.note)
        if one.id:
            said = services.instruments.calibration(one, date.today())
            self.aged.say((said,) if said else ())

    def save(self) -> None:
        self.say_nothing()
        known = services.instruments
        try:
            step, unit = self._step()
        except BadInput as wrong:
            self.say_wrong(wrong.sentence, "resolution")
            return
        on, is_day = read_day(self.fields["calibrated_on"], date.today(), past=True)
        if not is_day:
            self.day.setFocus()
            return
        one = Instrument(self.name.text(), step, unit, on, self.note.text(), self._one.id)
        self.act(known.edit_instrument if one.id else known.add_instrument, one)

    def _step(self) -> tuple[Decimal, str]:
        """A unit that is typed goes before the one that is chosen."""
        if dimension(self.unit.value) == LENGTH:
            return reading(self.step.text(), self.unit.value)
        return decimal(self.step.text()), self.unit.value

    def _take_out(self) -> None:
        self.act(services.instruments.delete_instrument, self._one.id)

    def kept(self, result: Any) -> None:
        self.chosen.emit(self.name.text().strip())
