"""How a hole map lies on the screen: how large, and where."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QSizeF

from bagtag.domain.holes import Point

EDGE = 48.0
"""So far the map can be pushed away from the edge of its room, in pixels."""
MOST = 16.0
"""The closest look, in times the map fitted into its room."""


@dataclass(frozen=True, slots=True)
class View:
    """`scale` is in pixels per unit of the map; its corner stands at `left`, `top`, in pixels."""

    scale: float = 1.0
    left: float = 0.0
    top: float = 0.0

    def on_screen(self, x: float, y: float) -> QPointF:
        return QPointF(self.left + x * self.scale, self.top + y * self.scale)

    def on_map(self, spot: QPointF) -> Point:
        return (spot.x() - self.left) / self.scale, (spot.y() - self.top) / self.scale

    def zoomed(self, factor: float, at: QPointF) -> View:
        """Larger by `factor`; what is at `at` stays there."""
        left = at.x() - (at.x() - self.left) * factor
        return View(self.scale * factor, left, at.y() - (at.y() - self.top) * factor)

    def moved(self, by: QPointF) -> View:
        return replace(self, left=self.left + by.x(), top=self.top + by.y())

    def held(self, field: QSizeF, room: QSizeF) -> View:
        """Kept where some of it is seen: in the middle of its room where it is smaller."""
        return replace(
            self,
            left=_held(self.left, field.width() * self.scale, room.width()),
            top=_held(self.top, field.height() * self.scale, room.height()),
        )


def fitted(field: QSizeF, room: QSizeF) -> View:
    """The whole of a map, as large as its room allows."""
    air = 24.0
    wide = max(room.width() - 2 * air, 1.0) / field.width()
    scale = min(wide, max(room.height() - 2 * air, 1.0) / field.height())
    left = (room.width() - field.width() * scale) / 2
    return View(scale, left, (room.height() - field.height() * scale) / 2)


def _held(start: float, length: float, room: float) -> float:
    if length + 2 * EDGE <= room:
        return (room - length) / 2
    least, most = sorted((room - length - EDGE, EDGE))
    return min(max(start, least), most)
