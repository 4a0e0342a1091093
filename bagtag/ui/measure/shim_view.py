"""Which shim goes where: a row for each valve that gets another one, an arrow from old to new."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.shims import Move, ShimPlan
from bagtag.ui.forms.inks import Inks, inks, sized

ROW, HEAD = 34, 26
_COLUMNS = (0.0, 0.24, 0.48, 0.8, 1.0)
"""Where the columns begin, as shares of the width: valve, out, in, then."""
_AIR = 10


class ShimView(QWidget):
    """Nothing is shown while there is no plan, or all stays as it is."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.moves: tuple[Move, ...] = ()
        self._unit = "mm"
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Which shim goes where")
        self.hide()

    def show_plan(self, plan: ShimPlan | None, unit: str) -> None:
        self.moves, self._unit = plan.moved if plan else (), unit
        self.setAccessibleDescription(" ".join(_spoken(one, unit) for one in self.moves))
        self.setVisible(bool(self.moves))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(320, HEAD + ROW * len(self.moves) + _AIR)

    def minimumSizeHint(self) -> QSize:
        return QSize(240, self.sizeHint().height())

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = inks()
        painter.setPen(QPen(colours.line, 1))
        painter.setBrush(colours.card)
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 8, 8)
        heads = ("valve", f"out, {self._unit}", f"in, {self._unit}", "clearance then")
        self._line(painter, 0, HEAD, heads, colours, 13)
        for place, move in enumerate(self.moves):
            self._move(painter, HEAD + ROW * place, move, colours)
        painter.end()

    def _move(self, painter: QPainter, top: int, move: Move, colours: Inks) -> None:
        painter.setPen(QPen(colours.line, 1))
        painter.drawLine(_AIR, top, self.width() - _AIR, top)
        after = show(move.clearance_after)
        words = (move.place.name, show(move.from_shim), "", after)
        self._line(painter, top, ROW, words, colours, 16)
        self._arrow(painter, top, colours)
        room = self._room(2, top, ROW)
        painter.setFont(sized(self, 16, bold=True))
        painter.setPen(colours.ink)
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, show(move.to_shim))
        wide = painter.fontMetrics().horizontalAdvance(show(move.to_shim)) + 8
        painter.setFont(sized(self, 13))
        painter.setPen(colours.muted)
        room.setLeft(room.left() + wide)
        dots = Qt.TextElideMode.ElideRight
        said = painter.fontMetrics().elidedText(_source(move), dots, int(room.width()))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, said)

    def _arrow(self, painter: QPainter, top: int, colours: Inks) -> None:
        """From what comes out to what goes in."""
        end = self._room(2, top, ROW).left() - 8
        y = top + ROW / 2
        painter.setPen(QPen(colours.accent, 2))
        painter.drawLine(int(end - 26), int(y), int(end), int(y))
        painter.drawLine(int(end - 6), int(y - 5), int(end), int(y))
        painter.drawLine(int(end - 6), int(y + 5), int(end), int(y))

    def _line(  # noqa: PLR0917  (a line of words: where, how high, what, in which ink and size)
        self, painter: QPainter, top: int, high: int, words: Sequence[str], colours: Inks, size: int
    ) -> None:
        painter.setFont(sized(self, size))
        painter.setPen(colours.muted if size < 16 else colours.ink)
        for column, said in enumerate(words):
            room = self._room(column, top, high)
            cut = painter.fontMetrics().elidedText(
                said, Qt.TextElideMode.ElideRight, int(room.width())
            )
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, cut)

    def _room(self, column: int, top: int, high: int) -> QRectF:
        wide = self.width() - 2 * _AIR
        left, right = (_AIR + wide * _COLUMNS[at] for at in (column, column + 1))
        return QRectF(left, top, right - left - 4, high)


def _source(move: Move) -> str:
    """Where the shim that goes in comes from."""
    return f"from {move.from_place}" if move.from_place else move.said


def _spoken(move: Move, unit: str) -> str:
    """A row as it is read out."""
    return (
        f"{move.place.name}: {show(move.from_shim)} out, {show(move.to_shim)} {unit} in, "
        f"{_source(move)}; clearance then {show(move.clearance_after)}."
    )
