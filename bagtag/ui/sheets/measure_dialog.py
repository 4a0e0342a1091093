"""A measuring sheet, as it will be printed."""

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.sheets.pages_dialog import PagesDialog, file_named

WORDS = "What was read and what it says; cells to fill in by hand where nothing is read yet."


def open_measure_page(
    desk: Desk, parent: QWidget | None, sheet_id: int, called: str = ""
) -> "MeasureDialog":
    """Open the page of a measuring sheet, which is `called` so in the name of its file."""
    dialog = MeasureDialog(desk, parent, sheet_id, called)
    dialog.open()
    return dialog


class MeasureDialog(PagesDialog):
    def __init__(self, desk: Desk, parent: QWidget | None, sheet_id: int, called: str = "") -> None:
        self._sheet_id = sheet_id
        super().__init__(
            desk, "Print the measuring sheet", WORDS,
            service=services.measure_pages, parent=parent,
            file=file_named("measuring sheet", called),
        )  # fmt: skip

    def subject(self) -> int:
        return self._sheet_id
