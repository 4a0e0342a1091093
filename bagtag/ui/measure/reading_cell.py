"""One place to read: its number in the drawing, the field, and below it what is wrong with it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag.domain.measuring.form import Place
from bagtag.ui.forms.basics import ENTER, Line, label, tight
from bagtag.ui.forms.inks import inks, sized

_SIDE = 26


class Number(QWidget):
    """The ring with a number that stands in the drawing too."""

    def __init__(self, number: int, parent: QWidget) -> None:
        super().__init__(parent)
        self._number = number
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(_SIDE, _SIDE)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ring = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.setPen(QPen(inks().muted, 1.5))
        painter.drawEllipse(ring)
        painter.setFont(sized(self, 13, bold=True))
        painter.setPen(inks().ink)
        painter.drawText(ring, Qt.AlignmentFlag.AlignCenter, str(self._number))
        painter.end()


class ReadingLine(Line):
    """Enter hands on what stands here; so does leaving it, if it was typed in since."""

    entered_figure = Signal()
    left_figure = Signal()

    def __init__(self, parent: QWidget, name: str, *, hint: str = "") -> None:
        super().__init__(parent, name, hint=hint)
        self._kept = ""

    @property
    def is_typed(self) -> bool:
        """Whether something stands here that was not handed on yet. A scan that was taken out again
        leaves a field unmodified, with what had been typed before it."""
        return self.isModified() or self.text() != self._kept

    def show_kept(self, text: str) -> None:
        """What is kept; what is being typed stays as it is."""
        is_typed, self._kept = self.is_typed, text
        if not is_typed and text != self.text():
            self.setText(text)
            if self.hasFocus():
                self.selectAll()

    def settle(self) -> None:
        """What stands here is handed on."""
        self._kept = self.text()
        self.setModified(False)

    def refuse(self) -> None:
        """What stands here could not be kept; it stays, and is not written over."""
        self.setModified(True)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.entered_figure.emit()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """What is typed next takes the place of what stands here, however the field was come to."""
        super().focusInEvent(event)
        if event.reason() != Qt.FocusReason.MouseFocusReason:
            self.selectAll()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() not in _STAYS and self.is_typed:
            self.left_figure.emit()


_STAYS = (Qt.FocusReason.PopupFocusReason, Qt.FocusReason.ActiveWindowFocusReason)


class ReadingCell(QWidget):
    """`entered` says that its figure is there and the next place is to be read; `left` that it is
    there and the person went somewhere else; `reached` that it has the keys."""

    entered = Signal()
    left = Signal()
    reached = Signal()

    def __init__(self, place: Place, unit: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.place = place
        self.line = ReadingLine(self, place.name, hint=_hint(place, unit))
        self.line.setMinimumWidth(76)
        self.wrong = label("", self, scale="small", tone="accent")
        self.wrong.hide()
        row = QHBoxLayout()
        tight(row, 6)
        if place.number:
            row.addWidget(Number(place.number, self))
        row.addWidget(self.line, 1)
        column = QVBoxLayout(self)
        tight(column, 2)
        column.addLayout(row)
        column.addWidget(self.wrong)
        self.line.entered_figure.connect(self.entered)
        self.line.left_figure.connect(self.left)
        self.line.entered.connect(self.reached)
        self.line.textEdited.connect(self._mended)

    @property
    def text(self) -> str:
        return self.line.text().strip()

    def show_kept(self, text: str, about: str = "") -> None:
        """What is kept, and what it was read with."""
        self.line.show_kept(text)
        self.line.setToolTip(about)

    def say(self, sentence: str) -> None:
        """Say what is wrong here; what was typed stays."""
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
        self.line.setAccessibleDescription(sentence)
        if sentence:
            self.line.refuse()

    def _mended(self) -> None:
        self.say("")


def _hint(place: Place, unit: str) -> str:
    shown = place.unit or unit
    return shown if place.needed else f"{shown} if read".strip()
