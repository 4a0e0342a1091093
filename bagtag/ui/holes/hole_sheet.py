"""The map itself: holes on a photo or an outline, to click, to drag, and to reach by keys."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.holes import Point
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_look import CLOSER, MapLook
from bagtag.ui.holes.hole_paint import MapPainter, Shown, radius_at

STEP, FINE = 10.0, 1.0
"""How far an arrow key moves the cross, in pixels; with Shift it is the fine one."""
STILL = 5.0
"""A press that moves less than this, in pixels, is a click."""
_ARROWS = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, -1.0),
    Qt.Key.Key_Down: (0.0, 1.0),
}
_ZOOMS = {
    Qt.Key.Key_Plus: CLOSER,
    Qt.Key.Key_Equal: CLOSER,
    Qt.Key.Key_Minus: 1 / CLOSER,
    Qt.Key.Key_Underscore: 1 / CLOSER,
}
_NEXT = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_PageUp: -1}
_DELETES = (Qt.Key.Key_Delete, Qt.Key.Key_Backspace)
NAME = "Hole map: arrows move the cross, Enter puts a hole there or chooses the one that is there"


class HoleSheet(MapLook):
    """A click puts or chooses, a drag moves a hole or the map, the wheel comes closer.

    By keys: arrows move a cross and Enter clicks there; Ctrl and arrows move the chosen holes;
    Page Up and Page Down go from hole to hole; plus and minus come closer and go away.
    """

    spot = Signal(float, float)
    """A place without a hole, in units of the map."""
    hole = Signal(int, bool)
    """A hole, and whether it is chosen beside the others."""

    def __init__(self, draft: Draft, parent: QWidget) -> None:
        super().__init__(draft, parent)
        self.shown = Shown()
        self._images: Sequence[QImage] = ()
        self._press: QPointF | None = None
        self._last = QPointF()
        self._held: int | None = None
        self._is_dragging = False
        self._painter = MapPainter(self)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(NAME)
        self.setCursor(Qt.CursorShape.CrossCursor)
        draft.changed.connect(self._drawn_anew)
        draft.pointed.connect(self._pointed)

    # What is shown

    def set_photo(self, images: Sequence[QImage]) -> None:
        """The photo at several sizes, the largest first; nothing while there is none."""
        self._images = images
        self.update()

    @property
    def images(self) -> Sequence[QImage]:
        return self._images

    def show_ghost(self, points: Sequence[Point]) -> None:
        """Holes that are not put yet."""
        self.shown = self.shown._replace(ghost=tuple(points))
        self.update()

    def show_turns(self, turns: Sequence[int]) -> None:
        """The order of tightening, by hole numbers; nothing to show none."""
        self.shown = self.shown._replace(turns=tuple(turns))
        self.update()

    def show_span(self, numbers: Sequence[int]) -> None:
        """Two holes with a line between them, whose distance is asked for."""
        self.shown = self.shown._replace(span=tuple(numbers))
        self.update()

    def show_rings(self, wanted: bool) -> None:
        """Whether the holes of the line that is chosen are ringed."""
        self.shown = self.shown._replace(is_ringed=wanted)
        self.update()

    @property
    def radius(self) -> float:
        """Of a hole on the screen, in pixels."""
        return radius_at(self.view.scale, self._painter.nearest(self.draft.map))

    def _drawn_anew(self) -> None:
        if self._is_fitted:
            self.fit()
        self.update()

    def _pointed(self) -> None:
        """What was chosen elsewhere comes into sight: a hole, or the holes of a line."""
        hole = self.draft.map.hole(self.draft.chosen[-1]) if self.draft.chosen else None
        if hole is not None:
            self.bring(self.view.on_screen(hole.x, hole.y))
        elif self.shown.is_ringed and not self._are_some_in_sight(self.draft.ringed):
            self.fit()
        self.update()

    def _are_some_in_sight(self, numbers: frozenset[int]) -> bool:
        """Whether one of these holes is on the screen, or there are none."""
        spots = [
            self.view.on_screen(hole.x, hole.y)
            for hole in self.draft.map.holes
            if hole.number in numbers
        ]
        return not spots or any(QRectF(self.rect()).contains(spot) for spot in spots)

    # By mouse

    def hole_at(self, spot: QPointF) -> int | None:
        """The hole that is nearest to a place on the screen, within a finger's reach."""
        reach = max(self.radius + 3, 11.0)
        best: tuple[float, int] | None = None
        for hole in self.draft.map.holes:
            place = self.view.on_screen(hole.x, hole.y)
            far = hypot(place.x() - spot.x(), place.y() - spot.y())
            if far <= reach and (best is None or far < best[0]):
                best = (far, hole.number)
        return best[1] if best else None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._press = self._last = event.position()
        self._is_dragging = False
        left = event.button() == Qt.MouseButton.LeftButton
        self._held = self.hole_at(event.position()) if left else None

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._press is None:
            return
        spot = event.position()
        far = spot - self._press
        self._is_dragging = self._is_dragging or hypot(far.x(), far.y()) > STILL
        if self._is_dragging and self._held is not None:
            self.shown = self.shown._replace(dragged=(self._held, *self.inside(spot)))
            self.update()
        elif self._is_dragging:
            self.pan(spot - self._last)
        self._last = spot

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._press is None:
            return
        dragged, held = self._is_dragging, self._held
        self._press, self._held, self._is_dragging = None, None, False
        self.shown = self.shown._replace(dragged=None)
        if dragged and held is not None:
            self.draft.point([held])
            self.draft.move(held, *self.inside(event.position()))
        elif not dragged and event.button() == Qt.MouseButton.LeftButton:
            self.cross = None
            self.click(event.position(), adding=_adds(event))
        self.update()

    def click(self, spot: QPointF, *, adding: bool = False) -> None:
        """As a click there: on a hole, or on a place without one."""
        number = self.hole_at(spot)
        if number is not None:
            self.hole.emit(number, adding)
            return
        x, y = self.view.on_map(spot)
        if 0 <= x <= self.draft.map.width and 0 <= y <= self.draft.map.height:
            self.spot.emit(x, y)

    def wheelEvent(self, event: QWheelEvent) -> None:
        turn = event.angleDelta().y()
        if turn:
            self.zoom(CLOSER ** (turn / 120), event.position())
        event.accept()

    # By keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in _ARROWS:
            self._arrow(_ARROWS[key], event.modifiers())
        elif key in _ZOOMS:
            self.zoom(_ZOOMS[key])
        elif key in _NEXT:
            self.cross = None  # Enter means the hole that is gone to, not where the cross was left
            self.draft.point_next(_NEXT[key])
        elif key in _DELETES and self.draft.chosen:
            self.draft.take_out()
        else:
            event.ignore()

    def _arrow(self, way: tuple[float, float], held: Qt.KeyboardModifier) -> None:
        far = FINE if held & Qt.KeyboardModifier.ShiftModifier else STEP
        across, down = way[0] * far, way[1] * far
        if held & Qt.KeyboardModifier.ControlModifier:
            self.draft.nudge(across / self.view.scale, down / self.view.scale)
            return
        start = self.view.on_screen(*self.cross) if self.cross else self.spot_in_hand()
        self.cross = self.inside(start + QPointF(across, down))
        self.bring(self.view.on_screen(*self.cross))
        self.update()

    def press_cross(self, *, adding: bool = False) -> None:
        """As a click at the cross, which stands in the middle until it is moved."""
        spot = self.spot_in_hand()
        self.cross = self.inside(spot)
        self.click(self.view.on_screen(*self.cross), adding=adding)

    # Events of Qt

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.StyleChange):
            self._painter.forget()
            self.update()

    def sizeHint(self) -> QSize:
        return QSize(640, 480)

    def minimumSizeHint(self) -> QSize:
        return QSize(280, 200)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        self._painter.paint(painter)
        painter.end()


def _adds(event: QMouseEvent) -> bool:
    held = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    return bool(event.modifiers() & held)
