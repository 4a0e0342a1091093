"""The chosen tool in full: what is good to know of it, and every step that it is for."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from bagtag.domain.phrases import capital, day
from bagtag.domain.tools import ToolStep
from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.tools.tools_lines import EXTRA_WORDS, ToolLine

_LIKELY = "Likely, from the thread or the kind of part: nobody wrote it down. Look before you go."
MOST = 40
"""How many steps are written out; the rest are counted."""


class ToolAbout(QFrame):
    """`said` is all that is told of the tool, in its lines."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "card")
        self._shown: ToolLine | None = None
        self.said: list[str] = []
        self.name = label("", self, scale="head")
        self.pane = Scroll(self, "The chosen tool: what it is for")
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 14, 8, 14)
        column.setSpacing(8)
        column.addWidget(self.name)
        column.addWidget(self.pane, 1)

    def show_tool(self, tool: ToolLine | None) -> None:
        if tool == self._shown:
            return
        self._shown = tool
        clear_layout(self.pane.column)
        self.said = []
        self.name.setText(tool.title if tool else "")
        if tool is not None:
            self._fill(tool)
        self.pane.column.addStretch(1)
        self.pane.verticalScrollBar().setValue(0)

    def _fill(self, tool: ToolLine) -> None:
        if tool.out is not None:
            who = f" by {tool.out.out_by}" if tool.out.out_by else ""
            self._say(
                f"Laid out{who}, {day(tool.out.out_at)}, {tool.out.out_at:%H:%M}.", tone="muted"
            )
        if tool.need is None:
            self._say(f"{capital(EXTRA_WORDS)}.")
            return
        for note in (*((_LIKELY,) if tool.need.is_likely else ()), *tool.need.notes):
            self._say(f"! {note}", tone="accent")
        self._steps(tool.need.steps)

    def _steps(self, steps: Sequence[ToolStep]) -> None:
        for step in steps[:MOST]:
            self._say(f"Step {step.place}: {step.called}", below=capital(step.what))
        if len(steps) > MOST:
            self._say(f"and {len(steps) - MOST} more")

    def _say(self, sentence: str, *, tone: str = "ink", below: str = "") -> None:
        part = QWidget(self.pane.body)
        column = QVBoxLayout(part)
        tight(column, 0)
        column.addWidget(label(sentence, part, tone=tone))
        if below:
            column.addWidget(label(below, part, tone="muted"))
        self.pane.column.addWidget(part)
        self.said += [sentence, below] if below else [sentence]
