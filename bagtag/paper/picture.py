"""A which-way picture on paper."""

from typing import Any

from bagtag.domain.shapes import Anchor, Arrow, Box, Circle, Ink, Item, Line, Picture, Text
from bagtag.paper import fonts

_COLOURS = {
    Ink.INK: (0.13, 0.14, 0.16),
    Ink.ACCENT: (0.69, 0.21, 0.11),
    Ink.FAINT: (0.55, 0.53, 0.48),
    Ink.PAPER: (1.0, 1.0, 1.0),
}
_BLACK = dict.fromkeys(_COLOURS, (0.0, 0.0, 0.0)) | {Ink.PAPER: (1.0, 1.0, 1.0)}
_THINNER = 0.6
"""A thermal head has no grey: what is faint is black there, and drawn thinner."""


def paint(  # noqa: PLR0917  (where and how large, in the order of every canvas)
    canvas: Any,
    picture: Picture,
    x: float,
    y: float,
    width: float,
    height: float,
    *,
    black: bool = True,
) -> None:
    """Draw the picture on a reportlab canvas, as large as fits and in the middle of the box whose
    bottom left corner is (x, y), all in points; pure black for label printers, else in colour."""
    if not picture.items:
        return
    fonts.register()
    scale = min(width / picture.aspect, height)
    canvas.saveState()
    canvas.translate(x + (width - picture.aspect * scale) / 2, y + (height + scale) / 2)
    pen = _Pen(canvas, scale, black)
    for item in picture.items:
        pen.draw(item)
    canvas.restoreState()


class _Pen:
    """Turns the display list's units, y downwards, into points, y upwards from the top left."""

    def __init__(self, canvas: Any, scale: float, black: bool) -> None:
        self._canvas = canvas
        self._scale = scale
        self._black = black
        self._colours = _BLACK if black else _COLOURS
        canvas.setLineCap(1)
        canvas.setLineJoin(1)

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
        s = self._scale
        self._stroke(line.ink, line.weight)
        self._canvas.line(line.x1 * s, -line.y1 * s, line.x2 * s, -line.y2 * s)

    def _arrow(self, arrow: Arrow) -> None:
        s = self._scale
        tip, left, right, base = arrow.outline
        self._stroke(arrow.ink, arrow.weight)
        self._fill(arrow.ink)
        self._canvas.setLineCap(0)
        self._canvas.line(arrow.x1 * s, -arrow.y1 * s, base[0] * s, -base[1] * s)
        self._canvas.setLineCap(1)
        path = self._canvas.beginPath()
        path.moveTo(tip[0] * s, -tip[1] * s)
        path.lineTo(left[0] * s, -left[1] * s)
        path.lineTo(right[0] * s, -right[1] * s)
        path.close()
        self._canvas.drawPath(path, stroke=0, fill=1)

    def _circle(self, circle: Circle) -> None:
        s = self._scale
        self._outline(circle.ink, circle.weight, circle.filled)
        self._canvas.circle(
            circle.x * s,
            -circle.y * s,
            circle.radius * s,
            stroke=int(circle.weight > 0),
            fill=int(circle.filled),
        )

    def _box(self, box: Box) -> None:
        s = self._scale
        self._outline(box.ink, box.weight, box.filled)
        self._canvas.roundRect(
            box.x * s,
            -(box.y + box.height) * s,
            box.width * s,
            box.height * s,
            box.radius * s,
            stroke=int(box.weight > 0),
            fill=int(box.filled),
        )

    def _text(self, text: Text) -> None:
        font = fonts.BOLD if text.bold else fonts.REGULAR
        size = text.size * self._scale
        words = fonts.tidy(text.text)
        share = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[text.anchor]
        left = text.x * self._scale - fonts.width(words, font, size) * share
        self._fill(text.ink)
        self._canvas.setFont(font, size)
        self._canvas.drawString(left, -text.y * self._scale, words)

    def _outline(self, ink: Ink, weight: float, filled: bool) -> None:
        if weight:
            self._stroke(ink, weight)
        if filled:
            self._fill(ink)

    def _stroke(self, ink: Ink, weight: float) -> None:
        thinner = _THINNER if self._black and ink is Ink.FAINT else 1.0
        self._canvas.setLineWidth(weight * thinner * self._scale)
        self._canvas.setStrokeColorRGB(*self._colours[ink])

    def _fill(self, ink: Ink) -> None:
        self._canvas.setFillColorRGB(*self._colours[ink])
