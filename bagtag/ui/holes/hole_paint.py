"""Painting a hole map: the ground, the holes, their turns, and what is being done to it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from math import hypot, inf
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF

from bagtag.domain.holes import Hole, HoleMap, Point
from bagtag.ui import fonts, theme
from bagtag.ui.holes.hole_ground import paint_outline, paint_photo
from bagtag.ui.holes.hole_ink import LEAST, MOST, NUMBERED, Look, Stamps, opposite, way_from
from bagtag.ui.holes.hole_room import ABOVE, BELOW, Key, Plate, put

if TYPE_CHECKING:
    from bagtag.ui.holes.hole_sheet import HoleSheet

NUMBER, TURN = "number", "turn"
CLOSER = "Come closer with + to see every number."
PLATE = 20.0
"""The height of a turn on its plate, in pixels."""
ARROWS = 7
"""So many of the first turns are joined by arrows; more would only tangle."""


class Shown(NamedTuple):
    """What is shown beside the map itself: holes to come, turns, two holes to measure between, a
    hole under the hand with where it is, and whether the holes of the chosen line are ringed."""

    ghost: tuple[Point, ...] = ()
    turns: tuple[int, ...] = ()
    span: tuple[int, ...] = ()
    dragged: tuple[int, float, float] | None = None
    is_ringed: bool = True


class _Measured(NamedTuple):
    """What is worked out of a map once: how near its holes are, and where their numbers stand."""

    of: HoleMap | None = None
    nearest: float = inf
    ways: Mapping[int, int] = {}


class MapPainter:
    """Paints a sheet. What does not change from one picture to the next is kept."""

    def __init__(self, sheet: HoleSheet) -> None:
        self._sheet = sheet
        self._stamps: Stamps | None = None
        self._measured = _Measured()
        self._roomy: tuple[HoleMap, object, Mapping[Key, int]] | None = None

    def forget(self) -> None:
        """The colours are others."""
        self._stamps = self._roomy = None

    def nearest(self, hole_map: HoleMap) -> float:
        """How far the two nearest holes of a map are apart, in its units."""
        return self._of(hole_map).nearest

    def _of(self, hole_map: HoleMap) -> _Measured:
        if self._measured.of is not hole_map:
            self._measured = _measured(hole_map)
        return self._measured

    def paint(self, painter: QPainter) -> None:
        sheet = self._sheet
        colours = theme.current()
        painter.fillRect(sheet.rect(), colours.tape)
        self._ground(painter)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._arrows(painter, colours)
        self._span(painter, colours)
        self._ghost(painter, colours)
        self._holes(painter)
        self._turns(painter)
        self._closer(painter, colours)
        self._cross(painter, colours)
        self._frame(painter, colours)

    def _ground(self, painter: QPainter) -> None:
        sheet, hole_map = self._sheet, self._sheet.draft.map
        if not hole_map.photo:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            paint_outline(painter, hole_map, sheet.view)
        elif sheet.images:
            far = sheet.view.on_screen(hole_map.width, hole_map.height)
            place = QRectF(sheet.view.on_screen(0, 0), far)
            paint_photo(painter, sheet.images, place, QRectF(sheet.rect()))

    def _looks(self) -> Mapping[int, Look]:
        """How each hole stands out, by its number."""
        draft = self._sheet.draft
        ringed = draft.ringed if self._sheet.shown.is_ringed else ()
        chosen = draft.chosen
        return {n.number: Look(n.number in chosen, n.number in ringed) for n in draft.map.holes}

    def _holes(self, painter: QPainter) -> None:
        radius, stamps, ways = self._sheet.radius, self._stamp(), self._ways()
        looks = self._looks()
        last = []
        for hole, spot in self._placed():
            look = looks[hole.number]
            if look.is_chosen:
                last.append((hole, spot, look))
                continue
            stamps.hole(hole, radius, look, ways.get((NUMBER, hole.number))).paint(painter, spot)
        sides = self._of(self._sheet.draft.map).ways
        for hole, spot, look in last:
            way = ways.get((NUMBER, hole.number), sides[hole.number])
            stamps.hole(hole, max(radius, 9.0), look, way).paint(painter, spot)

    def _ways(self) -> Mapping[Key, int]:
        """At which side each number and each turn has room; those without are left out."""
        sheet, draft = self._sheet, self._sheet.draft
        ringed = draft.ringed if sheet.shown.is_ringed else frozenset()
        key = (sheet.view.scale, sheet.shown.turns, tuple(draft.chosen), ringed)
        if self._roomy is None or self._roomy[0] is not draft.map or self._roomy[1] != key:
            self._roomy = (draft.map, key, self._found_ways())
        return self._roomy[2]

    def _found_ways(self) -> Mapping[Key, int]:
        scale, holes = self._sheet.view.scale, self._sheet.draft.map.holes
        middles = [(hole.x * scale, hole.y * scale) for hole in holes]
        plates = [*self._turn_plates(scale), *self._number_plates(scale)]
        return put(plates, middles, self._sheet.radius + 1)

    def _number_plates(self, scale: float) -> Iterator[Plate]:
        """The chosen holes first: theirs must not be left out."""
        draft, radius, stamps = self._sheet.draft, self._sheet.radius, self._stamp()
        sides = self._of(draft.map).ways
        if radius < NUMBERED:
            return
        looks = self._looks()
        for hole in sorted(draft.map.holes, key=lambda hole: hole.number not in draft.chosen):
            size = stamps.plate(hole, radius, looks[hole.number])
            middle = hole.x * scale, hole.y * scale
            yield Plate((NUMBER, hole.number), middle, *size, sides[hole.number], ABOVE)

    def _turn_plates(self, scale: float) -> Iterator[Plate]:
        draft, radius, stamps = self._sheet.draft, self._sheet.radius, self._stamp()
        sides = self._of(draft.map).ways
        known = {hole.number: hole for hole in draft.map.holes}
        for turn, number in enumerate(self._sheet.shown.turns, 1):
            hole = known.get(number)
            if hole is not None:
                size, side = stamps.turn_plate(turn, radius), opposite(sides[number])
                middle = hole.x * scale, hole.y * scale
                yield Plate((TURN, number), middle, *size, side, BELOW)

    def _placed(self) -> Iterator[tuple[Hole, QPointF]]:
        """The holes that are in sight, each with its place on the screen."""
        sheet = self._sheet
        rect = QRectF(sheet.rect()).adjusted(-60, -60, 60, 60)
        for hole in sheet.draft.map.holes:
            spot = self._spot(hole)
            if rect.contains(spot):
                yield hole, spot

    def _spot(self, hole: Hole) -> QPointF:
        dragged = self._sheet.shown.dragged
        if dragged is not None and dragged[0] == hole.number:
            return self._sheet.view.on_screen(dragged[1], dragged[2])
        return self._sheet.view.on_screen(hole.x, hole.y)

    def _turns(self, painter: QPainter) -> None:
        turns = {number: turn for turn, number in enumerate(self._sheet.shown.turns, 1)}
        if not turns:
            return
        radius, ways = self._sheet.radius, self._ways()
        for hole, spot in self._placed():
            side = ways.get((TURN, hole.number))
            if hole.number in turns and side is not None:
                self._stamp().turn(turns[hole.number], radius, side).paint(painter, spot)

    def _closer(self, painter: QPainter, colours: theme.Colours) -> None:
        """Where numbers are left out, how to see them."""
        many = len(self._sheet.draft.map.holes) + len(self._sheet.shown.turns)
        if len(self._ways()) >= many:
            return
        painter.setFont(fonts.font(theme.SMALL))
        painter.setPen(colours.ink)
        room = QRectF(self._sheet.rect()).adjusted(10, 6, -10, -6)
        painter.drawText(room, Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignLeft, CLOSER)

    def _arrows(self, painter: QPainter, colours: theme.Colours) -> None:
        """Thin arrows from each of the first turns to the next."""
        known = (self._sheet.draft.map.hole(n) for n in self._sheet.shown.turns[: ARROWS + 1])
        spots = [self._spot(hole) for hole in known if hole is not None]
        for start, end in pairwise(spots):
            _paint_arrow(painter, start, end, self._sheet.radius + 4, colours)

    def _span(self, painter: QPainter, colours: theme.Colours) -> None:
        holes = [self._sheet.draft.map.hole(number) for number in self._sheet.shown.span]
        known = [self._spot(hole) for hole in holes if hole is not None]
        if len(known) == 2:
            for colour, width in ((colours.card, 6.0), (colours.accent, 2.5)):
                painter.setPen(QPen(colour, width))
                painter.drawLine(known[0], known[1])

    def _ghost(self, painter: QPainter, colours: theme.Colours) -> None:
        radius = max(self._sheet.radius - 2, 4)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for colour, width in ((colours.card, 4.5), (colours.accent, 2.0)):
            pen = QPen(colour, width, Qt.PenStyle.SolidLine)
            if colour is colours.accent:
                pen.setDashPattern([2, 2])
            painter.setPen(pen)
            for x, y in self._sheet.shown.ghost:
                painter.drawEllipse(self._sheet.view.on_screen(x, y), radius, radius)

    def _cross(self, painter: QPainter, colours: theme.Colours) -> None:
        if self._sheet.cross is None:
            return
        spot = self._sheet.view.on_screen(*self._sheet.cross)
        for colour, width in ((colours.card, 5.0), (colours.accent, 2.0)):
            painter.setPen(QPen(colour, width))
            for across, down in ((1, 0), (-1, 0), (0, 1), (0, -1)):
                way = QPointF(across, down)
                painter.drawLine(spot + way * 5, spot + way * 26)

    def _frame(self, painter: QPainter, colours: theme.Colours) -> None:
        focus = self._sheet.hasFocus()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(colours.accent if focus else colours.line, 2 if focus else 1))
        painter.drawRoundedRect(QRectF(self._sheet.rect()).adjusted(1, 1, -1, -1), 4, 4)

    def _stamp(self) -> Stamps:
        if self._stamps is None:
            self._stamps = Stamps(self._sheet.devicePixelRatioF())
        return self._stamps


def radius_at(scale: float, nearest: float) -> float:
    """The radius of the holes on the screen: as large as leaves them apart, in whole pixels."""
    return float(round(min(max(0.32 * nearest * scale, LEAST), MOST)))


def _measured(hole_map: HoleMap) -> _Measured:
    holes = hole_map.holes
    many = len(holes) or 1
    x, y = sum(hole.x for hole in holes) / many, sum(hole.y for hole in holes) / many
    ways = {hole.number: way_from(hole.x - x, hole.y - y) for hole in holes}
    return _Measured(hole_map, _nearest(holes), ways)


def _nearest(holes: tuple[Hole, ...]) -> float:
    best = inf
    row = sorted(holes, key=lambda hole: hole.x)
    for at, first in enumerate(row):
        for second in row[at + 1 :]:
            if second.x - first.x >= best:
                break
            best = min(best, hypot(second.x - first.x, second.y - first.y))
    return best


def _paint_arrow(
    painter: QPainter, start: QPointF, end: QPointF, air: float, colours: theme.Colours
) -> None:
    """An arrow from hole to hole that touches neither, nor the turns that stand inside them."""
    far = end - start
    length = hypot(far.x(), far.y())
    air += PLATE if length > 2 * (air + PLATE) + 12 else 0
    if length < 2 * air + 12:
        return
    way = far / length
    tip, tail = end - way * air, start + way * air
    side = QPointF(-way.y(), way.x())
    back = tip - way * 10
    for colour, width in ((colours.card, 4.0), (colours.accent, 1.6)):
        painter.setPen(QPen(colour, width))
        painter.drawLine(tail, back)
    painter.setPen(QPen(colours.card, 1))
    painter.setBrush(colours.accent)
    painter.drawPolygon(QPolygonF([tip, back + side * 4.5, back - side * 4.5]))
