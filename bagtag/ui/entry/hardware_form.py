"""What held a part: lines of hardware, each written as on tape or filled in field by field."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.hardware import OVERRIDE, HeldBy
from bagtag.ui.forms.basics import ENTER, Field, Line, button, is_inside, label, panel, tight
from bagtag.ui.forms.rows import Rows
from bagtag.ui.forms.signed import Signed

if TYPE_CHECKING:
    from bagtag.services.tape import TapeReader
    from bagtag.ui.entry.hardware_editor import HardwareEditor

_UNREAD = "No fastener can be read in this. Write it like: 4 x M6x30, 8 mm hex, 10 Nm, blue."


class HardwareForm(QWidget):
    """The lines of hardware of one removal."""

    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._reader: TapeReader | None = None
        self._lines: list[HeldBy] = []
        self._before: tuple[HeldBy, ...] = ()
        self._open: int | None = None
        self.rows = Rows("hardware", self)
        self.rows.opened.connect(self.edit)
        self.rows.removed.connect(self.take_out)
        self.tape = Line(self, "Held by", hint="4 x M6x30, 8 mm hex, 10 Nm, blue")
        self.tape.textChanged.connect(self._read)
        self.tape_field = Field("Held by, as on tape; Enter adds it", self.tape, self)
        self.heard = label("", self, scale="small", tone="muted")
        self.asked = Signed("?", self, name="Can this be right?")
        self.override = label(OVERRIDE, self, scale="small", tone="muted")
        self.frame = panel(self, "tape")
        self.by_fields = button("By fields", self, name="Add hardware field by field")
        self.by_fields.clicked.connect(self.add)
        self._build()

    def _build(self) -> None:
        self._inside = QVBoxLayout(self.frame)
        self._inside.setContentsMargins(14, 12, 14, 12)
        self._inside.addLayout(self._acts())
        self.frame.hide()
        line = QHBoxLayout()
        tight(line, 8)
        line.addWidget(self.tape_field, 1)
        line.addWidget(self.by_fields, 0, Qt.AlignmentFlag.AlignBottom)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addWidget(self.rows)
        column.addWidget(self.frame)
        column.addLayout(line)
        column.addWidget(self.heard)
        column.addWidget(self.asked)
        column.addWidget(self.override)
        self.heard.hide()
        self.setFocusProxy(self.tape)

    def _acts(self) -> QHBoxLayout:
        row = QHBoxLayout()
        tight(row, 8)
        done = button("Done  (Enter)", self.frame, name="Done with this line")
        leave = button(
            "Leave it  (Esc)", self.frame, role="quiet", name="Leave this line as it was"
        )
        out = button("Take it out", self.frame, role="quiet", name="Take this line out")
        done.clicked.connect(self._go_on)
        leave.clicked.connect(self.leave)
        out.clicked.connect(self._take_open_out)
        for press in (done, leave, out):
            row.addWidget(press)
        row.addStretch(1)
        return row

    @cached_property
    def editor(self) -> "HardwareEditor":
        """The fields of one line, made when they are first wanted."""
        from bagtag.ui.entry.hardware_editor import HardwareEditor

        made = HardwareEditor(self.frame)
        made.edited.connect(self._edited)
        self._inside.insertWidget(0, made)
        self._put_in_turn(made)
        return made

    def _put_in_turn(self, made: QWidget) -> None:
        """Tab goes through what was made late where it stands, before the acts below it."""
        late: list[QWidget] = [self.tape]
        after = made.nextInFocusChain()
        while after is not None and is_inside(after, made):
            late += [after] if after.focusPolicy() != Qt.FocusPolicy.NoFocus else []
            after = after.nextInFocusChain()
        for one, other in pairwise(late):
            self.setTabOrder(one, other)

    @property
    def lines(self) -> tuple[HeldBy, ...]:
        return tuple(self._lines)

    @property
    def reader(self) -> "TapeReader | None":
        return self._reader

    def set_reader(self, reader: "TapeReader") -> None:
        self._reader = reader

    def set_lines(self, lines: Sequence[HeldBy]) -> None:
        self._lines = list(lines)
        self._open = None
        self._show()

    def add(self) -> None:
        """Open the fields for a new line."""
        self._close()
        self._edit_at(len(self._lines), HeldBy())

    def edit(self, place: int) -> None:
        self._close()
        self._edit_at(place, self._lines[place])

    def take_out(self, place: int) -> None:
        self._close()
        del self._lines[place]
        self._show()
        self.tape.setFocus()
        self.changed.emit()

    def leave(self) -> None:
        self._lines = list(self._before)
        self._close()
        self.tape.setFocus()
        self.changed.emit()

    def take_typed(self) -> bool:
        """Add what stands in the tape line; False when no fastener can be read in it."""
        typed = self.tape.text().strip()
        if not typed:
            return True
        read = self._as_read(typed)
        if not read:
            self.tape_field.say(_UNREAD)
            return False
        self._lines += read
        self.tape.clear()
        self._show()
        self.changed.emit()
        return True

    def is_whole(self) -> bool:
        """Take what is typed; False, said beside the field, when something cannot be read."""
        wrong = self.editor.first_wrong() if self._open is not None else None
        if wrong is not None:
            self.editor.go_to(wrong)
            return False
        return self.take_typed()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        inside = is_inside(self.focusWidget(), self.frame)
        plain = not event.modifiers() & Qt.KeyboardModifier.ControlModifier
        if event.key() in ENTER and plain and inside:
            self._go_on()
        elif event.key() == Qt.Key.Key_Escape and inside:
            self.leave()
        elif event.key() in ENTER and plain and self.tape.text().strip():
            self.take_typed()
        else:
            super().keyPressEvent(event)

    def _go_on(self) -> None:
        wrong = self.editor.first_wrong()
        if wrong is not None:
            self.editor.go_to(wrong)
            return
        self._edited()
        self._close()
        self.tape.setFocus()

    def _take_open_out(self) -> None:
        place = self._open
        if place is not None and place < len(self._before):
            self._lines = list(self._before)
            self.take_out(place)
        else:
            self.leave()

    def _edit_at(self, place: int, line: HeldBy) -> None:
        self._before = self.lines
        self.editor.blockSignals(True)
        self.editor.load(line)
        self.editor.blockSignals(False)
        self._open = place
        self._show()
        self.editor.begin()

    def _close(self) -> None:
        self._open = None
        self._show()

    def _edited(self) -> None:
        line = self.editor.line()
        if self._open is None or line is None:
            return
        self._lines = list(self._before)
        self._lines[self._open : self._open + 1] = [line]
        self.changed.emit()

    def _read(self, typed: str) -> None:
        """Say under the line what was understood, while it is typed."""
        self.tape_field.say("")
        read = self._as_read(typed.strip()) if typed.strip() else []
        self.heard.setText("; ".join(map(str, read)))
        self.heard.setVisible(bool(read))
        self.asked.say(self._asked(read))

    def _asked(self, read: list[HeldBy]) -> tuple[str, ...]:
        from bagtag.ui.torque.torque_told import questions_of  # wanted once something is typed

        return questions_of(read) if read else ()

    def _as_read(self, typed: str) -> list[HeldBy]:
        """The lines in what was typed; a word it cannot read goes to the last one's note."""
        if self._reader is None:
            return []
        tape = self._reader.read(f"part, {typed}")
        lines = list(tape.entry.held_by)
        if lines and tape.unread:
            words = ", ".join(filter(None, (lines[-1].note, *tape.unread)))
            lines[-1] = replace(lines[-1], note=words)
        return lines

    def _show(self) -> None:
        editing = self._open is not None
        self.rows.set_rows(
            [str(line) for line in (self._before if editing else self._lines)], self._open
        )
        slips = [self.rows.slip(place) for place in range(len(self.rows))]
        for before, slip in pairwise([self.tape, *slips]):  # Tab enters the form at the tape line
            self.setTabOrder(before, slip)
        self.frame.setVisible(editing)
        for part in (self.tape_field, self.by_fields):
            part.setVisible(not editing)
        self.override.setVisible(not editing)
