"""Parts one below the other, each with the few words that can become of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.codes import show
from bagtag.ui.card.card_parts import keyless
from bagtag.ui.forms.basics import Press, button, label, tight
from bagtag.ui.stages.stage_keys import LoneKeys

if TYPE_CHECKING:
    from bagtag.services.views import StripRow


@dataclass(frozen=True, slots=True)
class Word:
    """One thing that can become of a part, its key on the keyboard, and how it is asked for."""

    value: StrEnum
    text: str
    key: str


class WordPress(Press):
    """A word to press; `value` is what it means."""

    def __init__(self, word: Word, of: str, parent: QWidget) -> None:
        super().__init__(f"{word.text}\u2002{word.key.upper()}", parent)
        self.value = word.value
        self.setCheckable(True)
        self.setAccessibleName(f"{of}: {word.text}")


class PartRow(QFrame):
    """A part with its words. Its keys work while the row or something in it has the focus."""

    worded = Signal(int, object)
    shown = Signal(int)

    def __init__(
        self, row: "StripRow", words: Sequence[Word], now: StrEnum | None, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.removal_id = row.removal.id
        self.setProperty("surface", "tape")
        self._keys = {word.key.upper(): word.value for word in words}
        self._now = now
        self._alone = LoneKeys(self)
        self._alone.pressed.connect(self._letter)
        line = QHBoxLayout(self)
        line.setContentsMargins(14, 4, 14, 8)
        line.setSpacing(8)
        line.addLayout(self._words(row), 1)
        self.presses = [WordPress(word, row.removal.name, self) for word in words]
        for press in self.presses:
            press.setChecked(press.value is now)
            press.clicked.connect(self._pressed)
            line.addWidget(press)

    def _words(self, row: "StripRow") -> QVBoxLayout:
        removal = row.removal
        pieces = f"{removal.quantity} × " if removal.quantity > 1 else ""
        column = QVBoxLayout()
        tight(column, 0)
        name = button(keyless(f"{removal.number}   {pieces}{removal.name}"), self, role="quiet")
        name.setAccessibleName(f"Show {removal.number} {removal.name}")
        name.setStyleSheet(
            "text-align: left; font-weight: bold; padding-left: 0; border-left: none;"
        )
        name.clicked.connect(self._show)
        column.addWidget(name)
        said = [row.area, row.container, removal.condition, removal.note]
        said += [show(row.code)] if row.code else []
        column.addWidget(label(", ".join(filter(None, said)), self, tone="muted"))
        return column

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self._alone.hear(event):
            super().keyPressEvent(event)

    def _letter(self, letter: str) -> None:
        if letter in self._keys:
            self.worded.emit(self.removal_id, self._keys[letter])

    def _pressed(self) -> None:
        press = self.sender()
        assert isinstance(press, WordPress)
        press.setChecked(press.value is self._now)
        self.worded.emit(self.removal_id, press.value)

    def _show(self) -> None:
        self.shown.emit(self.removal_id)
