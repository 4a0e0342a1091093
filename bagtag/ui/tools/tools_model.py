"""The list of tools as rows to walk: headings are passed over."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt

from bagtag.domain.kinds import fold
from bagtag.ui.forms.spoken_rows import Index, SpokenRows
from bagtag.ui.tools.tools_lines import Heading, Line, ToolLine, Where

_SAID = {Where.AWAY: "not laid out", Where.OUT: "laid out", Where.BACK: "counted back"}


class ToolsModel(SpokenRows):
    def spoken(self, line: Any) -> str:
        if isinstance(line, Heading):
            return line.title
        said = _SAID[line.where] if line.is_counted else ""
        likely = "likely" if line.need is not None and line.need.is_likely else ""
        return ", ".join(filter(None, (line.title, likely, said, line.detail)))

    def flags(self, index: Index) -> Qt.ItemFlag:
        """A heading cannot be chosen."""
        is_tool = self.tool_at(index.row()) is not None
        return super().flags(index) if is_tool else Qt.ItemFlag.ItemIsEnabled

    def tool_at(self, place: int) -> ToolLine | None:
        line: Line | None = self.lines[place] if 0 <= place < len(self.lines) else None
        return line if isinstance(line, ToolLine) else None

    def places(self) -> list[int]:
        """Where the tools stand, without the headings."""
        return [n for n, line in enumerate(self.lines) if isinstance(line, ToolLine)]

    def place_of(self, name: str) -> int | None:
        wanted = fold(name)
        tools = ((place, self.lines[place]) for place in self.places())
        return next((place for place, tool in tools if fold(tool.name) == wanted), None)
