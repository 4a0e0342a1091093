"""What the next figures are read with: the instrument, the unit, the part's temperature."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring.check_taking import WARM
from bagtag.domain.measuring.figures import converted, decimal, show
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.sheet import MeasureSheet, Reading, SheetKind
from bagtag.domain.measuring.units import dimension
from bagtag.ui.forms.basics import Field, Line, button, label, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.measure.pick_box import PickBox

NOBODY_SAYS = "not said"
LENGTHS = ("mm", "in")
SIDE_BY_SIDE = 560
"""From this width on, in pixels, all stands in one line."""


class MeasureWith(QWidget):
    """The instrument is chosen once for each dimension: millimetres and inches are read with the
    same one. Another sheet begins with what it was
    read with before, else with what the last sheet of its kind was."""

    unit_chosen = Signal(str)
    add_wanted = Signal()
    edit_wanted = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._known: tuple[Instrument, ...] = ()
        self._sheet_id = 0
        self._chosen: dict[str, str] = {}
        self._of_kind: dict[SheetKind, dict[str, str]] = {}
        self._unit = "mm"
        self._wanted = ""
        self.box = PickBox("Read with", self)
        self.add = button("Add", self, role="quiet", name="Add an instrument")
        self.edit = button("Change", self, role="quiet", name="Change this instrument")
        self.unit = Choices("Unit", [Option(one, one) for one in LENGTHS], self, columns=2)
        self.warm = Line(self, "Temperature of the part, °C", hint="20")
        self.fields = {
            "unit": Field("Unit", self.unit, self),
            "temperature": Field("Part at °C", self.warm, self),
        }
        self._row = QBoxLayout(QBoxLayout.Direction.TopToBottom, self)
        self._lay()
        self.box.activated.connect(self._picked)
        self.add.clicked.connect(self.add_wanted)
        self.edit.clicked.connect(self._edit)
        self.unit.chosen.connect(self._unit_chosen)

    def _lay(self) -> None:
        caption = label("Read with", self, scale="small", tone="muted")
        across = QHBoxLayout()
        tight(across, 2)
        across.addWidget(self.box, 1)
        across.addWidget(self.add)
        across.addWidget(self.edit)
        first = QVBoxLayout()
        tight(first)
        first.addWidget(caption)
        first.addLayout(across)
        second = QHBoxLayout()
        tight(second, 12)
        for name, wide in (("unit", 116), ("temperature", 84)):
            self.fields[name].setFixedWidth(wide)
            second.addWidget(self.fields[name])
        second.addStretch(1)
        tight(self._row, 12)
        self._row.addLayout(first, 1)
        self._row.addLayout(second)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Side by side where there is room."""
        super().resizeEvent(event)
        way = QBoxLayout.Direction
        is_wide = self.width() >= SIDE_BY_SIDE
        self._row.setDirection(way.LeftToRight if is_wide else way.TopToBottom)

    # What is shown

    def show_instruments(self, known: Sequence[Instrument]) -> None:
        self._known = tuple(known)
        one = next((one for one in known if one.name == self._wanted), None)
        if one is not None:
            self._wanted = ""
            self._chosen[dimension(one.unit)] = one.name
        self._fill()

    def show_sheet(self, sheet: MeasureSheet, units: Sequence[str]) -> None:
        """`units` are those its places are read in."""
        self.unit.set_value(sheet.unit)
        self.fields["unit"].setVisible(any(unit in LENGTHS for unit in units))
        self.fields["temperature"].setVisible(sheet.kind in WARM)
        if sheet.id != self._sheet_id:
            self._begin(sheet)
        self._fill()

    def _begin(self, sheet: MeasureSheet) -> None:
        self._sheet_id = sheet.id
        self._chosen = self._of_kind.setdefault(sheet.kind, {})
        self._chosen |= {dimension(one.unit): one.instrument for one in sheet.readings}
        self._unit = sheet.unit

    def follow(self, unit: str) -> None:
        """The place that is to be read next is in this unit."""
        if unit and dimension(unit) != dimension(self._unit):
            self._unit = unit
            self._fill()
        elif unit:
            self._unit = unit

    def _fill(self) -> None:
        fitting = [one for one in self._known if dimension(one.unit) == dimension(self._unit)]
        self.box.clear()
        self.box.addItem(NOBODY_SAYS, None)
        for one in fitting:
            self.box.addItem(f"{one.name}, {show(one.resolution)} {one.unit}", one.id)
        chosen = self.instrument(self._unit)
        self.box.setCurrentIndex(self.box.findData(chosen.id) if chosen else 0)
        self.edit.setVisible(chosen is not None)

    # What is chosen

    def instrument(self, unit: str) -> Instrument | None:
        """What a figure in this unit is read with."""
        name = self._chosen.get(dimension(unit))
        fitting = (one for one in self._known if one.name == name)
        return next((one for one in fitting if dimension(one.unit) == dimension(unit)), None)

    def want(self, name: str) -> None:
        """Choose an instrument by its name; one that was just added, once it is known."""
        self._wanted = name
        self.show_instruments(self._known)

    def reading(self, key: str, value: Decimal, unit: str) -> Reading:
        """A figure with all that is known of how it was read; BadInput for the temperature."""
        one, warm = self.instrument(unit), self._temperature()
        if one is None:
            return Reading(key, value, unit, temperature=warm)
        step = converted(one.resolution, one.unit, unit)
        return Reading(key, value, unit, one.name, step, warm)

    def _temperature(self) -> Decimal | None:
        field, typed = self.fields["temperature"], self.warm.text().strip().removesuffix("°C")
        if field.isHidden() or not typed:
            return None
        try:
            return decimal(typed, field="temperature")
        except BadInput as wrong:
            field.say(wrong.sentence)
            raise

    def _picked(self) -> None:
        one = next((one for one in self._known if one.id == self.box.currentData()), None)
        self._chosen[dimension(self._unit)] = one.name if one else ""
        self.edit.setVisible(one is not None)

    def _edit(self) -> None:
        self.edit_wanted.emit(self.instrument(self._unit))

    def _unit_chosen(self) -> None:
        self.unit_chosen.emit(self.unit.value)
