"""The audit on paper: what is missing, to be worked down at the bench."""

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.sheets.pages_dialog import PagesDialog

WORDS = "What is still missing, the worst first, with a box to tick."


def open_audit(desk: Desk, parent: QWidget | None = None) -> "AuditDialog":
    """Open the audit of the chosen job."""
    dialog = AuditDialog(desk, parent)
    dialog.open()
    return dialog


class AuditDialog(PagesDialog):
    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(
            desk, "Print the audit", WORDS,
            service=services.audit, file="strip audit.pdf", parent=parent,
        )  # fmt: skip
