"""A which-way picture on screen."""

from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.shapes import Anchor, Arrow, Box, Circle, Ink, Item, Line, Picture, Text

_LIGHT, _DARK = QColor(255, 255, 255), QColor(26, 28, 32)
_SHARE = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}


def paint(  # noqa: PLR0917  (what, where and in which inks, as a painter is told)
    painter: QPainter,
    picture: Picture,
    rect: QRectF,
    ink: QColor,
    accent: QColor,
    faint: QColor,
    family: str = "Roboto",
) -> None:
    """Draw the picture as large as fits into `rect`, in its middle.

    What is reversed out of solid ink is drawn light on dark ink and dark on light ink.
    """
    if not picture.items:
        return
    scale = min(rect.width() / picture.aspect, rect.height())
    left = rect.x() + (rect.width() - picture.aspect * scale) / 2
    top = rect.y() + (rect.height() - scale) / 2
    paper = _LIGHT if ink.lightnessF() < 0.5 else _DARK
    colours = {Ink.INK: ink, Ink.ACCENT: accent, Ink.FAINT: faint, Ink.PAPER: paper}
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setRenderHint(QPainter.RenderHint.TextAntialiasing)
    painter.translate(left, top)
    pen = _Pen(painter, scale, colours, family)
    for item in picture.items:
        pen.draw(item)
    painter.restore()


class _Pen:
    """Turns the display list's units into pixels from the picture's top left."""

    def __init__(
        self, painter: QPainter, scale: float, colours: dict[Ink, QColor], family: str
    ) -> None:
        self._painter = painter
        self._scale = scale
        self._colours = colours
        self._family = family

    def draw(self, item: Item) -> None:
        match item:
            case Line():
                self._line(item)
            case Arrow():
                self._arrow(item)
            case Circle():
                self._circle(item)
            case Box():
                self._box(item)
            case Text():
                self._text(item)

    def _line(self, line: Line) -> None:
        self._painter.setPen(self._stroke(line.ink, line.weight, Qt.PenCapStyle.RoundCap))
        self._painter.drawLine(self._at(line.x1, line.y1), self._at(line.x2, line.y2))

    def _arrow(self, arrow: Arrow) -> None:
        tip, left, right, base = arrow.outline
        self._painter.setPen(self._stroke(arrow.ink, arrow.weight, Qt.PenCapStyle.FlatCap))
        self._painter.drawLine(self._at(arrow.x1, arrow.y1), self._at(*base))
        self._painter.setPen(Qt.PenStyle.NoPen)
        self._painter.setBrush(self._colours[arrow.ink])
        self._painter.drawPolygon(QPolygonF([self._at(*tip), self._at(*left), self._at(*right)]))

    def _circle(self, circle: Circle) -> None:
        self._outline(circle.ink, circle.weight, circle.filled)
        radius = circle.radius * self._scale
        self._painter.drawEllipse(self._at(circle.x, circle.y), radius, radius)

    def _box(self, box: Box) -> None:
        self._outline(box.ink, box.weight, box.filled)
        s = self._scale
        rect = QRectF(box.x * s, box.y * s, box.width * s, box.height * s)
        self._painter.drawRoundedRect(rect, box.radius * s, box.radius * s)

    def _text(self, text: Text) -> None:
        font, metrics = _font(self._family, int(text.size * self._scale), text.bold)
        left = text.x * self._scale - metrics.horizontalAdvance(text.text) * _SHARE[text.anchor]
        self._painter.setFont(font)
        self._painter.setPen(self._colours[text.ink])
        self._painter.drawText(QPointF(left, text.y * self._scale), text.text)

    def _outline(self, ink: Ink, weight: float, filled: bool) -> None:
        stroke = self._stroke(ink, weight, Qt.PenCapStyle.RoundCap)
        self._painter.setPen(stroke if weight else Qt.PenStyle.NoPen)
        self._painter.setBrush(self._colours[ink] if filled else Qt.BrushStyle.NoBrush)

    def _stroke(self, ink: Ink, weight: float, cap: Qt.PenCapStyle) -> QPen:
        width = weight * self._scale
        return QPen(self._colours[ink], width, Qt.PenStyle.SolidLine, cap)

    def _at(self, x: float, y: float) -> QPointF:
        return QPointF(x * self._scale, y * self._scale)


@lru_cache(maxsize=128)
def _font(family: str, pixels: int, bold: bool) -> tuple[QFont, QFontMetricsF]:
    """Whole pixels, rounded down: crisp, and never wider than the layout took it to be."""
    font = QFont(family)
    font.setPixelSize(max(pixels, 1))
    font.setBold(bold)
    return font, QFontMetricsF(font)


class PictureWidget(QWidget):
    """Shows one picture as large as its place allows; its sentence is its accessible text."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._picture = Picture()
        palette = self.palette()
        self._ink = palette.windowText().color()
        self._accent, self._faint = palette.link().color(), palette.mid().color()
        self.setAccessibleName("Which way")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    @property
    def picture(self) -> Picture:
        return self._picture

    def set_picture(self, picture: Picture) -> None:
        self._picture = picture
        self.update()

    def set_inks(self, ink: QColor, accent: QColor, faint: QColor) -> None:
        self._ink, self._accent, self._faint = ink, accent, faint
        self.update()

    def set_sentence(self, text: str) -> None:
        """What a screen reader says for the picture."""
        self.setAccessibleDescription(text)

    def sizeHint(self) -> QSize:
        return QSize(round(220 * self._picture.aspect), 220)

    def minimumSizeHint(self) -> QSize:
        return QSize(round(60 * self._picture.aspect), 60)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        family = self.font().family()
        paint(
            painter,
            self._picture,
            QRectF(self.rect()),
            self._ink,
            self._accent,
            self._faint,
            family,
        )
        painter.end()
