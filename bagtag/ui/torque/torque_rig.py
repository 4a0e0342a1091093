"""What stands between the hand and the fastener: wrench, its length, adapter, drag."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QComboBox, QGridLayout, QWidget

from bagtag.domain import wrench_use
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_outcome import Rig
from bagtag.ui.entry.hardware_figures import adapter
from bagtag.ui.forms.basics import TOUCH, Field, Line, tight
from bagtag.ui.forms.figures import degrees, length, length_words, written
from bagtag.ui.torque.torque_typed import torque_of, torque_words
from bagtag.ui.torque.wrench_tape import scale_words

BEST, NONE = "the one that suits best", "none from the list"
_SENTENCES = {
    "length": "A length above zero: 450 mm, 18 in.",
    "adapter": "A length above zero: 50 mm, 2 in.",
    "angle": "Degrees from 0, straight on, to 180, back to the handle.",
    "drag": "A figure above zero; without a unit it is in that of the torque.",
}


class WrenchBox(QComboBox):
    """The wheel scrolls the page, and changes no wrench by the way."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class RigForm(QWidget):
    edited = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._wrenches: tuple[Wrench, ...] = ()
        self._chosen: object = None
        self.wrench = WrenchBox(self)
        self.wrench.setMinimumHeight(TOUCH)
        self.grip = Line(self, "L: middle of the grip to square")
        self.drag = Line(self, "Drag of a self-locking nut", hint="2 N·m")
        self.adapter = Line(self, "A: adapter or crowfoot", hint="50 mm")
        self.angle = Line(self, "Its angle to the wrench", hint="0° is straight on")
        self.lines = {
            "length": self.grip, "drag": self.drag, "adapter": self.adapter, "angle": self.angle,
        }  # fmt: skip
        self.fields = {
            "wrench": Field("Wrench", self.wrench, self),
            **{name: Field(one.accessibleName(), one, self) for name, one in self.lines.items()},
        }
        self._lay()
        self.show_wrenches(())
        for line in self.lines.values():
            line.textChanged.connect(self._tell)
        self.wrench.activated.connect(self._choose)

    def _lay(self) -> None:
        grid = QGridLayout(self)
        tight(grid, 10)
        grid.addWidget(self.fields["wrench"], 0, 0, 1, 2)
        for place, name in enumerate(self.lines):
            row, at = divmod(place, 2)
            grid.addWidget(self.fields[name], row + 1, at, Qt.AlignmentFlag.AlignTop)
            grid.setColumnStretch(at, 1)

    def show_wrenches(self, wrenches: Sequence[Wrench]) -> None:
        """The list as it is now; what a person chose stays chosen where it is still in it."""
        self._wrenches = tuple(wrenches)
        self.wrench.clear()
        if wrenches:
            self.wrench.addItem(BEST, BEST)
        for one in wrenches:
            self.wrench.addItem(f"{one.name}: {scale_words(one)}", one.id)
        self.wrench.addItem(NONE, NONE)
        self.wrench.setCurrentIndex(max(self.wrench.findData(self._chosen), 0))

    def load(self, line: HeldBy) -> None:
        """Take up the drag and the adapter of a line of hardware."""
        long = line.adapter.length if line.adapter is not None else None
        turned = line.adapter.angle if line.adapter is not None else 0.0
        self.drag.setText(torque_words(line.drag))
        self.adapter.setText(length_words(long))
        self.angle.setText(written(turned or None))

    @property
    def seeks_best(self) -> bool:
        return bool(self.wrench.currentData() == BEST)

    def rig(self, torque: Torque | None, unit: TorqueUnit) -> Rig | None:
        """What is filled in, to turn this torque with, bare figures in `unit`; None, said below
        its field, where something cannot be read or cannot be."""
        if not self._is_read(unit):
            return None
        rig = Rig(
            next((one for one in self._wrenches if one.id == self.wrench.currentData()), None),
            length(self.grip.text()),
            adapter(self.adapter.text(), self.angle.text()),
            torque_of(self.drag.text(), unit),
        )
        try:
            rig.check()
            return replace(rig, wrench=self._best(torque, rig)) if self.seeks_best else rig
        except BadInput as wrong:
            self.say(wrong)
            return None

    def _best(self, torque: Torque | None, rig: Rig) -> Wrench | None:
        """Of the list, each as long as was typed, else as it is listed."""
        if torque is None:
            return None
        held = [replace(one, length=rig.grip or one.length) for one in self._wrenches]
        today = date.today()
        found = wrench_use.best((torque,), held, adapter=rig.adapter, drag=rig.drag, today=today)
        return next((one for one in self._wrenches if found and one.id == found.wrench.id), None)

    def _is_read(self, unit: TorqueUnit) -> bool:
        for name, value in (
            ("length", length(self.grip.text())),
            ("adapter", length(self.adapter.text())),
            ("angle", degrees(self.angle.text(), 180, zero=True)),
            ("drag", torque_of(self.drag.text(), unit)),
        ):
            typed = self.lines[name].text().strip()
            self.fields[name].say(_SENTENCES[name] if typed and value is None else "")
        return not any(field.wrong.text() for field in self.fields.values())

    def say(self, wrong: BadInput) -> None:
        name = wrong.field if wrong.field in self.fields else "adapter"
        self.fields[name].say(wrong.sentence)

    def hint(self, one: Wrench | None) -> None:
        """The length that is in the list needs not be typed."""
        listed = length_words(one.length) if one is not None else ""
        self.grip.setPlaceholderText(f"{listed}, as listed" if listed else "450 mm")

    def _choose(self) -> None:
        self._chosen = self.wrench.currentData()
        self._tell()

    def _tell(self) -> None:
        self.edited.emit()
