"""Looking at a hole map: all of it, closer, and pushed about."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from bagtag.domain.holes import Point
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_view import MOST, View, fitted

CLOSER = 1.25
"""How much larger one step makes it."""


class MapLook(QWidget):
    """A widget that shows a part of a map, or all of it while nobody came closer."""

    def __init__(self, draft: Draft, parent: QWidget) -> None:
        super().__init__(parent)
        self.draft = draft
        self.view = View()
        self.cross: Point | None = None
        self._is_fitted = True

    def fit(self) -> None:
        """All of the map in sight."""
        self._is_fitted = True
        self._look(fitted(self._field(), self._room()))

    def closer(self) -> None:
        self.zoom(CLOSER)

    def away(self) -> None:
        self.zoom(1 / CLOSER)

    def zoom(self, factor: float, at: QPointF | None = None) -> None:
        whole = fitted(self._field(), self._room()).scale
        wanted = min(max(self.view.scale * factor, whole * 0.9), whole * MOST)
        spot = at if at is not None else self.spot_in_hand()
        self._is_fitted = False
        self._look(self.view.zoomed(wanted / self.view.scale, spot))

    def pan(self, by: QPointF) -> None:
        self._is_fitted = False
        self._look(self.view.moved(by))

    def spot_in_hand(self) -> QPointF:
        """Where the cross is on the screen, else the chosen hole, else the middle."""
        chosen = self.draft.map.hole(self.draft.chosen[-1]) if self.draft.chosen else None
        if self.cross is not None:
            return self.view.on_screen(*self.cross)
        if chosen is not None:
            return self.view.on_screen(chosen.x, chosen.y)
        return QPointF(self.width() / 2, self.height() / 2)

    def _look(self, view: View) -> None:
        self.view = view.held(self._field(), self._room())
        self.update()

    def _field(self) -> QSizeF:
        return QSizeF(self.draft.map.width, self.draft.map.height)

    def _room(self) -> QSizeF:
        return QSizeF(self.size())

    def bring(self, spot: QPointF) -> None:
        """Push the map so far that a place on the screen is in sight."""
        air, rect = 30.0, QRectF(self.rect())
        across = min(rect.right() - air - spot.x(), 0.0) or max(rect.left() + air - spot.x(), 0.0)
        down = min(rect.bottom() - air - spot.y(), 0.0) or max(rect.top() + air - spot.y(), 0.0)
        if across or down:
            self.pan(QPointF(across, down))

    def inside(self, spot: QPointF) -> Point:
        """The place on the map below one on the screen; beside the map, the nearest on it."""
        x, y = self.view.on_map(spot)
        return min(max(x, 0.0), self.draft.map.width), min(max(y, 0.0), self.draft.map.height)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._is_fitted:
            self.fit()
        else:
            self._look(self.view)
