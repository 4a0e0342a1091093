"""A wrench of the list, as a piece of tape: its name, its scale, when it was calibrated."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.wrench import Wrench
from bagtag.ui.forms.figures import length_words
from bagtag.ui.forms.inks import inks, sized
from bagtag.ui.forms.plain import Slip
from bagtag.ui.forms.signed import SIDE, paint_sign

_HIGH = 74


def scale_words(one: Wrench) -> str:
    """`40 to 200 N·m, marks of 1`."""
    marks = f", marks of {one.step:g}" if one.step else ""
    return f"{one.low:g} to {one.high:g} {one.unit.value}{marks}"


def calibrated_words(one: Wrench) -> str:
    """`calibrated 2026-05-02`."""
    if one.calibrated_on is None:
        return "calibration not noted"
    return f"calibrated {one.calibrated_on.isoformat()}"


class WrenchTape(Slip):
    """Enter or a click opens it, Delete takes it out. `aged` is what is to be said of its
    calibration: then it carries a sign."""

    def __init__(self, one: Wrench, aged: str, parent: QWidget) -> None:
        super().__init__(one.name, parent)
        self.wrench = one
        self._aged = aged
        self.setToolTip(aged or "Enter changes it, Delete takes it out")
        said = (scale_words(one), f"grip to square {length_words(one.length)}" * bool(one.length))
        self._below = ", ".join(part for part in said if part)
        self._dated = calibrated_words(one) + (": have it checked" if aged else "")
        self.setAccessibleName(", ".join(filter(None, (one.name, self._below, self._dated, aged))))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(260, _HIGH)

    def minimumSizeHint(self) -> QSize:
        return QSize(160, _HIGH)

    def paint_text(self, painter: QPainter) -> None:
        room = QRectF(self.rect()).adjusted(self.pad, 9, -self.pad, -8)
        colours = inks()
        if self._aged:
            sign = QRectF(room.right() - SIDE, room.y() + 1, SIDE, SIDE)
            paint_sign(painter, self, sign, "!")
            room.adjust(0, 0, -SIDE - 8, 0)
        for pixels, bold, colour, text, top in (
            (16, True, colours.ink, self.text(), 0),
            (13, False, colours.ink, self._below, 22),
            (13, False, colours.accent if self._aged else colours.muted, self._dated, 40),
        ):
            painter.setFont(sized(self, pixels, bold=bold))
            painter.setPen(colour)
            line = QRectF(room.x(), room.y() + top, room.width(), 20)
            metrics = painter.fontMetrics()
            cut = metrics.elidedText(text, Qt.TextElideMode.ElideRight, int(line.width()))
            painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, cut)
