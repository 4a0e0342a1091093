"""The build checklist: the pages as they will be printed."""

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.sheets.pages_dialog import PagesDialog

WORDS = "Every step of the build in its order, which way round, with a box to tick."


def open_checklist(desk: Desk, parent: QWidget | None = None) -> "ChecklistDialog":
    """Open the checklist of the chosen job."""
    dialog = ChecklistDialog(desk, parent)
    dialog.open()
    return dialog


class ChecklistDialog(PagesDialog):
    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(
            desk, "Print the checklist", WORDS,
            service=services.checklists, file="build checklist.pdf", parent=parent,
        )  # fmt: skip
