"""Words of which one is current, underlined: the stages of the job along the top."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QWidget

STAGES = ("Job", "Strip", "Containers", "Away", "Renew", "Measure", "Build", "Close")
_STEPS = {0x01000012: -1, 0x01000014: 1, 0x01000010: -8, 0x01000011: 8}
"""Left, Right, Home and End as Qt's key codes; see theme.py for why not by name."""


class StageWord(QPushButton):
    """One word of several, with the key that chooses it."""

    stepped = Signal(int)
    """An arrow key asks for the word before or after."""

    def __init__(self, word: str, keys: str, parent: QWidget) -> None:
        super().__init__(word, parent)
        self.setAccessibleName(word)
        self.setToolTip(f"{word} ({keys})")
        self.setCheckable(True)
        self.setProperty("role", "stage")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _STEPS:
            self.stepped.emit(_STEPS[event.key()])
        else:
            super().keyPressEvent(event)


class WordBar(QWidget):
    """Words side by side, one of them current; `chosen` says which one a person went to."""

    chosen = Signal(str)

    def __init__(self, name: str, words: Sequence[str], held: str, parent: QWidget) -> None:
        """`held` is the key that is held while the word's number is pressed."""
        super().__init__(parent)
        self.setAccessibleName(name)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        self.words: dict[str, StageWord] = {}
        for number, said in enumerate(words, start=1):
            word = StageWord(said, f"{held}+{number}", self)
            word.clicked.connect(self._clicked)
            word.stepped.connect(self._stepped)
            row.addWidget(word)
            self.words[said] = word

    @property
    def current(self) -> str:
        return next((said for said, word in self.words.items() if word.isChecked()), "")

    def set_current(self, wanted: str) -> None:
        for said, word in self.words.items():
            word.setChecked(said == wanted)

    def _clicked(self) -> None:
        word = self.sender()
        assert isinstance(word, StageWord)
        self.set_current(self.current or word.text())
        self.chosen.emit(word.text())

    def _stepped(self, by: int) -> None:
        word = self.sender()
        assert isinstance(word, StageWord)
        words = list(self.words)
        place = min(max(words.index(word.text()) + by, 0), len(words) - 1)
        self.words[words[place]].setFocus()
        self.chosen.emit(words[place])


class StageBar(WordBar):
    """The stages of the job."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("Stages of the job", STAGES, "Alt", parent)
