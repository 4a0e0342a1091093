"""The wrenches of the bench, one piece of tape below the other."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_use import calibration
from bagtag.ui.forms.basics import clear_layout, tight
from bagtag.ui.torque.wrench_tape import WrenchTape


class WrenchList(QWidget):
    """Up and Down go from one to the next, Enter opens it, Delete takes it out."""

    opened = Signal(object)
    removed = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Torque wrenches")
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.tapes: list[WrenchTape] = []
        self._column = QVBoxLayout(self)
        tight(self._column, 6)

    def __len__(self) -> int:
        return len(self.tapes)

    def show_wrenches(self, wrenches: Sequence[Wrench]) -> None:
        had = next((place for place, tape in enumerate(self.tapes) if tape.hasFocus()), None)
        clear_layout(self._column)
        today = date.today()
        self.tapes = [WrenchTape(one, calibration(one, today), self) for one in wrenches]
        for tape in self.tapes:
            tape.clicked.connect(self._open)
            tape.removed.connect(self._remove)
            self._column.addWidget(tape)
        self._column.addStretch(1)
        if had is not None and self.tapes:
            self.tapes[min(had, len(self.tapes) - 1)].setFocus()

    def mark(self, wrench_id: int) -> None:
        """Mark the one that is open; 0 for none."""
        for tape in self.tapes:
            tape.set_open(bool(wrench_id) and tape.wrench.id == wrench_id)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if self.tapes:
            self.tapes[0].setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(Qt.Key(event.key()))
        at = next((place for place, tape in enumerate(self.tapes) if tape.hasFocus()), None)
        if step is None or at is None:
            super().keyPressEvent(event)
        else:
            self.tapes[max(0, min(at + step, len(self.tapes) - 1))].setFocus()

    def _open(self) -> None:
        tape = self.sender()
        if isinstance(tape, WrenchTape):
            self.opened.emit(tape.wrench)

    def _remove(self) -> None:
        tape = self.sender()
        if isinstance(tape, WrenchTape):
            self.removed.emit(tape.wrench)
