"""At sign-off: the passes still to go over it with, and tools that are still laid out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain import joint_words
from bagtag.domain.phrases import capital
from bagtag.ui import fonts, theme
from bagtag.ui.card.pass_rows import PassRows
from bagtag.ui.forms.acts import Act, keyless
from bagtag.ui.forms.basics import Press, button, clear_layout, label, tight

if TYPE_CHECKING:
    from bagtag.domain.joint import Joint
    from bagtag.domain.tool_out import ToolOut

DONE = "F12"


class SignPasses(QWidget):
    """The passes of a joint that has passes of its own, or was begun; out of sight for others."""

    ticked = Signal(int, bool)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.joint: Joint | None = None
        self.head = label("", self)
        self.head.setFont(fonts.font(theme.BODY, bold=True))
        self.setting = label("", self, scale="small", tone="muted")
        self.done = Act("Pass done", DONE, self)
        self.rows = PassRows(self)
        words = QVBoxLayout()
        tight(words, 0)
        words.addWidget(self.head)
        words.addWidget(self.setting)
        top = QHBoxLayout()
        top.addLayout(words, 1)
        top.addWidget(self.done, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addLayout(top)
        column.addWidget(self.rows)
        self.rows.ticked.connect(self.ticked)
        self.done.clicked.connect(self._tick_due)
        self.hide()

    def show_joint(self, joint: Joint | None) -> None:
        self.joint = joint
        is_asked = joint is not None and bool(joint.rounds) and bool(joint.passes or joint.ticks)
        self.setVisible(is_asked)
        self.rows.show_joint(joint if is_asked else None)
        if joint is None or not is_asked:
            return
        count, due = joint_words.due_words(joint)
        self.head.setText(f"{count}: {due}" if due else count)
        said = joint_words.setting_words(joint, joint.due) if joint.due is not None else ()
        self.setting.setText("\n".join(said))
        self.setting.setVisible(bool(said))
        self.done.offer(joint.due is not None)

    @property
    def stops(self) -> list[QWidget]:
        """Where Tab stops, from top to bottom."""
        return [self.done, *self.rows.rows]

    def first(self) -> QWidget | None:
        """The row of the pass now due; None where there is none to tick."""
        due = self.joint.due if self.joint is not None and not self.isHidden() else None
        return self.rows.rows[due] if due is not None else None

    def _tick_due(self) -> None:
        if self.joint is not None and self.joint.due is not None:
            self.ticked.emit(self.joint.due, True)


class ToolsBack(QFrame):
    """Tools that are laid out where a place is closed, each to be counted back."""

    back = Signal(list)
    """These tools, by their ids, are back, all of each."""
    one_back = Signal(int)
    """One of this tool, by its id, is back."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.tools: Sequence[ToolOut] = ()
        self.setProperty("surface", "tape")
        self.setAccessibleName("Tools still out")
        self.head = label("Still out: nothing may be left inside", self)
        self.head.setFont(fonts.font(theme.BODY, bold=True))
        self.all = button("All are back", self)
        self.all.clicked.connect(self._all_back)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(0, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 8, 14, 10)
        column.setSpacing(6)
        column.addWidget(self.head)
        column.addLayout(self._grid)
        column.addWidget(self.all, 0, Qt.AlignmentFlag.AlignLeft)
        self.hide()

    def show_tools(self, tools: Sequence[ToolOut]) -> None:
        self.setVisible(bool(tools))
        if tuple(tools) == tuple(self.tools):
            return
        self.tools = tools
        clear_layout(self._grid)
        self.presses = [self._add(row, one) for row, one in enumerate(tools)]
        self.all.setVisible(sum(one.count for one in tools) > 1)

    presses: Sequence[Press] = ()

    @property
    def stops(self) -> list[QWidget]:
        """Where Tab stops, from top to bottom."""
        return [*self.presses, self.all]

    def _add(self, row: int, one: ToolOut) -> Press:
        name = f"{one.count} × {one.name}" if one.count > 1 else one.name
        word = "One is back" if one.count > 1 else "Counted back"
        press = button(word, self, name=f"{word}: {keyless(one.name)}")
        press.clicked.connect(self._one_back)
        said = label(capital(name), self)
        for place, widget in enumerate((said, press)):
            self._grid.addWidget(widget, row, place)
            widget.show()
        return press

    def _one_back(self) -> None:
        press = self.sender()
        for tool, one in zip(self.tools, self.presses, strict=True):
            if one is press:
                self.one_back.emit(tool.id)

    def _all_back(self) -> None:
        self.back.emit([one.id for one in self.tools])
