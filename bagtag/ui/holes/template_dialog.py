"""The 1:1 template of a hole map: the sheets as they will be printed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, label
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.sheets.sheet_dialog import Call, PaperDialog

if TYPE_CHECKING:
    from bagtag.services.templates import TemplatePreview

DPI = 300
PAGES = 12
"""How many sheets the preview shows; all of them are saved and printed."""
WORDS = (
    "The holes of the part at their true size, to lay on card and push the bolts through. "
    "Print at 100 %, not fitted to the page, and measure the ruler on the sheet before use."
)
_PAPER = "template/paper"


def open_template(desk: Desk, parent: QWidget | None, removal_id: int) -> TemplateDialog:
    """Open the template of a part whose hole map is kept."""
    dialog = TemplateDialog(desk, parent, removal_id)
    dialog.open()
    return dialog


class TemplateDialog(PaperDialog):
    def __init__(self, desk: Desk, parent: QWidget | None, removal_id: int) -> None:
        super().__init__(desk, "Print 1:1 template", parent)
        self._removal_id = removal_id
        papers = services.templates.papers()
        self.paper = Choices("Paper", [Option(name, name) for name in papers], self, columns=3)
        known = str(QSettings().value(_PAPER, papers[0]))
        self.paper.set_value(known if known in papers else papers[0])
        self.controls.addWidget(label(WORDS, self, tone="muted"))
        self.controls.addWidget(Field("Paper", self.paper, self))
        self.paper.chosen.connect(self._chosen)
        self.refresh()

    def _chosen(self) -> None:
        QSettings().setValue(_PAPER, self.paper.value)
        self.later()

    def dpi(self) -> int:
        return DPI

    def preview_call(self, width_px: int) -> Call:
        args = (self._removal_id, width_px, PAGES, self.paper.value)
        return services.templates.preview, args

    def file_call(self, path: Path) -> Call:
        return services.templates.write, (self._removal_id, path, self.paper.value)

    def printer_call(self) -> Call:
        return services.templates.printed_pages, (self._removal_id, DPI, self.paper.value)

    def file_name(self) -> str:
        return "hole template.pdf"

    def show_preview(self, preview: TemplatePreview) -> None:
        self.pages.show_pages(preview.pages)
        sheets = preview.report.sheets
        said = f"{sheets} sheet{'s' * (sheets != 1)} at true size."
        shown = len(preview.pages)
        self.said.setText(said if shown == sheets else f"{said} The first {shown} are shown.")
        self.say_wrong("\n".join(preview.report.warnings))
