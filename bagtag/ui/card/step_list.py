"""Steps of the build as a calm list: what is behind a cover, what a bench build is made of.

Rows are painted, so that a list of thousands opens at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import (
    QPointF,
    QRectF,
    Qt,
    Signal,
)
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QTableView,
    QWidget,
)

from bagtag.domain.fitting import Ref
from bagtag.domain.shapes import Picture
from bagtag.ui import fonts, theme
from bagtag.ui.card.task_signs import paint_sign
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.spoken_rows import Index, SpokenRows
from bagtag.ui.forms.tape_table import RowPainter, dress
from bagtag.ui.strip.thumbs import Thumbs

GAP, INDENT = 6, 30


@dataclass(frozen=True, slots=True)
class StepLine:
    """A row: what a step is called and, smaller, what is to be known of it. `sign` stands where no
    photo does; `word` at the right; a quiet row is done with."""

    ref: Ref
    title: str
    detail: str = ""
    thumb: str = ""
    sign: Picture | None = None
    word: str = ""
    depth: int = 0
    is_quiet: bool = False


class StepModel(SpokenRows):
    def spoken(self, line: StepLine) -> str:
        return ", ".join(filter(None, (line.title, line.detail, line.word)))


class StepDelegate(RowPainter):
    """Paints a row `high` pixels high, with room for a picture where `pictured`."""

    def __init__(
        self, model: StepModel, thumbs: Thumbs, parent: QAbstractItemView, *, high: int
    ) -> None:
        super().__init__(parent, high)
        self._model, self._thumbs = model, thumbs
        self.high = high
        self.side = high - GAP - 12

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        line = self._model.lines[place]
        box = rect.adjusted(1 + INDENT * line.depth, GAP / 2, -2, -GAP / 2)
        _ground(painter, box, line, chosen=self.view.hasFocus() and self.is_here(place))
        self._picture(painter, box, line)
        self._words(painter, box, line)

    def _picture(self, painter: QPainter, box: QRectF, line: StepLine) -> None:
        room = QRectF(box.left() + 8, box.center().y() - self.side / 2, self.side, self.side)
        ratio = painter.device().devicePixelRatioF()
        pixmap = self._thumbs.get(line.thumb, self.side, ratio) if line.thumb else None
        if pixmap is not None and not pixmap.isNull():
            painter.drawPixmap(room.topLeft(), pixmap)
        elif line.sign is not None:
            inset = self.side * (0.1 if self.side < 40 else 0.2)
            inner = room.adjusted(inset, inset, -inset, -inset)
            paint_sign(painter, line.sign, inner, quiet=line.is_quiet)
        else:
            colours = theme.current()
            painter.setPen(QPen(colours.line, 1))
            painter.setBrush(colours.card)
            painter.drawRoundedRect(room, 3, 3)
            painter.setPen(QPen(colours.muted, 1.5))
            middle = room.center()
            painter.drawLine(middle - QPointF(7, 0), middle + QPointF(7, 0))

    def _words(self, painter: QPainter, box: QRectF, line: StepLine) -> None:
        colours = theme.current()
        left = box.left() + self.side + 22
        right = box.right() - 12 - self._word(painter, box, line)
        title, small = fonts.font(theme.BODY, bold=not line.is_quiet), fonts.font(theme.SMALL)
        is_low = self.high < 56
        base = box.center().y() + (6 if is_low or not line.detail else -4)
        painter.setPen(colours.muted if line.is_quiet else colours.ink)
        wide = _text(painter, QPointF(left, base), line.title, title, right - left)
        if line.detail:
            painter.setPen(colours.muted)
            at = QPointF(left + wide + 12, base) if is_low else QPointF(left, base + 22)
            _text(painter, at, line.detail, small, right - at.x())

    @staticmethod
    def _word(painter: QPainter, box: QRectF, line: StepLine) -> float:
        """Paint the word at the right; the width it takes."""
        if not line.word:
            return 0.0
        font, colours = fonts.font(theme.SMALL), theme.current()
        wide = QFontMetricsF(font).horizontalAdvance(line.word)
        painter.setFont(font)
        painter.setPen(colours.muted)
        painter.drawText(QPointF(box.right() - 12 - wide, box.center().y() + 5), line.word)
        return wide + 14


def _text(painter: QPainter, at: QPointF, text: str, font: Any, room: float) -> float:
    """One line, cut where there is no room; the width it takes."""
    metrics = QFontMetricsF(font)
    shown = metrics.elidedText(text, Qt.TextElideMode.ElideRight, max(room, 0))
    painter.setFont(font)
    painter.drawText(at, shown)
    return metrics.horizontalAdvance(shown)


def _ground(painter: QPainter, box: QRectF, line: StepLine, *, chosen: bool) -> None:
    colours = theme.current()
    weight = 3.0 if chosen else 1.0
    painter.setPen(QPen(colours.accent if chosen else colours.line, weight))
    painter.setBrush(colours.card if line.is_quiet else colours.tape)
    inset = weight / 2
    painter.drawRoundedRect(box.adjusted(inset, inset, -inset, -inset), 4, 4)


class StepList(QTableView):
    """A table of one column, for the same reason as the strip: a long list paints at once."""

    shown = Signal(object)
    """A row was pressed: its `Ref`."""

    def __init__(self, desk: Desk, name: str, parent: QWidget, *, high: int) -> None:
        super().__init__(parent)
        self.steps = StepModel(self)
        self.high = high
        thumbs = Thumbs(desk, self)
        self.setAccessibleName(name)
        self.setProperty("bare", "true")
        self.setModel(self.steps)
        self.setItemDelegate(StepDelegate(self.steps, thumbs, self, high=high))
        dress(self, high, high // 2)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        thumbs.arrived.connect(self.viewport().update)
        self.clicked.connect(self._pressed)

    def show_lines(self, lines: Sequence[StepLine]) -> None:
        """Show these rows; the one that stood under the keys stays where it is still here."""
        here = self.currentIndex().row()
        ref = self.steps.lines[here].ref if 0 <= here < len(self.steps.lines) else None
        self.steps.put(lines)
        places = (place for place, line in enumerate(lines) if line.ref == ref)
        self.setCurrentIndex(self.steps.index(next(places, 0)))

    def _pressed(self, index: Index) -> None:
        self.shown.emit(self.steps.lines[index.row()].ref)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter shows a row; handed on it would answer what stands around the list."""
        if event.key() not in ENTER:
            super().keyPressEvent(event)
        elif self.currentIndex().isValid():
            self._pressed(self.currentIndex())

    def keyboardSearch(self, _: str) -> None:
        """Letters are for a scanner."""

    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.viewport().update()
