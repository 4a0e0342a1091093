"""Lines of what can go in now, painted: steps as tape, headings and folds as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from bagtag.domain import codes
from bagtag.domain.standing import Standing
from bagtag.ui import theme
from bagtag.ui.card.task_signs import paint_sign, sign_of
from bagtag.ui.forms.tape_table import RowPainter
from bagtag.ui.order.left_lines import Fold, FreedLine, Heading, Line, Said, StepLine, frees_words
from bagtag.ui.strip.strip_delegate import StripDelegate, pieces_of, second_line
from bagtag.ui.strip.tape import GAP, PICTURE, ROW, Face, Tape, measured

if TYPE_CHECKING:
    from bagtag.domain.fitting import TaskKind
    from bagtag.services.views import StripRow
    from bagtag.ui.order.left_list import LeftList
    from bagtag.ui.strip.strip_view import StripView

INDENT = 26
"""How far a piece stands in from its bench build, in pixels."""
NARROW = 350
"""Below this width a part's name has the room of its tag's code."""
HEAD, SAID, FOLD, FREED = 38, 26, 46, 54
_LEFT = 2.0


def height_of(line: Line) -> int:
    match line:
        case Heading():
            return HEAD
        case Said():
            return SAID
        case Fold():
            return FOLD
        case FreedLine():
            return FREED
        case _:
            return ROW


class NowDelegate(RowPainter):
    """Rows and pictures of parts come from the strip's, which has them already."""

    def __init__(self, strip: StripView, view: LeftList) -> None:
        super().__init__(view, ROW)
        self._list, self._strip = view, strip
        self._parts = StripDelegate(strip.rows, strip.thumbs, view)
        self._parts.building = True

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        line = self._list.lines.lines[place]
        painter.translate(rect.topLeft())
        room = QRectF(0, 0, rect.width() - 2, rect.height())
        match line:
            case Heading():
                _heading(painter, room, line)
            case Said():
                _said(painter, room, line)
            case Fold():
                _fold(painter, room, line, here=self.is_here(place), has_keys=self._has_keys())
            case FreedLine():
                painter.translate(0, GAP / 2)
                tape = self._tape(painter, room.width(), FREED - GAP)
                self._freed(tape, line, chosen=self._is_chosen(place))
                self._edge(tape, place)
            case StepLine():
                painter.translate(line.depth * INDENT, GAP / 2)
                tape = self._tape(painter, room.width() - line.depth * INDENT)
                self._step(tape, line, chosen=self._is_chosen(place))
                self._edge(tape, place)

    def _has_keys(self) -> bool:
        return self.view.hasFocus()

    def _is_chosen(self, place: int) -> bool:
        return self.is_here(place) and self._list.is_shown(place)

    def _tape(self, painter: QPainter, width: float, height: float = ROW - GAP) -> Tape:
        return Tape(painter, width, has_keys=self._has_keys(), height=height)

    def _edge(self, tape: Tape, place: int) -> None:
        if self.is_here(place) and self._has_keys() and not self._list.is_shown(place):
            tape.keys_here()

    @staticmethod
    def _freed(tape: Tape, line: FreedLine, *, chosen: bool) -> None:
        tape.ground(tape.colours.card, chosen=chosen)
        said = frees_words(line.freed)
        end = tape.width - tape.right_room(said)
        tape.text(14, 19, line.freed.called, 16, True, tape.colours.ink, end)
        tape.right(19, said, tape.colours.accent, bold=True)
        tape.text(14, 37, line.freed.why, 13, False, tape.colours.muted, tape.width - 14)

    def _step(self, tape: Tape, line: StepLine, *, chosen: bool) -> None:
        step = line.step
        row = self._strip.rows.row_of(step.ref.id) if step.removal_id is not None else None
        strong = step.standing in {Standing.NEXT, Standing.AWAY}
        face = Face(
            step.number, step.name, line.under, word=line.word, strong=strong,
            settled=step.standing is Standing.IN,
        )  # fmt: skip
        if row is not None:
            self._part(tape, face, row, chosen=chosen)
        else:
            tape.face(face, None, chosen=chosen, has_thumb=False)
            if step.task is not None:
                _sign(tape, step.task.kind)

    def _part(self, tape: Tape, face: Face, row: StripRow, *, chosen: bool) -> None:
        under = ". ".join(filter(None, (face.under, second_line(row))))
        code = codes.show(row.code) if row.code and tape.width >= NARROW else ""
        full = Face(face.number, pieces_of(row), under, code, face.word, face.strong, face.settled)
        self._parts.paint_part(tape, full, row, chosen=chosen)


def _sign(tape: Tape, kind: TaskKind) -> None:
    """The sign of a task, where a part has its which-way picture."""
    tape.frame()
    half = PICTURE.height() / 2 - 4
    middle = PICTURE.center()
    room = QRectF(middle.x() - half, middle.y() - half, 2 * half, 2 * half)
    paint_sign(tape.painter, sign_of(kind), room)


def _heading(painter: QPainter, room: QRectF, heading: Heading) -> None:
    colours, (font, metrics) = theme.current(), measured(theme.BODY, True)
    small, small_metrics = measured(theme.SMALL, False)
    base = room.bottom() - 9
    count = small_metrics.horizontalAdvance(heading.count)
    dots = Qt.TextElideMode.ElideMiddle
    text = metrics.elidedText(heading.text, dots, room.width() - count - 24)
    painter.setFont(font)
    painter.setPen(QPen(colours.ink))
    painter.drawText(QPointF(_LEFT, base), text)
    painter.setFont(small)
    painter.setPen(QPen(colours.muted))
    painter.drawText(QPointF(room.right() - count, base), heading.count)


def _said(painter: QPainter, room: QRectF, said: Said) -> None:
    painter.setFont(measured(theme.SMALL, False)[0])
    painter.setPen(QPen(theme.current().muted))
    painter.drawText(QPointF(_LEFT, room.bottom() - 7), said.text)


def _fold(painter: QPainter, room: QRectF, fold: Fold, *, here: bool, has_keys: bool) -> None:
    """A word with an arrow that points right, or down where it is open."""
    colours = theme.current()
    edge, weight = (colours.accent, 3.5) if here and has_keys else (colours.line, 1.0)
    inset = weight / 2
    box = room.adjusted(inset, 4 + inset, -inset, -4 - inset)
    painter.setPen(QPen(edge, weight))
    painter.setBrush(colours.paper)
    painter.drawRoundedRect(box, 4, 4)
    middle = box.center().y()
    painter.setPen(QPen(colours.muted, 2))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPolyline(_arrow(QPointF(22, middle), is_open=fold.is_open))
    painter.setFont(measured(theme.BODY, False)[0])
    painter.setPen(QPen(colours.ink))
    painter.drawText(QPointF(40, middle + 5.5), fold.text)


def _arrow(at: QPointF, *, is_open: bool) -> list[QPointF]:
    half, deep = 5.0, 2.5
    if is_open:
        return [at + QPointF(x, y) for x, y in ((-half, -deep), (0, deep), (half, -deep))]
    return [at + QPointF(x, y) for x, y in ((-deep, -half), (deep, 0), (-deep, half))]
