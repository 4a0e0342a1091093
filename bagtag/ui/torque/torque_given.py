"""What the manual gives: a torque in any unit, and for what thread."""

from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from bagtag.domain.hardware import HeldBy
from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.ui.entry.hardware_more import LUBRICATION
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.figures import written
from bagtag.ui.torque.torque_told import TorqueTold, thread_names
from bagtag.ui.torque.torque_typed import torque_of
from bagtag.ui.torque.torque_units import UnitsTogether

CLASSES = ("8.8", "10.9", "12.9", "5.8", "6.8", "9.8", "grade 2", "grade 5", "grade 8")
_WRONG = "A torque is a figure above zero: 40, 40 lbf·ft."


class TorqueGiven(QWidget):
    """`line` is a line of hardware with what is typed here on it."""

    edited = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._line = HeldBy()
        self.torque = Line(self, "Torque", hint="40 lbf·ft")
        self.torque_field = Field("Torque at the fastener", self.torque, self)
        units = [Option(unit, unit.value) for unit in TorqueUnit]
        self.unit = Choices("Unit of torque", units, self, columns=4)
        self.unit.set_value(TorqueUnit.NEWTON_METRE)
        self.units = UnitsTogether(self)
        self.thread_of = Line(self, "Thread", hint="M8, 3/8-16")
        self.thread_of.suggest(thread_names())
        self.grade = Line(self, "Class or grade", hint="8.8, grade 5")
        self.grade.suggest(CLASSES)
        self.lubrication = Line(self, "Threads are", hint="dry, oil")
        self.lubrication.suggest(LUBRICATION)
        self.told = TorqueTold(self, units=False)
        self._lay()
        self._connect()
        self.setFocusProxy(self.torque)

    def _lay(self) -> None:
        grid = QGridLayout()
        tight(grid, 10)
        for at, (caption, line) in enumerate(
            (("Thread", self.thread_of), ("Class or grade", self.grade),
             ("Threads are", self.lubrication))
        ):  # fmt: skip
            grid.addWidget(Field(caption, line, self), 0, at, Qt.AlignmentFlag.AlignTop)
            grid.setColumnStretch(at, 1)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addWidget(self.torque_field)
        column.addWidget(self.unit)
        column.addWidget(self.units)
        column.addSpacing(6)
        column.addLayout(grid)
        column.addWidget(self.told)
        column.addStretch(1)

    def _connect(self) -> None:
        for line in (self.torque, self.thread_of, self.grade, self.lubrication):
            line.textChanged.connect(self._tell)
        self.torque.textEdited.connect(self._follow_unit)
        self.unit.chosen.connect(self._unit_chosen)

    @property
    def figure(self) -> Torque | None:
        return torque_of(self.torque.text(), self.unit.value)

    @property
    def line(self) -> HeldBy:
        return replace(
            self._line,
            torque=self.figure,
            thread=self.thread_of.text().strip(),
            grade=self.grade.text().strip(),
            lubrication=self.lubrication.text().strip(),
        )

    def load(self, line: HeldBy) -> None:
        """Take up a line of hardware."""
        self.blockSignals(True)
        self._line = line
        if line.torque is not None:
            self.unit.set_value(line.torque.unit)
        self.torque.setText(written(line.torque.value) if line.torque is not None else "")
        self.thread_of.setText(line.thread)
        self.grade.setText(line.grade)
        self.lubrication.setText(line.lubrication)
        self.blockSignals(False)
        self._tell()

    def _follow_unit(self, typed: str) -> None:
        """A unit that is typed with the figure is the unit."""
        read = torque_of(typed)
        if read is not None:
            self.unit.set_value(read.unit)

    def _unit_chosen(self) -> None:
        """A unit that is chosen stands over the one that was typed."""
        read = torque_of(self.torque.text())
        if read is not None and read.unit is not self.unit.value:
            self.torque.setText(written(read.value))
        self._tell()

    def _tell(self) -> None:
        figure = self.figure
        is_wrong = figure is None and bool(self.torque.text().strip())
        self.torque_field.say(_WRONG if is_wrong else "")
        self.units.show_torque(figure)
        self.told.show_line(self.line)
        self.edited.emit()
