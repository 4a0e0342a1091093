"""Pages as they will be printed: the build checklist, the strip audit, a traveller."""

import re
from collections.abc import Sequence
from pathlib import Path
from types import ModuleType
from typing import Any

from PySide6.QtWidgets import QWidget

from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import label
from bagtag.ui.sheets.sheet_dialog import Call, PaperDialog

DPI = 300
PAGES = 20
"""How many pages the preview shows; all of them are saved and printed."""
_NO_FILE = re.compile(r'[\\/:*?"<>|\x00-\x1f]+')


def file_named(paper: str, of: str = "") -> str:
    """`build checklist, gearbox.pdf`, whatever signs a name has that no file may have."""
    name = " ".join(_NO_FILE.sub(" ", of).split())
    return f"{paper}, {name[:80].rstrip()}.pdf" if name else f"{paper}.pdf"


class PagesDialog(PaperDialog):
    """`service` writes, previews and renders the pages; `words` say what is on
    them, `file` is the name that saving offers."""

    def __init__(
        self, desk: Desk, title: str, words: str, *, service: ModuleType, file: str,
        parent: QWidget | None = None,
    ) -> None:  # fmt: skip
        super().__init__(desk, title, parent)
        self._service, self._file_name = service, file
        self.controls.addWidget(label(words, self, tone="muted"))
        self.refresh()

    def subject(self) -> Any:
        """What the pages are of: the chosen job."""
        return self.desk.job_id

    def more(self) -> tuple[Any, ...]:
        """What the service is told beside it: which of its pages are wanted."""
        return ()

    def dpi(self) -> int:
        return DPI

    def preview_call(self, width_px: int) -> Call:
        return self._service.preview, (self.subject(), width_px, PAGES, *self.more())

    def file_call(self, path: Path) -> Call:
        return self._service.write, (self.subject(), path, *self.more())

    def printer_call(self) -> Call:
        return self._service.printed_pages, (self.subject(), DPI, *self.more())

    def file_name(self) -> str:
        return self._file_name

    def show_preview(self, pngs: Sequence[bytes]) -> None:
        self.pages.show_pages(pngs)
        count = len(pngs)
        most = count == PAGES
        self.said.setText(
            f"The first {count} pages." if most else f"{count} page{'s' * (count != 1)}."
        )
