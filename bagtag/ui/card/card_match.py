"""Twin tags: whether the two that were scanned belong together, in letters seen across a room."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag.domain.phrases import capital
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import label, tight
from bagtag.ui.forms.inks import inks_of
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.services.tags import Match


class MatchSign(QWidget):
    """A tick in a ring, or a cross in a square: the shape says it as well as the word."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.matches = False
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        return QSize(240, 240)

    def minimumSizeHint(self) -> QSize:
        return QSize(90, 90)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        side = min(self.width(), self.height(), 420) - 8
        box = QRectF(0, 0, side, side)
        box.moveCenter(QRectF(self.rect()).center())
        ink, accent, _faint = inks_of(self)
        painter.setPen(_pen(ink if self.matches else accent, side * 0.06))
        if self.matches:
            self._tick(painter, box)
        else:
            self._cross(painter, box)
        painter.end()

    def _tick(self, painter: QPainter, box: QRectF) -> None:
        inset = box.width() * 0.04
        painter.drawEllipse(box.adjusted(inset, inset, -inset, -inset))
        spots = ((0.28, 0.52), (0.44, 0.68), (0.74, 0.34))
        painter.drawPolyline(QPolygonF([_spot(box, x, y) for x, y in spots]))

    def _cross(self, painter: QPainter, box: QRectF) -> None:
        inset = box.width() * 0.04
        painter.drawRect(box.adjusted(inset, inset, -inset, -inset))
        painter.drawLine(_spot(box, 0.28, 0.28), _spot(box, 0.72, 0.72))
        painter.drawLine(_spot(box, 0.72, 0.28), _spot(box, 0.28, 0.72))


class CardMatch(QWidget):
    """Match or no match, over the whole card, until it is put away."""

    closed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.sign = MatchSign(self)
        self.word = label("", self, scale="big")
        self.sentence = label("", self, scale="head")
        self.back = Act("Back to the card", "Esc", self)
        self.back.clicked.connect(self.closed)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addWidget(self.sign, 1)
        for line in (self.word, self.sentence):
            line.setAlignment(Qt.AlignmentFlag.AlignHCenter)
            column.addWidget(line)
        row = QHBoxLayout()
        row.addStretch(1)
        row.addWidget(self.back)
        row.addStretch(1)
        column.addLayout(row)

    def show_match(self, match: "Match") -> None:
        self.sign.matches = match.matches
        self.sign.update()
        self.word.setText("Match" if match.matches else "No match")
        mark(self.word, tone="ink" if match.matches else "accent")
        said = match.sentence.removeprefix("Match: ").removeprefix("No match: ")
        self.sentence.setText(capital(said))
        self.setAccessibleDescription(match.sentence)


def _spot(box: QRectF, x: float, y: float) -> QPointF:
    return QPointF(box.x() + box.width() * x, box.y() + box.height() * y)


def _pen(colour: QColor, width: float) -> QPen:
    pen = QPen(colour, width)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return pen
