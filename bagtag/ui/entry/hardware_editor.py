"""One line of hardware, field by field."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from bagtag.domain.hardware import OVERRIDE, HeldBy, Torque, TorqueUnit
from bagtag.ui.forms.basics import Field, Line, label, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.figures import count, figure

KINDS = ("bolt", "screw", "nut", "stud", "countersunk screw", "circlip", "pin", "clip", "plug")
DRIVES = (
    "8 mm hex", "10 mm hex", "13 mm hex", "17 mm hex", "5 mm allen", "6 mm allen", "T30", "slot",
    "cross",
)  # fmt: skip
LOCKINGS = ("staked", "lock wired", "tab washer", "split pin")
LOCKERS = ("low strength", "medium strength", "high strength")
_TORQUE = "A torque is a figure above zero; leave it empty if it is not known."
_COUNT = "A whole number from 1; leave it empty while it is not counted."
_LENGTH = "A length is a figure above zero."


class HardwareEditor(QWidget):
    """Fields of one line; `line` is what they say, None while a figure cannot be read."""

    edited = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.count = Line(self, "How many fasteners", hint="not counted")
        self.count.setText("1")
        self.kind = self._line("Kind", KINDS)
        self.thread_of = self._line("Thread", hint="M6, 3/8-16")
        self.length = self._line("Length")
        self.unit = Choices("Unit of length", [Option("mm", "mm"), Option("in", "in")], self)
        self.drive = self._line("Drive", DRIVES)
        self.torque = self._line("Torque")
        units = [Option(unit, unit.value) for unit in TorqueUnit]
        self.torque_unit = Choices("Unit of torque", units, self, columns=4)
        self.threadlocker = self._line("Threadlocker", LOCKERS)
        self.locking = self._line("Locking", LOCKINGS, hint="staked, lock wired")
        self.grade = self._line("Grade", hint="as marked: 8.8, grade 5")
        self.note = self._line("Note on it", hint="stages, angle, left-hand thread")
        self.fields = {
            "count": Field("How many", self.count, self),
            "length": Field("Length", self.length, self),
            "torque": Field("Torque", self.torque, self),
        }
        self._lay_out()
        self._connect()
        self.load(HeldBy())

    def _line(self, name: str, words: tuple[str, ...] = (), hint: str = "") -> Line:
        line = Line(self, name, hint=hint)
        if words:
            line.suggest(words)
        return line

    def _lay_out(self) -> None:
        grid = QGridLayout()
        tight(grid, 10)
        places = [
            (self.fields["count"], 0, 0, 1), (Field("Kind", self.kind, self), 0, 1, 3),
            (Field("Drive", self.drive, self), 0, 4, 2),
            (Field("Thread", self.thread_of, self), 1, 0, 2), (self.fields["length"], 1, 2, 2),
            (Field("Unit of length", self.unit, self), 1, 4, 2),
            (self.fields["torque"], 2, 0, 2),
            (Field("Unit of torque", self.torque_unit, self), 2, 2, 4),
            (Field("Threadlocker", self.threadlocker, self), 3, 0, 2),
            (Field("Locking", self.locking, self), 3, 2, 2),
            (Field("Grade", self.grade, self), 3, 4, 2),
            (Field("Note on it", self.note, self), 4, 0, 6),
        ]  # fmt: skip
        for field, row, at, wide in places:
            grid.addWidget(field, row, at, 1, wide, Qt.AlignmentFlag.AlignTop)
        for at in range(6):
            grid.setColumnStretch(at, 1)
        column = QVBoxLayout(self)
        tight(column, 8)
        column.addLayout(grid)
        column.addWidget(label(OVERRIDE, self, scale="small", tone="muted"))

    def _connect(self) -> None:
        lines = (self.count, self.kind, self.thread_of, self.length, self.drive, self.torque,
                 self.threadlocker, self.locking, self.grade, self.note)  # fmt: skip
        for line in lines:
            line.textChanged.connect(self._tell)
        self.unit.chosen.connect(self._tell)
        self.torque_unit.chosen.connect(self._tell)

    def begin(self) -> None:
        self.count.setFocus()
        self.count.selectAll()

    def load(self, line: HeldBy) -> None:
        self.count.setText("" if line.count is None else str(line.count))
        self.kind.setText(line.kind)
        self.thread_of.setText(line.thread)
        self.length.setText("" if line.length is None else f"{line.length:g}")
        self.unit.set_value(line.length_unit)
        self.drive.setText(line.drive)
        self.torque.setText(f"{line.torque.value:g}" if line.torque else "")
        self.torque_unit.set_value(line.torque.unit if line.torque else TorqueUnit.NEWTON_METRE)
        self.threadlocker.setText(line.threadlocker)
        self.locking.setText(line.locking)
        self.grade.setText(line.grade)
        self.note.setText(line.note)

    def line(self) -> HeldBy | None:
        if self.first_wrong() is not None:
            return None
        torque = figure(self.torque.text())
        return HeldBy(
            count=count(self.count.text()),
            kind=self.kind.text().strip(),
            thread=self.thread_of.text().strip(),
            length=figure(self.length.text()),
            length_unit=self.unit.value,
            drive=self.drive.text().strip(),
            torque=Torque(torque, self.torque_unit.value) if torque else None,
            threadlocker=self.threadlocker.text().strip(),
            note=self.note.text().strip(),
            grade=self.grade.text().strip(),
            locking=self.locking.text().strip(),
        )

    def first_wrong(self) -> Line | None:
        """The first figure that cannot be read; each says so below itself."""
        counted = count(self.count.text()) or not self.count.text().strip()
        self.fields["count"].say("" if counted else _COUNT)
        for name, line, sentence in (
            ("length", self.length, _LENGTH),
            ("torque", self.torque, _TORQUE),
        ):
            typed = line.text().strip()
            self.fields[name].say(sentence if typed and figure(typed) is None else "")
        wrong = (f.editor for f in self.fields.values() if f.wrong.text())
        return next((editor for editor in wrong if isinstance(editor, Line)), None)

    def _tell(self) -> None:
        self.first_wrong()
        self.edited.emit()
