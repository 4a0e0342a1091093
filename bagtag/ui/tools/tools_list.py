"""The tools as pieces of tape, to lay out and to count back by key or by click."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QElapsedTimer, QItemSelectionModel, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QTableView, QWidget

from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.spoken_rows import Index
from bagtag.ui.forms.tape_table import dress
from bagtag.ui.stages.stage_keys import QUIET
from bagtag.ui.tools.tools_delegate import HEAD, LEFT, RIGHT, ROW, ToolsDelegate
from bagtag.ui.tools.tools_lines import Heading, Line, ToolLine, Where
from bagtag.ui.tools.tools_model import ToolsModel


class ToolsList(QTableView):
    """Enter or Space lays a tool out that is not, and counts one back that is. A click does so in
    the box that it is on, and elsewhere only chooses."""

    laid_out = Signal(str)
    counted_back = Signal(int)
    moved = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.tools = ToolsModel(self)
        self._letter = QElapsedTimer()
        self.setAccessibleName("Tools to lay out")
        self.setProperty("bare", "true")
        self.setModel(self.tools)
        self.setItemDelegate(ToolsDelegate(self.tools, self))
        dress(self, ROW, ROW // 2)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.selectionModel().currentChanged.connect(self.moved)

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Show other lines; the tool that was chosen stays so, else the one in its place."""
        name, at = (self.here.name if self.here else ""), self.currentIndex().row()
        self.tools.put(lines)
        down = self.verticalHeader()
        for place, line in enumerate(lines):
            down.resizeSection(place, HEAD if isinstance(line, Heading) else ROW)
        same = self.tools.place_of(name) if name else None
        self.go_to(at if same is None else same)

    @property
    def here(self) -> ToolLine | None:
        """The tool that the keys are for."""
        return self.tools.tool_at(self.currentIndex().row())

    def go_to(self, place: int) -> None:
        """Choose the tool at a place, or the nearest one after it, else the last."""
        places = self.tools.places()
        if not places:
            return
        found = next((one for one in places if one >= place), places[-1])
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
        self.selectionModel().setCurrentIndex(self.tools.index(found), flag)
        first = found and self.tools.tool_at(found - 1) is None
        self.scrollTo(self.tools.index(found - 1 if first else found))
        self.scrollTo(self.tools.index(found))

    def do_next(self) -> None:
        """What comes next for the tool that is chosen: laid out, then counted back."""
        tool = self.here
        if tool is None or not tool.is_counted:
            return
        if tool.out is not None:
            self.counted_back.emit(tool.out.id)
        else:
            self.laid_out.emit(tool.name)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}
        key = Qt.Key(event.key())
        if key in (*ENTER, Qt.Key.Key_Space):
            if not event.isAutoRepeat() and not self._is_scanned():
                self.do_next()
        elif key in steps:
            self._step(steps[key])
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self.go_to(0 if key == Qt.Key.Key_Home else self.tools.rowCount())
        elif event.text().isalnum() or key == Qt.Key.Key_Escape:
            self._letter.start()
            event.ignore()
        else:
            super().keyPressEvent(event)

    def _is_scanned(self) -> bool:
        """Whether an Enter ends what a scanner typed: that lays nothing out."""
        return self._letter.isValid() and self._letter.elapsed() < QUIET

    def _step(self, by: int) -> None:
        places = self.tools.places()
        here = self.currentIndex().row()
        beyond = [place for place in places if (place - here) * by > 0]
        if beyond:
            self.go_to(beyond[0] if by > 0 else beyond[-1])

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        index = self.indexAt(event.position().toPoint())
        tool = self.tools.tool_at(index.row())
        if tool is None or not tool.is_counted or index != self.currentIndex():
            return
        x = event.position().x()
        is_left, is_right = x < LEFT, x > self.viewport().width() - RIGHT
        if (is_left and tool.where is not Where.OUT) or (is_right and tool.where is Where.OUT):
            self.do_next()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scrollTo(self.currentIndex())

    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.viewport().update()
