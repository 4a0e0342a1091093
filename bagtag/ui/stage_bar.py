"""The stages of the job as words along the top, the current one underlined."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QWidget

STAGES = ("Job", "Strip", "Containers", "Away", "Renew", "Measure", "Build", "Close")
_STEPS = {0x01000012: -1, 0x01000014: 1, 0x01000010: -8, 0x01000011: 8}
"""Left, Right, Home and End as Qt's key codes; see theme.py for why not by name."""


class StageWord(QPushButton):
    """One stage."""

    stepped = Signal(int)
    """An arrow key asks for the word before or after."""

    def __init__(self, word: str, number: int, parent: QWidget) -> None:
        super().__init__(word, parent)
        self.setAccessibleName(word)
        self.setToolTip(f"{word} (Alt+{number})")
        self.setCheckable(True)
        self.setProperty("role", "stage")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _STEPS:
            self.stepped.emit(_STEPS[event.key()])
        else:
            super().keyPressEvent(event)


class StageBar(QWidget):
    """The words; `chosen` says which one a person went to."""

    chosen = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Stages of the job")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        self.words: dict[str, StageWord] = {}
        for number, stage in enumerate(STAGES, start=1):
            word = StageWord(stage, number, self)
            word.clicked.connect(self._clicked)
            word.stepped.connect(self._stepped)
            row.addWidget(word)
            self.words[stage] = word

    @property
    def current(self) -> str:
        return next((stage for stage, word in self.words.items() if word.isChecked()), "")

    def set_current(self, stage: str) -> None:
        for name, word in self.words.items():
            word.setChecked(name == stage)

    def _clicked(self) -> None:
        word = self.sender()
        assert isinstance(word, StageWord)
        self.set_current(self.current or word.text())
        self.chosen.emit(word.text())

    def _stepped(self, by: int) -> None:
        word = self.sender()
        assert isinstance(word, StageWord)
        place = min(max(STAGES.index(word.text()) + by, 0), len(STAGES) - 1)
        self.words[STAGES[place]].setFocus()
        self.chosen.emit(STAGES[place])
