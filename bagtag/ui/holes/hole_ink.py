"""A hole as it is drawn on its map: its shape, its number and letter, its turn.

The shape says which line of hardware goes in; a ring and a heavier line say that it is chosen.
Each is drawn once and kept as a little picture, so that a map of hundreds moves smoothly.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, hypot, pi
from typing import NamedTuple

from PySide6.QtCore import QPoint, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPixmap

from bagtag.domain.holes import Hole
from bagtag.ui import fonts, theme
from bagtag.ui.holes.hole_glyph import paint_glyph
from bagtag.ui.holes.hole_room import WAYS, beside

MOST, LEAST = 14.0, 5.0
"""The radius of a hole on the screen, in pixels."""
NUMBERED = 6.0
"""Below this radius numbers would lie on each other, and are left out."""
MIDDLE = QPointF(0, 0)
AIR, RING = 2.0, 5.0
"""From a hole to its plate, and so much more past a ring, in pixels."""


@dataclass(frozen=True, slots=True)
class Look:
    """How a hole stands out."""

    is_chosen: bool = False
    is_ringed: bool = False


class Stamp(NamedTuple):
    """A little picture, and where the middle of the hole is in it."""

    pixmap: QPixmap
    middle: QPoint

    def paint(self, painter: QPainter, spot: QPointF) -> None:
        """Put it on the nearest whole pixel: there it costs least, and stays sharp."""
        painter.drawPixmap(spot.toPoint() - self.middle, self.pixmap)


class Stamps:
    """The little pictures of the holes, each drawn when it is first needed."""

    def __init__(self, ratio: float) -> None:
        self._ratio = ratio
        self._known: dict[tuple[object, ...], Stamp] = {}
        self._sizes: dict[tuple[object, ...], tuple[float, float, float]] = {}

    def hole(self, hole: Hole, radius: float, look: Look, way: int | None) -> Stamp:
        """A hole with its number on the side that `way` says; None leaves the number out."""
        key = (hole.number, hole.mark, radius, look, way)
        if key not in self._known:
            self._known[key] = self._drawn_hole(hole, radius, look, way)
        return self._known[key]

    def turn(self, turn: int, radius: float, way: int) -> Stamp:
        """The turn of a hole, beside it."""
        key = ("turn", turn, radius, way)
        if key not in self._known:
            self._known[key] = self._drawn_turn(turn, radius, way)
        return self._known[key]

    def plate(self, hole: Hole, radius: float, look: Look) -> tuple[float, float, float]:
        """How wide and high the number of a hole is, and how far out it stands."""
        key = ("plate", len(str(hole.number)), hole.mark, radius, look)
        if key not in self._sizes:
            size = _plate(hole, radius, look).size()
            self._sizes[key] = (size.width(), size.height(), _far(radius, look))
        return self._sizes[key]

    def turn_plate(self, turn: int, radius: float) -> tuple[float, float, float]:
        """The same of a turn."""
        key = ("turn", len(str(turn)), radius)
        if key not in self._sizes:
            size = _turn_size(turn, radius)
            self._sizes[key] = (size.width(), size.height(), radius + AIR)
        return self._sizes[key]

    def _drawn_hole(self, hole: Hole, radius: float, look: Look, way: int | None) -> Stamp:
        colours = theme.current()
        said = _plate(hole, radius, look)
        has_plate = way is not None
        is_marked = look.is_chosen or look.is_ringed
        around = max(1.3 * radius + 4, radius + 10 if is_marked else 0)
        place = _beside(_far(radius, look), said.size() if has_plate else QSizeF(0, 0), way or 0)
        stamp, painter = self._blank(QRectF(-around, -around, 2 * around, 2 * around), place)
        _paint_ring(painter, radius, look, colours)
        paint_glyph(painter, hole.mark, MIDDLE, radius, colours, is_heavy=look.is_chosen)
        if has_plate:
            said.paint(painter, place, colours, is_strong=look.is_chosen)
        painter.end()
        return stamp

    def _drawn_turn(self, turn: int, radius: float, way: int) -> Stamp:
        colours = theme.current()
        font = fonts.font(_turn_letters(radius), bold=True)
        place = _beside(radius + AIR, _turn_size(turn, radius), way)
        high = place.height()
        stamp, painter = self._blank(place, place)
        painter.setPen(QPen(colours.card, 1.5))
        painter.setBrush(colours.accent)
        painter.drawRoundedRect(place, high / 2, high / 2)
        painter.setPen(colours.on_accent)
        painter.setFont(font)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, str(turn))
        painter.end()
        return stamp

    def _blank(self, around: QRectF, plate: QRectF) -> tuple[Stamp, QPainter]:
        """A picture with room for both, no larger: large ones are what costs time. It is painted
        on as from the middle of the hole."""
        bounds = around.united(plate.adjusted(-2, -2, 2, 2)).toAlignedRect()
        pixmap = QPixmap((QSizeF(bounds.size()) * self._ratio).toSize())
        pixmap.setDevicePixelRatio(self._ratio)
        pixmap.fill(QColor(0, 0, 0, 0))
        painter = QPainter(pixmap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(-bounds.topLeft())
        return Stamp(pixmap, -bounds.topLeft()), painter


class _Plate:
    """The number of a hole and the letter of what goes into it, on a little plate."""

    def __init__(self, number: str, letter: str, pixels: int) -> None:
        self._texts = (number, letter)
        self._fonts: tuple[QFont, QFont] = (fonts.font(pixels, bold=True), fonts.font(pixels))
        wide = [
            QFontMetricsF(font).horizontalAdvance(text)
            for font, text in zip(self._fonts, self._texts, strict=True)
        ]
        self._first = wide[0]
        self._wide = sum(wide) + 8
        self._high = QFontMetricsF(self._fonts[0]).height()

    def size(self) -> QSizeF:
        return QSizeF(self._wide, self._high)

    def paint(
        self, painter: QPainter, place: QRectF, colours: theme.Colours, *, is_strong: bool
    ) -> None:
        painter.setPen(QPen(colours.accent if is_strong else colours.muted, 1.5 + is_strong))
        painter.setBrush(colours.card)
        painter.drawRoundedRect(place, 4, 4)
        painter.setPen(colours.ink)
        left = place.adjusted(4, 0, 0, 0)
        for font, text in zip(self._fonts, self._texts, strict=True):
            painter.setFont(font)
            painter.drawText(left, Qt.AlignmentFlag.AlignVCenter, text)
            left = left.adjusted(self._first, 0, 0, 0)


def _paint_ring(painter: QPainter, radius: float, look: Look, colours: theme.Colours) -> None:
    """A ring round a hole of the chosen line, two round the chosen hole."""
    rings = (radius + 4, radius + 7) if look.is_chosen else (radius + 5.5,)
    if not (look.is_chosen or look.is_ringed):
        return
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for ground, width in ((colours.card, 5.0), (colours.accent, 2.0)):
        painter.setPen(QPen(ground, width))
        for ring in rings:
            painter.drawEllipse(MIDDLE, ring, ring)


def way_from(x: float, y: float) -> int:
    """The side that lies away from the middle of the holes, in sixteenths of a turn from the right
    clockwise; up and to the right for a hole in the middle itself."""
    if hypot(x, y) < 1e-6:
        return WAYS - WAYS // 8
    return round(atan2(y, x) / (2 * pi) * WAYS) % WAYS


def opposite(way: int) -> int:
    return (way + WAYS // 2) % WAYS


def _plate(hole: Hole, radius: float, look: Look) -> _Plate:
    has_letter = hole.mark and (radius >= MOST or look.is_chosen)
    return _Plate(f"{hole.number}", f" {hole.mark}" if has_letter else "", _size(radius))


def _far(radius: float, look: Look) -> float:
    return radius + AIR + RING * (look.is_chosen or look.is_ringed)


def _turn_size(turn: int, radius: float) -> QSizeF:
    metrics = QFontMetricsF(fonts.font(_turn_letters(radius), bold=True))
    high = metrics.height() + 2
    return QSizeF(max(metrics.horizontalAdvance(str(turn)) + 10, high), high)


def _beside(far: float, room: QSizeF, way: int) -> QRectF:
    """A plate beside a hole, so far from its middle that it does not touch it."""
    spot = QPointF(*beside(far, room.width(), room.height(), way))
    return QRectF(spot - QPointF(room.width() / 2, room.height() / 2), room)


def _size(radius: float) -> int:
    """The lettering at a hole of this radius, in pixels."""
    return theme.BODY if radius >= 12 else theme.SMALL


def _turn_letters(radius: float) -> int:
    """Smaller as soon as holes are near each other: turns stand between their rows."""
    return theme.BODY if radius >= MOST else theme.SMALL
