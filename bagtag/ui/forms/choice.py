"""One option, large enough to hit with a glove: a picture, a word, and the key for it."""

from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from bagtag.domain.shapes import Picture, Text
from bagtag.ui.forms.basics import TOUCH
from bagtag.ui.forms.inks import Inks, inks, sized
from bagtag.ui.picture import paint

PICTURE = 66
_STEPS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}


@dataclass(frozen=True, slots=True)
class Option:
    """`value` is what choosing it means; `key` is the key that chooses it. The picture's own
    lettering is left out unless it is `lettered`: the title says it."""

    value: Any
    title: str
    detail: str = ""
    key: str = ""
    picture: Picture | None = None
    lettered: bool = False


class Choice(QAbstractButton):
    """One option of several."""

    stepped = Signal(int, int)
    """An arrow key: so many to the right, so many down."""

    def __init__(self, option: Option, parent: QWidget) -> None:
        super().__init__(parent)
        self.option = option
        self.tall = False
        self.setCheckable(True)
        self.setText(option.title)
        said = ", ".join(filter(None, (option.title, option.detail)))
        self.setAccessibleName(f"{parent.accessibleName()}: {said}")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def sizeHint(self) -> QSize:
        wide = self._title_width() + self._left() + self._right() + 6
        return QSize(wide, 56 if self.tall else TOUCH)

    def minimumSizeHint(self) -> QSize:
        return QSize(self._left() + min(self._title_width(), 60) + self._right(), TOUCH)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _STEPS.get(Qt.Key(event.key()))
        if step is not None:
            self.stepped.emit(*step)
        elif event.key() == Qt.Key.Key_Space:
            self.click()
        else:
            event.ignore()

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = inks()
        self._paint_frame(painter, colours)
        self._paint_key(painter, colours)
        self._paint_words(painter, colours)
        if self._right() == PICTURE:
            self._paint_picture(painter, colours)
        painter.end()

    def _paint_frame(self, painter: QPainter, colours: Inks) -> None:
        strong = self.isChecked() or self.underMouse() or self.hasFocus()
        painter.setPen(QPen(colours.accent if self.isChecked() else colours.edge(strong), 2))
        painter.setBrush(colours.card)
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(2, 2, -2, -2), 6, 6)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(colours.accent, 1.5, Qt.PenStyle.DotLine))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(6, 6, -6, -6), 4, 4)

    def _paint_key(self, painter: QPainter, colours: Inks) -> None:
        if not self.option.key:
            return
        painter.setFont(sized(self, 16, bold=True))
        painter.setPen(colours.accent if self.isChecked() else colours.muted)
        place = QRectF(12, 0, 20, self.height())
        painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, self.option.key)

    def _paint_words(self, painter: QPainter, colours: Inks) -> None:
        room = QRectF(self.rect()).adjusted(self._left(), 6, -self._right(), -6)
        lines = [(self.option.title, sized(self, 16, bold=True), colours.ink)]
        if self.option.detail and self.height() >= 52:
            lines.append((self.option.detail, sized(self, 13), colours.muted))
        high = sum(QFontMetrics(font).height() for _, font, _ in lines)
        y = room.center().y() - high / 2
        for text, font, colour in lines:
            metrics = QFontMetrics(font)
            painter.setFont(font)
            painter.setPen(colour)
            line = metrics.elidedText(text, Qt.TextElideMode.ElideRight, int(room.width()))
            painter.drawText(QRectF(room.x(), y, room.width(), metrics.height()), 0, line)
            y += metrics.height()

    def _paint_picture(self, painter: QPainter, colours: Inks) -> None:
        box = QRectF(self.width() - self._right() + 4, 10, self._right() - 16, self.height() - 20)
        shown = self.option.picture or Picture()
        picture, place = fitted(shown, box, lettered=self.option.lettered)
        paint(painter, picture, place, colours.ink, colours.accent, colours.muted)

    def _title_width(self) -> int:
        title = QFontMetrics(sized(self, 16, bold=True)).horizontalAdvance(self.option.title)
        detail = QFontMetrics(sized(self, 13)).horizontalAdvance(self.option.detail)
        return max(title, detail) + 2

    def _left(self) -> int:
        return 34 if self.option.key else 14

    def _right(self) -> int:
        """Room at the right: for the picture, where it leaves the words theirs."""
        wanted = self._left() + self._title_width() + PICTURE
        fits = self.width() >= wanted or not self.isVisible()
        return PICTURE if self.option.picture and fits else 12


def fitted(picture: Picture, box: QRectF, *, lettered: bool = False) -> tuple[Picture, QRectF]:
    """A picture, with or without its lettering, and where to paint it so that it fills `box`."""
    items = tuple(item for item in picture.items if lettered or not isinstance(item, Text))
    if not items:
        return Picture(), box
    bounds = [item.bounds for item in items]
    left, top = min(b[0] for b in bounds), min(b[1] for b in bounds)
    wide, high = max(b[2] for b in bounds) - left, max(b[3] for b in bounds) - top
    scale = min(box.width() / max(wide, 0.01), box.height() / max(high, 0.01), 90)
    x = box.center().x() - (left + wide / 2) * scale
    y = box.center().y() - (top + high / 2) * scale
    return Picture(items, picture.aspect), QRectF(x, y, picture.aspect * scale, scale)
