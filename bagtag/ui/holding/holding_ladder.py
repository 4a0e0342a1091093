"""From which day on how many steps can go in, as a ladder of bars: one rung for each day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.ui import fonts, theme
from bagtag.ui.holding.holding_words import rung_words, steps

if TYPE_CHECKING:
    from bagtag.services.readiness import HoldingUp

RUNG, BAR = 54, 14
MOST = 9
"""So many rungs are drawn; the days after are told in one."""


class Ladder(QWidget):
    """Bars as long as there are steps, those before in grey, those of the day in the accent."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._rungs: list[tuple[str, int, int]] = []
        self._all = 1
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_rungs(self, found: HoldingUp) -> None:
        before, self._rungs = 0, []
        for rung in found.rungs:
            said = rung_words(rung.day, found.today)
            self._rungs.append((said, before, len(rung.steps)))
            before += len(rung.steps)
        self._all = max(before, 1)
        self.setAccessibleName(", ".join(f"{said}: {steps(n)}" for said, _, n in self._rungs))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(260, RUNG * min(len(self._rungs), MOST) + 4)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for place, (said, before, count) in enumerate(self._shown()):
            self._rung(painter, QRectF(0, place * RUNG, self.width(), RUNG), said, before, count)
        painter.end()

    def _shown(self) -> list[tuple[str, int, int]]:
        if len(self._rungs) <= MOST:
            return self._rungs
        head, rest = self._rungs[: MOST - 1], self._rungs[MOST - 1 :]
        return [*head, ("later, or no day known", rest[0][1], sum(one[2] for one in rest))]

    def _rung(self, painter: QPainter, room: QRectF, said: str, before: int, count: int) -> None:
        colours = theme.current()
        painter.setFont(fonts.font(theme.BODY, bold=True))
        painter.setPen(QPen(colours.ink))
        painter.drawText(QPointF(room.left(), room.top() + 18), said)
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop
        painter.setFont(fonts.font(theme.BODY))
        painter.drawText(room, int(right), steps(count))
        painter.setPen(Qt.PenStyle.NoPen)
        shares = ((1.0, colours.line), ((before + count) / self._all, colours.accent))
        for share, colour in (*shares, (before / self._all, colours.muted)):
            painter.setBrush(colour)
            if share:
                painter.drawRoundedRect(
                    QRectF(0, room.top() + 26, max(room.width() * share, BAR), BAR), 4, 4
                )
