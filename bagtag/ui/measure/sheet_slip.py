"""A measuring sheet in the list, as a slip: the sign of its verdict, what it is, what it says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.sheet import MeasureSheet
from bagtag.domain.phrases import capital
from bagtag.ui.forms.inks import Inks, inks, sized
from bagtag.ui.forms.plain import Plain
from bagtag.ui.measure.verdict_sign import paint_verdict

if TYPE_CHECKING:
    from bagtag.services.measuring import SheetRow

_HIGH, _SIGN = 58, 26


def sheet_name(sheet: MeasureSheet) -> str:
    """`Bore`, or with its title: `Bore, cylinder 1`."""
    kind = capital(sheet.kind.value)
    return f"{kind}, {sheet.title}" if sheet.title else kind


def _told(row: SheetRow) -> str:
    """What the sheet says, and what was decided on it: `Worn: bore 68.14 mm; decided: renew`."""
    made = row.sheet.decision
    decided = f"; decided: {made.called}" if made is not None else ""
    return f"{capital(row.summary)}{decided}"


class SheetSlip(Plain):
    """Enter or a click opens the sheet."""

    def __init__(self, row: SheetRow, parent: QWidget) -> None:
        super().__init__(sheet_name(row.sheet), parent)
        self.sheet_id = row.sheet.id
        self.summary = _told(row)
        self._verdict: Verdict | None = row.verdict if row.is_measured else None
        self.setAccessibleName(f"Open {self.text()}: {self.summary}")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def look(self) -> tuple[QColor, QColor, float]:
        strong = self.isDown() or self.underMouse()
        return inks().card, inks().edge(strong), 5

    def sizeHint(self) -> QSize:
        return QSize(260, _HIGH)

    def minimumSizeHint(self) -> QSize:
        return QSize(160, _HIGH)

    def paint_text(self, painter: QPainter) -> None:
        colours, room = inks(), QRectF(self.rect()).adjusted(self.pad, 0, -self.pad, 0)
        sign = QRectF(room.x(), room.center().y() - _SIGN / 2, _SIGN, _SIGN)
        paint_verdict(painter, self, sign, self._verdict)
        for pixels, bold, colour, text, top in self._lines(colours):
            painter.setFont(sized(self, pixels, bold=bold))
            painter.setPen(colour)
            line = room.adjusted(_SIGN + 12, top, 0, 0)
            line.setHeight(22)
            dots = Qt.TextElideMode.ElideRight
            cut = painter.fontMetrics().elidedText(text, dots, int(line.width()))
            painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, cut)

    def _lines(self, colours: Inks) -> tuple[tuple[int, bool, QColor, str, int], ...]:
        loud = self._verdict in (Verdict.CLOSE, Verdict.OUT)
        below = colours.accent if loud else colours.muted
        return (
            (16, True, colours.ink, self.text(), 7),
            (15, False, below, self.summary, 29),
        )
