"""Where a new part stands, as a sign with its word: a ring, an arrow, a tick, a question."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from bagtag.domain.model import Replacement
from bagtag.ui import fonts, theme

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine


class Stand(StrEnum):
    """The word at the right of a line."""

    WANTED = "to order"
    ORDERED = "ordered"
    LATE = "late"
    COMPARE = "compare it"
    HERE = "here"
    IN = "in"
    SPARE = "not needed"
    SUGGESTED = "renew it?"


URGENT = {Stand.LATE, Stand.COMPARE, Stand.SUGGESTED}
"""What somebody has to do something about now, beside ordering."""
SETTLED = {Stand.HERE, Stand.IN, Stand.SPARE}
"""What nothing is left to do about."""
_TICK = ((-0.5, 0.05), (-0.12, 0.42), (0.52, -0.4))
_ARROW = ((-0.5, 0.0), (0.5, 0.0)), ((0.08, -0.42), (0.5, 0.0), (0.08, 0.42))
_MARKS = {Stand.LATE: "!", Stand.SUGGESTED: "?", Stand.COMPARE: "=", Stand.SPARE: "–"}


def stand_of(line: RenewLine, today: date | None = None) -> Stand:
    if line.is_suggestion:
        return Stand.SUGGESTED
    if not line.is_needed:
        return Stand.SPARE
    due = line.new_part.due
    match line.state:
        case Replacement.HERE if line.is_in:
            return Stand.IN
        case Replacement.HERE:
            return Stand.COMPARE if line.old_part else Stand.HERE
        case Replacement.ORDERED:
            return Stand.LATE if due and due < (today or date.today()) else Stand.ORDERED
    return Stand.WANTED


def paint_stand(painter: QPainter, ring: QRectF, stand: Stand) -> None:
    """A ring with what says it: empty, an arrow on its way, a tick, or a mark."""
    colours = theme.current()
    ink = colours.accent if stand in URGENT else colours.ink
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(colours.muted if stand is Stand.WANTED else ink, 2))
    painter.drawEllipse(ring)
    if stand in (Stand.HERE, Stand.IN):
        _strokes(painter, ring, ink, (_TICK,))
    elif stand is Stand.ORDERED:
        _strokes(painter, ring, ink, _ARROW)
    elif stand in _MARKS:
        painter.setFont(fonts.font(theme.BODY, bold=True))
        painter.drawText(ring, Qt.AlignmentFlag.AlignCenter, _MARKS[stand])


def _strokes(
    painter: QPainter, ring: QRectF, ink: QColor, lines: tuple[tuple[tuple[float, float], ...], ...]
) -> None:
    """Lines in a ring; their points from -1 to 1, the middle 0."""
    cap, join = Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin
    painter.setPen(QPen(ink, 2.5, Qt.PenStyle.SolidLine, cap, join))
    half, middle = ring.width() / 2, ring.center()
    for line in lines:
        painter.drawPolyline(QPolygonF([middle + QPointF(x, y) * half for x, y in line]))
