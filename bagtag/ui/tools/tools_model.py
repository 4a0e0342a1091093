"""The list of tools as rows to walk: headings are passed over."""

from __future__ import annotations

from typing import Any

from bagtag.domain.kinds import fold
from bagtag.ui.forms.walked_list import WalkedRows
from bagtag.ui.tools.tools_lines import Heading, ToolLine, Where

_SAID = {Where.AWAY: "not laid out", Where.OUT: "laid out", Where.BACK: "counted back"}


class ToolsModel(WalkedRows):
    def spoken(self, line: Any) -> str:
        if isinstance(line, Heading):
            return line.title
        said = _SAID[line.where] if line.is_counted else ""
        likely = "likely" if line.need is not None and line.need.is_likely else ""
        return ", ".join(filter(None, (line.title, likely, said, line.detail)))

    def is_heading(self, line: Any) -> bool:
        return not isinstance(line, ToolLine)

    def place_of(self, name: str) -> int | None:
        wanted = fold(name)
        tools = ((place, self.lines[place]) for place in self.places())
        return next((place for place, tool in tools if fold(tool.name) == wanted), None)
