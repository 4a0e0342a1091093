"""The audit on paper: what is missing, to be worked down at the bench."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import label
from bagtag.ui.sheets.sheet_dialog import Call, PaperDialog

DPI = 300
PAGES = 20
"""How many pages the preview shows; all of them are saved and printed."""


def open_audit(desk: Desk, parent: QWidget | None = None) -> "AuditDialog":
    """Open the audit of the chosen job."""
    dialog = AuditDialog(desk, parent)
    dialog.open()
    return dialog


class AuditDialog(PaperDialog):
    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Print the audit", parent)
        words = "What is still missing, the worst first, with a box to tick."
        self.controls.addWidget(label(words, self, tone="muted"))
        self.refresh()

    def dpi(self) -> int:
        return DPI

    def preview_call(self, width_px: int) -> Call:
        return services.audit.preview, (self.desk.job_id, width_px, PAGES)

    def file_call(self, path: Path) -> Call:
        return services.audit.write, (self.desk.job_id, path)

    def printer_call(self) -> Call:
        return services.audit.printed_pages, (self.desk.job_id, DPI)

    def file_name(self) -> str:
        return "strip audit.pdf"

    def show_preview(self, pngs: Sequence[bytes]) -> None:
        self.pages.show_pages(pngs)
        count = len(pngs)
        most = count == PAGES
        self.said.setText(
            f"The first {count} pages." if most else f"{count} page{'s' * (count != 1)}."
        )
