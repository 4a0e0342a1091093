"""Choosing a line of the log by its number or its name."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.errors import NotFound
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, Field, Line, clear_layout, tight
from bagtag.ui.forms.plain import Slip

if TYPE_CHECKING:
    from bagtag.store.work import Store

MOST = 5
Found = list[tuple[int, str]]
"""Ids of removals, each with its number and name."""


def lines_like(store: "Store", job_id: int, typed: str) -> tuple[str, Found]:
    """The lines of a job's log with this number, then those with these words."""
    found: dict[int, str] = {}
    try:
        exact = services.strip.find_removal(store, job_id, typed)
        found[exact.id] = f"{exact.number} {exact.name}"
    except NotFound:
        pass
    for hit in services.find.find(store, typed, job_id=job_id, limit=MOST):
        found.setdefault(hit.removal_id, f"{hit.number} {hit.name}")
    return typed, sorted(found.items(), key=lambda line: not _is_named(line[1], typed))[:MOST]


def _is_named(line: str, typed: str) -> bool:
    """Whether a line is of that very name, or has that very number: it goes first."""
    return typed.casefold() in (line.casefold(), *line.casefold().split(" ", 1))


class RemovalPicker(QWidget):
    """A line to type in and what it finds below it: Down goes there, Enter takes the first."""

    picked = Signal(int, str)
    """Id and `number name`; 0 and nothing when the line was emptied."""
    left = Signal()

    def __init__(self, desk: Desk, caption: str, parent: QWidget, *, hint: str = "") -> None:
        super().__init__(parent)
        self.desk = desk
        self.job_id = desk.job_id
        self._found: Found = []
        self._shown: list[Slip] = []
        self._wants_first = False
        self.line = Line(self, caption, hint=hint or "number or name")
        self.field = Field(caption, self.line, self)
        self._list = QWidget(self)
        self._slips = QVBoxLayout(self._list)
        tight(self._slips, 4)
        column = QVBoxLayout(self)
        tight(column, 4)
        column.addWidget(self.field)
        column.addWidget(self._list)
        self._list.hide()
        self.line.textEdited.connect(self._typed)
        self.setFocusProxy(self.line)

    def show_chosen(self, text: str) -> None:
        """What is chosen now, as `number name`."""
        self.line.setText(text)
        self._show([])

    @property
    def slips(self) -> list[Slip]:
        return list(self._shown)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        slips, at = self.slips, self.focusWidget()
        place = slips.index(at) if isinstance(at, Slip) and at in slips else -1
        if event.key() == Qt.Key.Key_Down and slips:
            slips[min(place + 1, len(slips) - 1)].setFocus()
        elif event.key() == Qt.Key.Key_Up and place >= 0:
            (slips[place - 1] if place else self.line).setFocus()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() in ENTER and place < 0 and self.line.isModified():
            self._take_first()
        else:
            super().keyPressEvent(event)

    def _typed(self, typed: str) -> None:
        self.field.say("")
        self._wants_first = False
        if not typed.strip():
            self._show([])
            return
        self.desk.ask(lines_like, self.job_id, typed.strip(), then=self._answer)

    def _answer(self, answer: tuple[str, Found]) -> None:
        typed, found = answer
        if typed != self.line.text().strip():
            return
        self._show(found)
        if not found:
            self.field.say(f"No line of the log answers to {typed}. Type a number or a name.")
        elif self._wants_first:
            self._pick(0)

    def _take_first(self) -> None:
        """Enter: the first that was found; while the answer is on its way, when it comes."""
        if not self.line.text().strip():
            self.line.setModified(False)
            self.picked.emit(0, "")
        elif self._found:
            self._pick(0)
        else:
            self._wants_first = True

    def _pick(self, place: int) -> None:
        removal_id, text = self._found[place]
        self.show_chosen(text)
        self.line.setModified(False)
        self.line.setFocus()
        self.picked.emit(removal_id, text)

    def _clicked(self) -> None:
        slip = self.sender()
        if isinstance(slip, Slip):
            self._pick(self.slips.index(slip))

    def _show(self, found: Found) -> None:
        self._found = found
        self._wants_first = self._wants_first and not found
        clear_layout(self._slips)
        self._shown = [Slip(text, self._list) for _, text in found]
        for slip in self._shown:
            slip.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            slip.clicked.connect(self._clicked)
            self._slips.addWidget(slip)
            slip.show()
        self._list.setVisible(bool(found))
