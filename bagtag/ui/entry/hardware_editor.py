"""One line of hardware, field by field: the few that most lines need, the others folded away."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.hardware import OVERRIDE, HeldBy, TorqueUnit
from bagtag.ui.entry.hardware_more import HardwareMore
from bagtag.ui.forms.basics import Field, Line, label, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.figures import count, figure, written
from bagtag.ui.torque.torque_told import TorqueTold, thread_names
from bagtag.ui.torque.torque_typed import torque_of

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
    """Fields of one line; `line` is what they say, None while a figure cannot be read.

    What has no field of its own here, the letter of the line on a hole map, stays as it was.
    """

    edited = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._mark = ""
        self._is_loading = False
        self.count = Line(self, "How many fasteners", hint="not counted")
        self.kind = self._line("Kind", KINDS)
        self.thread_of = self._line("Thread", hint="M6, 3/8-16")
        self.length = self._line("Length")
        self.unit = Choices("Unit of length", [Option("mm", "mm"), Option("in", "in")], self)
        self.drive = self._line("Drive", DRIVES)
        self.torque = self._line("Torque")
        units = [Option(unit, unit.value) for unit in TorqueUnit]
        self.torque_unit = Choices("Unit of torque", units, self, columns=4)
        self.told = TorqueTold(self)
        self.threadlocker = self._line("Threadlocker", LOCKERS)
        self.locking = self._line("Locking", LOCKINGS, hint="staked, lock wired")
        self.grade = self._line("Grade", hint="as marked: 8.8, grade 5")
        self.note = self._line("Note on it", hint="stages, left-hand thread")
        self.more = HardwareMore(self)
        self.fields = {
            "count": Field("How many", self.count, self),
            "length": Field("Length", self.length, self),
            "torque": Field("Torque", self.torque, self),
            **self.more.fields,
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
        column = QVBoxLayout(self)
        tight(column, 8)
        column.addLayout(self._grid(self._places()))
        column.addWidget(self.told)
        column.addLayout(self._grid(self._places_below()))
        column.addWidget(self.more)
        column.addWidget(label(OVERRIDE, self, scale="small", tone="muted"))
        rest = " ".join(caution for caution in TORQUE_CAUTIONS if caution != OVERRIDE)
        column.addWidget(label(rest, self, scale="small", tone="muted"))

    def _places(self) -> list[tuple[Field, int, int, int]]:
        """Field, row, column and how many columns wide; of six."""
        return [
            (self.fields["count"], 0, 0, 2), (Field("Kind", self.kind, self), 0, 2, 2),
            (Field("Drive", self.drive, self), 0, 4, 2),
            (Field("Thread", self.thread_of, self), 1, 0, 2), (self.fields["length"], 1, 2, 2),
            (Field("Unit of length", self.unit, self), 1, 4, 2),
            (self.fields["torque"], 2, 0, 2),
            (Field("Unit of torque", self.torque_unit, self), 2, 2, 4),
        ]  # fmt: skip

    def _places_below(self) -> list[tuple[Field, int, int, int]]:
        return [
            (Field("Threadlocker", self.threadlocker, self), 0, 0, 2),
            (Field("Locking", self.locking, self), 0, 2, 2),
            (Field("Grade", self.grade, self), 0, 4, 2),
            (Field("Note on it", self.note, self), 1, 0, 6),
        ]

    def _grid(self, places: list[tuple[Field, int, int, int]]) -> QGridLayout:
        grid = QGridLayout()
        tight(grid, 10)
        for field, row, at, wide in places:
            grid.addWidget(field, row, at, 1, wide, Qt.AlignmentFlag.AlignTop)
        for at in range(6):
            grid.setColumnStretch(at, 1)
        return grid

    def _connect(self) -> None:
        lines = (self.count, self.kind, self.thread_of, self.length, self.drive, self.torque,
                 self.threadlocker, self.locking, self.grade, self.note)  # fmt: skip
        for line in lines:
            line.textChanged.connect(self._tell)
        self.thread_of.entered.connect(self._offer_threads)
        self.torque.textEdited.connect(self._follow_unit)
        self.unit.chosen.connect(self._tell)
        self.torque_unit.chosen.connect(self._unit_chosen)
        self.more.edited.connect(self._tell)

    def begin(self) -> None:
        self.count.setFocus()
        self.count.selectAll()

    def load(self, line: HeldBy) -> None:
        """Show a line; it is told once, when all of it is there."""
        self._is_loading = True
        self._fill(line)
        self._is_loading = False
        self.first_wrong()
        self._show_told()

    def _fill(self, line: HeldBy) -> None:
        self._mark = line.mark
        self.count.setText("" if line.count is None else str(line.count))
        self.kind.setText(line.kind)
        self.thread_of.setText(line.thread)
        self.length.setText(written(line.length))
        self.unit.set_value(line.length_unit)
        self.drive.setText(line.drive)
        self.torque.setText(written(line.torque.value) if line.torque else "")
        self.torque_unit.set_value(line.torque.unit if line.torque else TorqueUnit.NEWTON_METRE)
        self.threadlocker.setText(line.threadlocker)
        self.locking.setText(line.locking)
        self.grade.setText(line.grade)
        self.note.setText(line.note)
        self.more.load(line)

    def line(self) -> HeldBy | None:
        return self._said() if self.first_wrong() is None else None

    def _said(self) -> HeldBy:
        """What the fields say; what cannot be read is left out."""
        return self.more.on(
            HeldBy(
                count=count(self.count.text()),
                kind=self.kind.text().strip(),
                thread=self.thread_of.text().strip(),
                length=figure(self.length.text()),
                length_unit=self.unit.value,
                drive=self.drive.text().strip(),
                torque=torque_of(self.torque.text(), self.torque_unit.value),
                threadlocker=self.threadlocker.text().strip(),
                note=self.note.text().strip(),
                grade=self.grade.text().strip(),
                locking=self.locking.text().strip(),
                mark=self._mark,
            )
        )

    def first_wrong(self) -> Line | None:
        """The first figure that cannot be read; each says so below itself."""
        counted = count(self.count.text()) or not self.count.text().strip()
        self.fields["count"].say("" if counted else _COUNT)
        torque = torque_of(self.torque.text(), self.torque_unit.value)
        for name, line, value, sentence in (
            ("length", self.length, figure(self.length.text()), _LENGTH),
            ("torque", self.torque, torque, _TORQUE),
        ):
            self.fields[name].say(sentence if line.text().strip() and value is None else "")
        self.more.check()
        wrong = (f.editor for f in self.fields.values() if f.wrong.text())
        return next((editor for editor in wrong if isinstance(editor, Line)), None)

    def go_to(self, line: Line) -> None:
        """Put the keys on a figure, unfolded if need be."""
        if line in self.more.lines:
            self.more.open(True)
        line.setFocus()

    def _offer_threads(self) -> None:
        if not self.thread_of.words:
            self.thread_of.suggest(thread_names())

    def _follow_unit(self, typed: str) -> None:
        """A unit that is typed with the figure is the unit."""
        read = torque_of(typed)
        if read is not None:
            self.torque_unit.set_value(read.unit)

    def _unit_chosen(self) -> None:
        """A unit that is chosen stands over the one that was typed."""
        read = torque_of(self.torque.text())
        if read is not None and read.unit is not self.torque_unit.value:
            self.torque.setText(written(read.value))
        self._tell()

    def _show_told(self) -> None:
        self.told.show_line(self._said())

    def _tell(self) -> None:
        if self._is_loading:
            return
        self.first_wrong()
        self._show_told()
        self.edited.emit()
