"""The sign of a verdict: a ring with a tick, a dash, a question mark or an exclamation mark."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.measuring.result import Verdict
from bagtag.domain.phrases import capital
from bagtag.ui.forms.inks import inks, sized

HELD = (Verdict.NEW, Verdict.GOOD)
"""Nothing speaks against the part."""
_MARKS = {Verdict.CLOSE: "?", Verdict.OUT: "!"}
_TICK = ((0.28, 0.53), (0.44, 0.69), (0.73, 0.34))


def words(verdict: Verdict) -> str:
    return capital(verdict.value)


def paint_verdict(
    painter: QPainter, widget: QWidget, rect: QRectF, verdict: Verdict | None
) -> None:
    """A ring as large as fits; without a verdict it is empty: there is still something to read."""
    colours = inks()
    loud = verdict in _MARKS
    ring = rect.adjusted(1.5, 1.5, -1.5, -1.5)
    colour = colours.accent if loud else colours.ink if verdict in HELD else colours.muted
    round_ = (Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin)
    painter.setPen(QPen(colour, max(2.0, rect.width() / 14), Qt.PenStyle.SolidLine, *round_))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(ring)
    if verdict in HELD:
        painter.drawPolyline(QPolygonF([_in(ring, x, y) for x, y in _TICK]))
    elif verdict is Verdict.UNKNOWN:
        painter.drawLine(_in(ring, 0.3, 0.5), _in(ring, 0.7, 0.5))
    elif verdict is not None:
        painter.setFont(_face(widget, rect))
        painter.drawText(ring, Qt.AlignmentFlag.AlignCenter, _MARKS[verdict])


def _face(widget: QWidget, rect: QRectF) -> QFont:
    return sized(widget, round(rect.height() * 0.66), bold=True)


def _in(ring: QRectF, x: float, y: float) -> QPointF:
    return QPointF(ring.x() + x * ring.width(), ring.y() + y * ring.height())


class VerdictSign(QWidget):
    """The sign as large as it is told."""

    def __init__(self, side: int, parent: QWidget) -> None:
        super().__init__(parent)
        self._side = side
        self.verdict: Verdict | None = None
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_verdict(self, verdict: Verdict | None) -> None:
        self.verdict = verdict
        self.setAccessibleName(words(verdict) if verdict is not None else "Still to be read")
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._side, self._side)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_verdict(painter, self, QRectF(self.rect()), self.verdict)
        painter.end()
