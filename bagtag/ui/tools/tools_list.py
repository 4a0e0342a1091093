"""The tools as pieces of tape, to lay out and to count back by key or by click."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.walked_list import WalkedList
from bagtag.ui.tools.tools_delegate import HEAD, LEFT, RIGHT, ROW, ToolsDelegate
from bagtag.ui.tools.tools_lines import Line, ToolLine, Where
from bagtag.ui.tools.tools_model import ToolsModel


class ToolsList(WalkedList):
    """Enter or Space lays a tool out that is not, and counts one back that is. A click does so in
    the box that it is on, and elsewhere only chooses."""

    laid_out = Signal(str)
    counted_back = Signal(int)
    moved = Signal()

    def __init__(self, parent: QWidget) -> None:
        tools = ToolsModel()
        super().__init__("Tools to lay out", tools, ROW, parent)
        self.tools = tools
        self.setItemDelegate(ToolsDelegate(self.tools, self))
        self.selectionModel().currentChanged.connect(self.moved)

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Show other lines; the tool that was chosen stays so, else the one in its place."""
        name, at = (self.here.name if self.here else ""), self.currentIndex().row()
        self.tools.put(lines)
        self.size_rows(HEAD)
        same = self.tools.place_of(name) if name else None
        self.go_to(at if same is None else same)

    @property
    def here(self) -> ToolLine | None:
        """The tool that the keys are for."""
        found: ToolLine | None = self.tools.line_at(self.currentIndex().row())
        return found

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
        if event.key() in (*ENTER, Qt.Key.Key_Space):
            if not event.isAutoRepeat() and not self.is_scanned():
                self.do_next()
        elif not self.walk(Qt.Key(event.key())) and not self.pass_on(event):
            super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        index = self.indexAt(event.position().toPoint())
        tool = self.tools.line_at(index.row())
        if tool is None or not tool.is_counted or index != self.currentIndex():
            return
        x = event.position().x()
        is_left, is_right = x < LEFT, x > self.viewport().width() - RIGHT
        if (is_left and tool.where is not Where.OUT) or (is_right and tool.where is Where.OUT):
            self.do_next()
