"""The plan to walk through, and to move a step in: by Alt and the arrows, or with the mouse."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QWidget

from bagtag.domain.fitting import Ref
from bagtag.ui.forms.basics import ENTER
from bagtag.ui.order.left_lines import StepLine
from bagtag.ui.order.left_list import LeftList
from bagtag.ui.order.order_delegate import ROW, OrderDelegate
from bagtag.ui.order.order_lines import done_of, order_lines
from bagtag.ui.order.order_move import Move, to_edge
from bagtag.ui.strip.strip_view import BACK
from bagtag.ui.strip.tape import paint_across

if TYPE_CHECKING:
    from bagtag.services.board import Board

_SCROLL_MS = 40
_ARROWS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}


class OrderList(LeftList):
    """While a step is on the move `on_move` says where it would stand."""

    moved = Signal(object)
    """The `Move` that is under way is another."""
    let_go = Signal()
    """The step is let go where it would stand."""
    put_back = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__("Order: the plan, first to last", ROW, parent)
        self.board: Board | None = None
        self.done = 0
        """How many steps at the beginning are signed off and stay where they are."""
        self.on_move: Move | None = None
        self.said = ""
        """What the line says that shows where the step would stand."""
        self._pressed: tuple[QPoint, int] | None = None
        self._at = QPoint()
        self._scroll = QTimer(self)
        self._scroll.setInterval(_SCROLL_MS)
        self._scroll.timeout.connect(self._scroll_on)
        self.setItemDelegate(OrderDelegate(self, self.is_moving))

    def show_board(self, board: Board | None) -> None:
        if board is None or self.board is None or board.job_id != self.board.job_id:
            self.shown = None
        self.board = board
        self.done = done_of(board.steps) if board is not None else 0
        self.end_move()
        self.show_lines(order_lines(board) if board is not None else [])

    def step_ref(self, place: int) -> Ref | None:
        line = self.lines.line_at(place)
        return line.step.ref if isinstance(line, StepLine) else None

    def go_to_work(self) -> None:
        """Bring into sight where the build has come to."""
        self.scrollTo(
            self.lines.index(min(self.done, self.lines.rowCount() - 1)),
            LeftList.ScrollHint.PositionAtCenter,
        )

    # A step on the move

    def is_moving(self, place: int) -> bool:
        return self.on_move is not None and place == self.on_move.start

    def end_move(self) -> None:
        """Nothing is on the move any more."""
        self.on_move, self.said, self._pressed = None, "", None
        self._scroll.stop()
        self.unsetCursor()
        self.viewport().update()

    def say(self, words: str) -> None:
        self.said = words
        self.viewport().update()

    def _begin(self, start: int) -> Move | None:
        ref = self.step_ref(start)
        return Move(ref, start, start) if ref is not None else None

    def _move_to(self, move: Move, place: int) -> None:
        """Nothing is moved to before what is signed off; that itself is, to be told why not."""
        first = min(self.done, move.start)
        place = min(max(place, first), self.lines.rowCount() - 1)
        if self.on_move is not None and self.on_move.place == place:
            return
        self.on_move, self.said = Move(move.ref, move.start, place), ""
        self.moved.emit(self.on_move)
        self.viewport().update()

    def step_by(self, by: int) -> None:
        """Move the chosen step a row up or down."""
        move = self.on_move or self._begin(self.currentIndex().row())
        if move is not None:
            self._move_to(move, move.place + by)
            self.keep_in_sight()

    def keep_in_sight(self) -> None:
        """What is on the move stays so by its line; the mouse sees to that by itself."""
        if self.on_move is None:
            super().keep_in_sight()
        elif self._pressed is None:
            self._bring(min(self.on_move.edge, self.lines.rowCount() - 1))

    # Keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        arrow = _ARROWS.get(Qt.Key(event.key()))
        if arrow is not None and event.modifiers() & Qt.KeyboardModifier.AltModifier:
            self.step_by(arrow)
        elif self.on_move is None:
            super().keyPressEvent(event)
        elif event.key() in ENTER:
            self.let_go.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.put_back.emit()
        elif arrow is not None:
            self.step_by(arrow)
        elif event.text().strip():
            self.typed.emit(event.text())

    # The mouse

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self.on_move is not None:
            self.put_back.emit()  # one thing at a time: pressing elsewhere begins anew
        super().mousePressEvent(event)
        at = event.position().toPoint()
        place = self.indexAt(at).row()
        if event.button() == Qt.MouseButton.LeftButton and place >= 0:
            self._pressed = at, place

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Instead of choosing one after another, the step under the mouse goes along."""
        if self._pressed is None or not event.buttons() & Qt.MouseButton.LeftButton:
            return
        at, (start, place) = event.position().toPoint(), self._pressed
        far = (at - start).manhattanLength() >= QApplication.startDragDistance()
        if self.on_move is None and not far:
            return
        move = self.on_move or self._begin(place)
        if move is not None:
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
            self._drag(move, at)

    def _drag(self, move: Move, at: QPoint) -> None:
        self._at = at
        self._move_to(move, to_edge(move, self._edge_at(at.y())))
        near = ROW // 2
        if near <= at.y() <= self.viewport().height() - near:
            self._scroll.stop()
        elif not self._scroll.isActive():
            self._scroll.start()

    def _edge_at(self, y: int) -> int:
        """The row whose upper edge is nearest; one past the last for the end."""
        height = self.verticalScrollBar().value() + y
        return min(max(round(height / ROW), 0), self.lines.rowCount())

    def _scroll_on(self) -> None:
        at = self._at
        bar = self.verticalScrollBar()
        bar.setValue(
            bar.value() + (ROW // 3 if at.y() > self.viewport().height() / 2 else -ROW // 3)
        )
        if self.on_move is not None:
            self._move_to(self.on_move, to_edge(self.on_move, self._edge_at(at.y())))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        self._scroll.stop()
        was_dragged = self._pressed is not None and self.on_move is not None
        self._pressed = None
        self.unsetCursor()
        if was_dragged:
            self.let_go.emit()

    # What is painted across

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self.viewport())
        edge = self.on_move.edge if self.on_move is not None and not self.on_move.is_still else -1
        if 0 < self.done < self.lines.rowCount() and edge != self.done:
            self._across(painter, self.done, BACK)
        if edge >= 0:
            self._across(painter, edge, self.said or "…")
        painter.end()

    def _across(self, painter: QPainter, edge: int, words: str) -> None:
        y = self.rowViewportPosition(edge) if edge < self.lines.rowCount() else self._bottom()
        if -ROW < y < self.viewport().height() + ROW:
            paint_across(painter, y, self.viewport().width() - 2, words)

    def _bottom(self) -> int:
        return self.rowViewportPosition(self.lines.rowCount() - 1) + ROW - 6
