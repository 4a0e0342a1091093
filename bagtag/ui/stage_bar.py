"""The stages of the job as words along the top, the current one underlined."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Signal
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QWidget

from bagtag.ui import fonts, theme

STAGES = ("Job", "Strip", "Containers", "Away", "Renew", "Measure", "Build", "Close")
_STEPS = {0x01000012: -1, 0x01000014: 1, 0x01000010: -8, 0x01000011: 8}
"""Left, Right, Home and End as Qt's key codes; see theme.py for why not by name."""


class StageWord(QAbstractButton):
    """One stage."""

    stepped = Signal(int)
    """An arrow key asks for the word before or after."""

    def __init__(self, word: str, number: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.setText(word)
        self.setAccessibleName(word)
        self.setToolTip(f"{word} (Alt+{number})")
        self.setCheckable(True)
        self.setFont(fonts.font())
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        width = QFontMetrics(fonts.font(bold=True)).horizontalAdvance(self.text())
        return QSize(width + 20, theme.TOUCH)

    def minimumSizeHint(self) -> QSize:
        return QSize(self.sizeHint().width() - 10, theme.TOUCH)

    def paintEvent(self, _: QPaintEvent) -> None:
        colours = theme.current()
        current, lit = self.isChecked(), self.isChecked() or self.underMouse()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = fonts.font(bold=current)
        painter.setFont(font)
        painter.setPen(colours.ink if lit else colours.muted)
        width = QFontMetrics(font).horizontalAdvance(self.text())
        left, base = (self.width() - width) / 2, self.height() / 2 + 6
        painter.drawText(QPointF(left, base), self.text())
        if current:
            painter.fillRect(QRectF(left, base + 8, width, 3), colours.accent)
        if self.hasFocus():
            painter.setPen(QPen(colours.accent, 2))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 4, -1, -2), 5, 5)
        painter.end()

    def enterEvent(self, event: QEvent) -> None:
        self.update()
        super().enterEvent(event)  # type: ignore[arg-type]  # PySide hands a QEnterEvent

    def leaveEvent(self, event: QEvent) -> None:
        self.update()
        super().leaveEvent(event)

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
