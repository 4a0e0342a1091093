"""Now: what can go in, area by area, and below it what waits and for what."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from bagtag.domain.fitting import Ref
from bagtag.ui.order.left_lines import Area, Fold, Line, Said, StepLine
from bagtag.ui.order.left_list import LeftList
from bagtag.ui.order.now_delegate import NowDelegate, height_of
from bagtag.ui.order.now_lines import NowLines
from bagtag.ui.strip.tape import ROW

if TYPE_CHECKING:
    from bagtag.services.board import Board
    from bagtag.ui.strip.strip_view import StripView

LOW = 460
"""In a view lower than this only one line says what would free the most."""
EMPTY = "Log what comes off under Strip; the build is that log, turned round."
ALL_IN = "Everything is in. Close the job next."


class NowView(LeftList):
    """Right, Left and Enter unfold and fold what waits in an area."""

    def __init__(self, strip: StripView, parent: QWidget) -> None:
        super().__init__("Now: what can go in, by area", ROW, parent)
        self.board: Board | None = None
        self._opened: set[Area] = set()
        self._most = 3
        self.setItemDelegate(NowDelegate(strip, self))
        strip.rows.dataChanged.connect(self.viewport().update)
        strip.rows.ready.connect(self.viewport().update)
        strip.thumbs.arrived.connect(self.viewport().update)

    def height_of(self, line: Line) -> int:
        return height_of(line)

    def show_board(self, board: Board | None) -> None:
        if board is None or self.board is None or board.job_id != self.board.job_id:
            self._opened.clear()
            self.shown = None
        self.board = board
        self._show()

    def _show(self) -> None:
        lines = self._lines().all() if self.board is not None else []
        if self.board is not None and not lines:
            lines = [Said(ALL_IN if self.board.steps else EMPTY)]
        self.show_lines(lines)

    def _lines(self) -> NowLines:
        assert self.board is not None
        return NowLines(self.board, self._opened, self._most)

    def choose(self, ref: Ref) -> bool:
        """A step that waits behind a fold is unfolded."""
        if self.board is not None and self.lines.place_of(("step", ref)) < 0:
            waits, area = self._lines().area_of(ref)
            if waits:
                self._opened.add(area)
                self._show()
        return super().choose(ref)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        most = 1 if self.height() < LOW else 3
        if most != self._most:
            self._most = most
            if self.board is not None:
                self._show()

    # Folds

    def _fold(self, area: Area, *, is_open: bool) -> None:
        if is_open:
            self._opened.add(area)
        else:
            self._opened.discard(area)
        self._show()
        place = self.lines.place_of(("fold", area))
        if place >= 0:
            self._put(place)
            if is_open:  # the first of them is seen at once
                self.scrollTo(self.lines.index(min(place + 1, self.lines.rowCount() - 1)))
            self.scrollTo(self.lines.index(place))

    def enter(self) -> None:
        line = self.here
        if isinstance(line, Fold):
            self._fold(line.area, is_open=not line.is_open)
        else:
            super().enter()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        line = self.here
        if event.key() == Qt.Key.Key_Right and isinstance(line, Fold):
            self._fold(line.area, is_open=True)
        elif event.key() == Qt.Key.Key_Left and isinstance(line, Fold | StepLine):
            if line.area in self._opened:
                self._fold(line.area, is_open=False)
        else:
            super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A click on a fold opens it, or folds it again."""
        super().mouseReleaseEvent(event)
        line = self.lines.line_at(self.indexAt(event.position().toPoint()).row())
        if event.button() == Qt.MouseButton.LeftButton and isinstance(line, Fold):
            self._fold(line.area, is_open=not line.is_open)
