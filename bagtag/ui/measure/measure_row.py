"""A part in the list of what is measured: its sheets, and the few words that can become of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.codes import show
from bagtag.domain.model import Fate, Removal
from bagtag.domain.phrases import capital
from bagtag.ui.forms.acts import keyless
from bagtag.ui.forms.basics import Press, button, label, tight
from bagtag.ui.forms.lone_keys import LoneKeys
from bagtag.ui.forms.turn import in_turn
from bagtag.ui.measure.sheet_slip import SheetSlip
from bagtag.ui.measure.word_press import Word, WordPress

if TYPE_CHECKING:
    from bagtag.services.measuring import MeasureRow

WORDS = (
    Word(Fate.REFIT, "refit", "r"),
    Word(Fate.RENEW, "renew", "n"),
    Word(Fate.SCRAP, "scrap", "s"),
)
OF_NONE = "Of no part alone"
_INDENT = 8
"""Of a part's name and what is said of it, in pixels, so that the name's frame has air."""


class MeasureTape(QFrame):
    """A part without a sheet is decided here, by a letter or a press; one with sheets on them."""

    worded = Signal(int, object)
    shown = Signal(int)
    opened = Signal(int)
    """A sheet is to be opened."""
    sheet_wanted = Signal(int)
    """A new sheet of this part; 0 for one of no part."""

    def __init__(self, row: MeasureRow, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "tape")
        self.removal_id = row.removal.id if row.removal else 0
        self.name = f"{row.removal.number} {row.removal.name}" if row.removal else OF_NONE
        self._alone = LoneKeys(self)
        self._alone.pressed.connect(self._letter)
        self.shows: list[Press] = []
        self.presses: list[Press] = []
        self.slips = [SheetSlip(sheet, self) for sheet in row.sheets]
        self.new = button("New sheet", self, name=f"{self.name}: new sheet")
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 6, 14, 10)
        column.setSpacing(6)
        column.addLayout(self._top(row))
        for slip in self.slips:
            slip.clicked.connect(self._open)
            column.addWidget(slip)
        self.new.clicked.connect(self._new)
        in_turn(self, (*self.shows, *self.presses, self.new, *self.slips))

    def _top(self, row: MeasureRow) -> QHBoxLayout:
        line = QHBoxLayout()
        tight(line, 8)
        line.addLayout(self._words(row), 1)
        if row.removal and row.removal.fate is Fate.DECIDE and not row.sheets:
            self.presses = [WordPress(word, row.removal.name, self) for word in WORDS]
        for press in self.presses:
            press.clicked.connect(self._pressed)
            line.addWidget(press, 0, Qt.AlignmentFlag.AlignTop)
        line.addWidget(self.new, 0, Qt.AlignmentFlag.AlignTop)
        return line

    def _words(self, row: MeasureRow) -> QVBoxLayout:
        column = QVBoxLayout()
        tight(column, 0)
        if row.removal is None:
            none = label(OF_NONE, self)
            none.setContentsMargins(_INDENT, 0, 0, 0)
            column.addWidget(none)
            return column
        name = button(keyless(_called(row.removal)), self, role="quiet", name=f"Show {self.name}")
        name.setStyleSheet(f"text-align: left; font-weight: bold; padding-left: {_INDENT - 2}px;")
        name.clicked.connect(self._show)
        self.shows.append(name)
        column.addWidget(name)
        said = label(_said(row), self, tone="muted")
        said.setContentsMargins(_INDENT, 0, 0, 0)
        column.addWidget(said)
        return column

    @property
    def first(self) -> QWidget:
        """Where the keys go first: never on a word that decides, which the Enter of a scan that was
        misread would press. The letters of the words are heard in the whole row."""
        return next(iter((*self.slips, self.new)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self._alone.hear(event):
            super().keyPressEvent(event)

    def _letter(self, letter: str) -> None:
        fates = {word.key.upper(): word.value for word in WORDS}
        if self.presses and letter in fates:
            self.worded.emit(self.removal_id, fates[letter])

    def _pressed(self) -> None:
        press = self.sender()
        assert isinstance(press, WordPress)
        self.worded.emit(self.removal_id, press.value)

    def _open(self) -> None:
        slip = self.sender()
        if isinstance(slip, SheetSlip):
            self.opened.emit(slip.sheet_id)

    def _show(self) -> None:
        self.shown.emit(self.removal_id)

    def _new(self) -> None:
        self.sheet_wanted.emit(self.removal_id)


def _called(part: Removal) -> str:
    pieces = f"{part.quantity} × " if part.quantity > 1 else ""
    return f"{part.number}   {pieces}{part.name}"


def _said(row: MeasureRow) -> str:
    part = row.removal
    assert part is not None
    fate = "to be decided" if part.fate is Fate.DECIDE else f"decided: {part.fate}"
    words = [fate, row.area, part.condition, show(row.code) if row.code else ""]
    said = ", ".join(word.rstrip(".") for word in words if word)
    return f"{said}. {capital(part.note)}" if part.note else said
