"""A small sign for each kind of task, and the tick and the cross: even strokes on a square."""

from collections.abc import Iterator
from itertools import pairwise
from math import cos, pi, sin

from PySide6.QtCore import QEvent, QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QWidget

from bagtag.domain.fitting import TaskKind
from bagtag.domain.shapes import Arrow, Box, Circle, Ink, Item, Line, Picture
from bagtag.ui import theme
from bagtag.ui.picture import paint

STROKE = 0.06
"""The weight of every stroke, in units of the sign's height."""
HEAD = 0.2
Spot = tuple[float, float]


def _path(*spots: Spot, ink: Ink = Ink.INK) -> Iterator[Item]:
    for (x1, y1), (x2, y2) in pairwise(spots):
        yield Line(x1, y1, x2, y2, STROKE, ink)


def _arc(x: float, y: float, radius: float, start: float, end: float) -> Iterator[Item]:
    """Part of a circle, from one angle to another in degrees, clockwise from 3 o'clock."""
    steps = 24
    turns = [(start + (end - start) * n / steps) * pi / 180 for n in range(steps + 1)]
    return _path(*((x + radius * cos(turn), y + radius * sin(turn)) for turn in turns))


def _drop(x: float, top: float, radius: float) -> Iterator[Item]:
    """A drop of oil: a point above most of a circle."""
    y = top + 2.1 * radius
    yield from _arc(x, y, radius, -25, 205)
    left, right = (x - radius * cos(pi * 25 / 180), x + radius * cos(pi * 25 / 180))
    edge = y - radius * sin(pi * 25 / 180)
    yield from _path((left, edge), (x, top), (right, edge))


def _clean() -> Iterator[Item]:
    """A brush on a clean surface."""
    yield from _path((0.74, 0.12), (0.5, 0.42))
    yield from _path((0.34, 0.36), (0.62, 0.58), (0.5, 0.76), (0.2, 0.54), (0.34, 0.36))
    yield from _path((0.42, 0.48), (0.3, 0.64))
    yield from _path((0.14, 0.86), (0.86, 0.86), ink=Ink.ACCENT)


def _oil() -> Iterator[Item]:
    return _drop(0.5, 0.14, 0.24)


def _prelube() -> Iterator[Item]:
    """A drop over the shell of a bearing."""
    yield from _drop(0.5, 0.08, 0.13)
    yield from _arc(0.5, 0.42, 0.44, 15, 165)
    yield from _arc(0.5, 0.42, 0.3, 15, 165)


def _plastigauge() -> Iterator[Item]:
    """A thread squeezed between two faces, and the marks it is read by."""
    yield Box(0.12, 0.14, 0.76, 0.2, STROKE, 0.03)
    yield Box(0.12, 0.5, 0.76, 0.2, STROKE, 0.03)
    yield Box(0.32, 0.36, 0.36, 0.12, 0, 0.04, filled=True, ink=Ink.ACCENT)
    for x in (0.2, 0.35, 0.5, 0.65, 0.8):
        yield from _path((x, 0.8), (x, 0.88))


def _end_float() -> Iterator[Item]:
    """A shaft between two shoulders, and its play."""
    yield from _path((0.12, 0.14), (0.12, 0.66))
    yield from _path((0.88, 0.14), (0.88, 0.66))
    yield Box(0.26, 0.24, 0.48, 0.3, STROKE, 0.03)
    yield Arrow(0.5, 0.82, 0.1, 0.82, STROKE, HEAD)
    yield Arrow(0.5, 0.82, 0.9, 0.82, STROKE, HEAD)


def _fill_oil() -> Iterator[Item]:
    """A drop over a sump, and the level in it."""
    yield from _drop(0.5, 0.06, 0.12)
    yield from _path((0.14, 0.44), (0.14, 0.88), (0.86, 0.88), (0.86, 0.44))
    yield from _path((0.26, 0.64), (0.74, 0.64), ink=Ink.ACCENT)


def _inspect() -> Iterator[Item]:
    """A glass held over something small."""
    yield Circle(0.42, 0.42, 0.28, STROKE)
    yield from _path((0.63, 0.63), (0.88, 0.88))
    yield Circle(0.42, 0.42, 0.06, filled=True, ink=Ink.ACCENT)


