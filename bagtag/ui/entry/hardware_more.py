"""What few lines of hardware need, folded away until it is filled in."""

from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hardware_check import TURN, WASHERS
from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.ui.entry.hardware_figures import adapter, stretch, stretch_words, washers
from bagtag.ui.entry.toggles import Toggles
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.choices import Option
from bagtag.ui.forms.figures import degrees, length, length_words, written
from bagtag.ui.forms.fold import Fold
from bagtag.ui.torque.torque_typed import torque_of, torque_words

HEADS = ("hexagon", "hexagon socket", "flanged hexagon", "countersunk", "pan", "domed", "12-point")
WASHER_KINDS = ("plain", "spring", "copper", "sealing", "hardened", "serrated")
LUBRICATION = ("dry", "oil", "moly grease", "anti-seize", "threadlocker")
_SENTENCES = {
    "washers": f"A whole number from 0 to {WASHERS}.",
    "angle": "Degrees after the torque, above 0 and at most one turn, 360; more turns are passes.",
    "stretch": "A length, or one to another from below: 0.13 to 0.15 mm.",
    "also": "A figure above zero with its unit: 29.5 lbf·ft.",
    "drag": "A figure above zero; without a unit it is in that of the torque.",
    "adapter": "A length above zero, from the square of the wrench to the fastener.",
    "adapter_angle": "Degrees from 0, straight on, to 180, back to the handle.",
}
_CAPTION = "head, washers, oil, angle, second figure, drag, adapter"


class HardwareMore(Fold):
    """`on` puts what its fields say on a line; it opens by itself where a line has any of it."""

    edited = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(_CAPTION, parent)
        self.head = self._line("Head", HEADS)
        self.washer = self._line("Washer", WASHER_KINDS)
        self.washers = self._line("Washers under each", hint="one")
        self.lubrication = self._line("Threads", LUBRICATION, "dry, oil")
        self.angle = self._line("Then an angle", hint="90°")
        renewed = [Option(True, "yes")]
        self.one_time = Toggles("New each time", renewed, self.fold)
        self.stretch = self._line("Stretch", hint="0.13 to 0.15 mm")
        self.also = self._line("Second figure in print", hint="29.5 lbf·ft")
        self.drag = self._line("Drag, to be added", hint="2 N·m")
        self.adapter = self._line("Adapter or crowfoot", hint="50 mm")
        self.adapter_angle = self._line("Its angle to the wrench", hint="0° is straight on")
        self.tool = self._line("Special tool", hint="by its name or number")
        self.fields = self._fields()
        self._lay_out()
        self._connect()

    def _line(self, name: str, words: tuple[str, ...] = (), hint: str = "") -> Line:
        line = Line(self.fold, name, hint=hint)
        if words:
            line.suggest(words)
        return line

    def _fields(self) -> dict[str, Field]:
        editors: dict[str, QWidget] = {
            "head": self.head, "washer": self.washer, "washers": self.washers,
            "lubrication": self.lubrication, "angle": self.angle, "one_time": self.one_time,
            "stretch": self.stretch, "also": self.also, "drag": self.drag,
            "adapter": self.adapter, "adapter_angle": self.adapter_angle, "tool": self.tool,
        }  # fmt: skip
        return {
            name: Field(editor.accessibleName(), editor, self.fold)
            for name, editor in editors.items()
        }

    def _lay_out(self) -> None:
        grid = QGridLayout(self.fold)
        tight(grid, 10)
        for place, field in enumerate(self.fields.values()):
            grid.addWidget(field, place // 3, place % 3, Qt.AlignmentFlag.AlignTop)
        for at in range(3):
            grid.setColumnStretch(at, 1)

    @property
    def lines(self) -> tuple[Line, ...]:
        return tuple(f.editor for f in self.fields.values() if isinstance(f.editor, Line))

    def _connect(self) -> None:
        self.one_time.changed.connect(self._tell)
        for line in self.lines:
            line.textChanged.connect(self._tell)

    # Folded or not

    @property
    def is_filled(self) -> bool:
        return bool(self.one_time.values) or any(line.text().strip() for line in self.lines)

    def begin(self) -> None:
        self.head.setFocus()

    # What it says

    def load(self, line: HeldBy) -> None:
        long = line.adapter.length if line.adapter is not None else None
        turned = line.adapter.angle if line.adapter is not None else 0.0
        for editor, text in (
            (self.head, line.head), (self.washer, line.washer),
            (self.washers, str(line.washers or "")), (self.lubrication, line.lubrication),
            (self.angle, written(line.angle)), (self.stretch, stretch_words(line.stretch)),
            (self.also, torque_words(line.also)), (self.drag, torque_words(line.drag)),
            (self.adapter, length_words(long)), (self.adapter_angle, written(turned or None)),
            (self.tool, line.tool),
        ):  # fmt: skip
            editor.setText(text)
        self.one_time.set_values((True,) if line.one_time else ())
        self.open(self.is_filled)

    def on(self, line: HeldBy) -> HeldBy:
        """The line with what is filled in here; what cannot be read is left out."""
        return replace(
            line,
            head=self.head.text().strip(),
            washer=self.washer.text().strip(),
            washers=washers(self.washers.text()) or 0,
            lubrication=self.lubrication.text().strip(),
            angle=degrees(self.angle.text(), TURN),
            one_time=bool(self.one_time.values),
            stretch=stretch(self.stretch.text()),
            also=torque_of(self.also.text()),
            drag=self._drag(line.torque),
            adapter=adapter(self.adapter.text(), self.adapter_angle.text()),
            tool=self.tool.text().strip(),
        )

    def _drag(self, torque: Torque | None) -> Torque | None:
        unit = torque.unit if torque is not None else TorqueUnit.NEWTON_METRE
        return torque_of(self.drag.text(), unit)

    def check(self) -> None:
        """Say below each figure what is wrong with it."""
        read = {
            "washers": washers(self.washers.text()) is not None,
            "angle": degrees(self.angle.text(), TURN) is not None,
            "stretch": stretch(self.stretch.text()) is not None,
            "also": torque_of(self.also.text()) is not None,
            "drag": self._drag(None) is not None,
            "adapter": length(self.adapter.text()) is not None,
            "adapter_angle": degrees(self.adapter_angle.text(), 180, zero=True) is not None,
        }
        for name, is_read in read.items():
            editor = self.fields[name].editor
            typed = isinstance(editor, Line) and editor.text().strip()
            self.fields[name].say(_SENTENCES[name] if typed and not is_read else "")
        if self.adapter_angle.text().strip() and not self.adapter.text().strip():
            self.fields["adapter"].say(_SENTENCES["adapter"])

    def _tell(self) -> None:
        self.edited.emit()
