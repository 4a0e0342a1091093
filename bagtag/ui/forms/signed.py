"""Sentences with a sign before them, so that a question is not told by its colour alone."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.forms.inks import inks, sized

SIDE = 22


def paint_sign(painter: QPainter, widget: QWidget, rect: QRectF, mark: str) -> None:
    """A ring with one mark in it, as large as fits."""
    ring = rect.adjusted(1.5, 1.5, -1.5, -1.5)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(inks().accent, 2))
    painter.drawEllipse(ring)
    painter.setFont(sized(widget, 15, bold=True))
    painter.drawText(ring, Qt.AlignmentFlag.AlignCenter, mark)


class Sign(QWidget):
    """A ring with one mark in it: "?" for what is asked, "!" for what is warned of."""

    def __init__(self, mark: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._mark = mark
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(SIDE, SIDE)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_sign(painter, self, QRectF(self.rect()), self._mark)
        painter.end()


class Signed(QWidget):
    """Sentences one below the other, each with the same sign; nothing where there are none."""

    def __init__(self, mark: str, parent: QWidget, *, name: str) -> None:
        super().__init__(parent)
        self._mark = mark
        self.setAccessibleName(name)
        self._sentences: tuple[str, ...] = ()
        self._column = QVBoxLayout(self)
        tight(self._column, 6)
        self.hide()

    @property
    def sentences(self) -> tuple[str, ...]:
        return self._sentences

    def say(self, sentences: Sequence[str]) -> None:
        if tuple(sentences) == self._sentences:
            return
        self._sentences = tuple(sentences)
        clear_layout(self._column)
        for sentence in self._sentences:
            self._column.addWidget(self._row(sentence))
        self.setAccessibleDescription(" ".join(self._sentences))
        self.setVisible(bool(self._sentences))

    def _row(self, sentence: str) -> QWidget:
        row = QWidget(self)
        line = QHBoxLayout(row)
        tight(line, 8)
        line.addWidget(Sign(self._mark, row), 0, Qt.AlignmentFlag.AlignTop)
        line.addWidget(label(sentence, row), 1, Qt.AlignmentFlag.AlignVCenter)
        return row