def _hold_point() -> Iterator[Item]:
    """A pair of eyes, and two bars that stop."""
    yield from _eye(0.27, 0.36)
    yield from _eye(0.73, 0.36)
    yield from _path((0.14, 0.72), (0.86, 0.72), ink=Ink.ACCENT)
    yield from _path((0.14, 0.88), (0.86, 0.88), ink=Ink.ACCENT)


def _eye(x: float, y: float) -> Iterator[Item]:
    yield from _arc(x, y + 0.11, 0.22, 210, 330)
    yield from _arc(x, y - 0.11, 0.22, 30, 150)
    yield Circle(x, y, 0.06, filled=True)


def _bench_build() -> Iterator[Item]:
    """Pieces put together on a bench."""
    yield Box(0.2, 0.38, 0.26, 0.24, STROKE, 0.02)
    yield Box(0.54, 0.38, 0.26, 0.24, STROKE, 0.02)
    yield Box(0.37, 0.12, 0.26, 0.24, STROKE, 0.02, ink=Ink.ACCENT)
    yield from _path((0.08, 0.68), (0.92, 0.68))
    yield from _path((0.2, 0.7), (0.2, 0.9))
    yield from _path((0.8, 0.7), (0.8, 0.9))


def _tightening() -> Iterator[Item]:
    """A hexagon turned clockwise."""
    around = [(0.5 + 0.22 * cos(n * pi / 3), 0.52 + 0.22 * sin(n * pi / 3)) for n in range(7)]
    yield from _path(*around)
    yield from (
        Line(line.x1, line.y1, line.x2, line.y2, STROKE, Ink.ACCENT)
        for line in _arc(0.5, 0.52, 0.4, 150, 318)
        if isinstance(line, Line)
    )
    yield Arrow(0.76, 0.2, 0.9, 0.42, STROKE, HEAD)


def _other() -> Iterator[Item]:
    """A line on a list."""
    yield Box(0.14, 0.14, 0.72, 0.72, STROKE, 0.08)
    yield from _path((0.3, 0.4), (0.7, 0.4))
    yield from _path((0.3, 0.6), (0.56, 0.6))


_DRAWN = {
    TaskKind.CLEAN: _clean,
    TaskKind.OIL: _oil,
    TaskKind.PRELUBE: _prelube,
    TaskKind.PLASTIGAUGE: _plastigauge,
    TaskKind.END_FLOAT: _end_float,
    TaskKind.FILL_OIL: _fill_oil,
    TaskKind.INSPECT: _inspect,
    TaskKind.HOLD_POINT: _hold_point,
    TaskKind.BENCH_BUILD: _bench_build,
    TaskKind.TIGHTENING: _tightening,
    TaskKind.OTHER: _other,
}


def sign_of(kind: TaskKind) -> Picture:
    """The sign of a kind of task, as wide as it is high."""
    return Picture(tuple(_DRAWN[kind]()))


TICK = Picture(tuple(_path((0.12, 0.54), (0.4, 0.8), (0.88, 0.2))))
CROSS = Picture(
    (
        *_path((0.2, 0.2), (0.8, 0.8), ink=Ink.ACCENT),
        *_path((0.8, 0.2), (0.2, 0.8), ink=Ink.ACCENT),
    )
)


_BOX = Box(0.06, 0.06, 0.88, 0.88, STROKE, 0.1)
EMPTY_BOX = Picture((_BOX,))
TICKED_BOX = Picture((_BOX, *_path((0.26, 0.52), (0.44, 0.7), (0.76, 0.3))))


class SignBox(QFrame):
    """A sign on a square of card, as large as it is told."""

    def __init__(self, side: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.picture = Picture()
        self.setProperty("surface", "card")
        self.set_side(side)

    def set_side(self, side: int) -> None:
        self.setFixedSize(side, side)

    def show_kind(self, kind: TaskKind) -> None:
        self.picture = sign_of(kind)
        self.setAccessibleName(kind.value)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        inset = self.width() * 0.14
        room = QRectF(self.rect()).adjusted(inset, inset, -inset, -inset)
        painter = QPainter(self)
        paint_sign(painter, self.picture, room)
        painter.end()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.update()

    def sizeHint(self) -> QSize:
        return self.minimumSize()


def paint_sign(painter: QPainter, sign: Picture, room: QRectF, *, quiet: bool = False) -> None:
    """Paint a sign in the colours in force; a quiet one all in muted ink."""
    colours = theme.current()
    ink = colours.muted if quiet else colours.ink
    accent = colours.muted if quiet else colours.accent
    paint(painter, sign, room, ink, accent, colours.line)
