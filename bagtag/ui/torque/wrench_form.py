"""One torque wrench, field by field."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from bagtag.domain.torque import TorqueUnit
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_use import calibration
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.days import read_day
from bagtag.ui.forms.fields_form import FieldsForm
from bagtag.ui.forms.figures import figure, length, length_words, written
from bagtag.ui.forms.signed import Signed

_SENTENCES = {
    "name": "Give it a name that tells it from the others: 1/2 in square, long.",
    "low": "The lowest figure on its scale, or 0.",
    "high": "The highest figure on its scale, above zero.",
    "step": "From one mark of its scale to the next; leave it empty if it has none.",
    "length": "A length above zero: 450 mm, 18 in.",
}


class WrenchForm(FieldsForm):
    """`wrench` is what the fields say; None, said below its field, while one cannot be read."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._id = 0
        self.name = Line(self, "Name", hint="1/2 in square, long")
        self.low = Line(self, "Scale from", hint="40")
        self.high = Line(self, "Scale to", hint="200")
        self.step = Line(self, "One mark", hint="1")
        units = [Option(unit, unit.value) for unit in TorqueUnit]
        self.unit = Choices("Unit of its scale", units, self, columns=4)
        self.length = Line(self, "Grip to square", hint="450 mm")
        self.calibrated_on = Line(self, "Last calibrated on", hint="2026-03-14")
        self.note = Line(self, "Note", hint="where it lies, who checks it")
        self.fields = {
            name: Field(editor.accessibleName(), editor, self)
            for name, editor in (
                ("name", self.name), ("low", self.low), ("high", self.high), ("step", self.step),
                ("unit", self.unit), ("length", self.length),
                ("calibrated_on", self.calibrated_on), ("note", self.note),
            )
        }  # fmt: skip
        self.aged = Signed("!", self, name="Calibration")
        self._lay_out()
        self.load(Wrench("", 0, 0))

    def _lay_out(self) -> None:
        grid = QGridLayout()
        tight(grid, 10)
        places = {
            "name": (0, 0, 6), "low": (1, 0, 2), "high": (1, 2, 2), "step": (1, 4, 2),
            "unit": (2, 0, 6), "length": (3, 0, 3), "calibrated_on": (3, 3, 3), "note": (4, 0, 6),
        }  # fmt: skip
        for name, (row, at, wide) in places.items():
            grid.addWidget(self.fields[name], row, at, 1, wide, Qt.AlignmentFlag.AlignTop)
        for at in range(6):
            grid.setColumnStretch(at, 1)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addLayout(grid)
        column.addWidget(self.aged)
        column.addStretch(1)

    @property
    def wrench_id(self) -> int:
        """The wrench that is shown; 0 for a new one."""
        return self._id

    def begin(self) -> None:
        self.name.setFocus()
        self.name.selectAll()

    def load(self, one: Wrench) -> None:
        """Show a wrench; a scale that ends at zero is one not filled in yet."""
        self._id = one.id
        self.say_nothing()
        self.name.setText(one.name)
        self.low.setText(written(one.low) if one.high else "")
        self.high.setText(written(one.high) if one.high else "")
        self.step.setText(written(one.step))
        self.unit.set_value(one.unit)
        self.length.setText(length_words(one.length))
        self.calibrated_on.setText(one.calibrated_on.isoformat() if one.calibrated_on else "")
        self.note.setText(one.note)
        aged = calibration(one, date.today()) if one.id else ""
        self.aged.say((aged,) if aged else ())

    def wrench(self) -> Wrench | None:
        self.say_nothing()
        low, high = _scale(self.low.text()), figure(self.high.text())
        on, is_day = read_day(self.fields["calibrated_on"], date.today(), past=True)
        if not self._is_read() or not is_day or low is None or high is None:
            return None
        return Wrench(
            name=self.name.text().strip(),
            low=low,
            high=high,
            unit=self.unit.value,
            step=figure(self.step.text()),
            length=length(self.length.text()),
            calibrated_on=on,
            note=self.note.text().strip(),
            id=self._id,
        )

    def _is_read(self) -> bool:
        """Say below each field what is wrong with it."""
        for name, value in (
            ("name", self.name.text().strip() or None),
            ("low", _scale(self.low.text())),
            ("high", figure(self.high.text())),
            ("step", figure(self.step.text())),
            ("length", length(self.length.text())),
        ):
            editor = self.fields[name].editor
            assert isinstance(editor, Line)
            is_wanted = name in ("name", "high") or editor.text().strip()
            self.fields[name].say(_SENTENCES[name] if is_wanted and value is None else "")
        return self.first_wrong() is None


def _scale(text: str) -> float | None:
    """Where a scale begins: 0 where nothing or zero is typed."""
    typed = text.strip()
    return figure(typed) if typed.strip("0.,") else 0.0
