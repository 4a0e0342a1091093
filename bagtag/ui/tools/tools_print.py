"""The page to lay the bench by, as it will be printed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.sheets.pages_dialog import PagesDialog

if TYPE_CHECKING:
    from bagtag.services.tools import Span

WORDS = "Every tool with a box for laid out and one for counted back."


def open_tools_page(desk: Desk, parent: QWidget | None, span: Span) -> ToolsPage:
    """Open the page of a span of the chosen job."""
    dialog = ToolsPage(desk, parent, span)
    dialog.open()
    return dialog


class ToolsPage(PagesDialog):
    def __init__(self, desk: Desk, parent: QWidget | None, span: Span) -> None:
        self._span = span
        super().__init__(
            desk, "Print the tools", WORDS,
            service=services.tools, file="tools to lay out.pdf", parent=parent,
        )  # fmt: skip

    def more(self) -> tuple[Any, ...]:
        return (self._span,)
