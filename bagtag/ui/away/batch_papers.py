"""The papers of a send-out (a quote, a drawing, an invoice): added, dropped, opened, taken off."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.errors import Trouble
from bagtag.domain.send_out import Document
from bagtag.ui.forms.basics import button, label, tight
from bagtag.ui.forms.dropped import files_in
from bagtag.ui.forms.rows import Rows

if TYPE_CHECKING:
    from bagtag.domain.change import Change
    from bagtag.ui.desk import Desk


class BatchPapers(QWidget):
    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self._send_out_id = 0
        self._papers: Sequence[Document] = ()
        self.slips = Rows("Paper", self)
        self.add = button("Add a paper…", self, name="Add a quote, a drawing or an invoice")
        self.hint = label("Quotes, drawings, invoices: choose them, or drop them here.", self)
        self.hint.setProperty("tone", "muted")
        self.hint.setWordWrap(False)
        self.refused = label("", self, scale="small", tone="accent")
        row = QHBoxLayout()
        tight(row, 12)
        row.addWidget(self.add)
        row.addWidget(self.hint)
        row.addStretch(1)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addWidget(self.slips)
        column.addLayout(row)
        column.addWidget(self.refused)
        self.refused.hide()
        self.setAcceptDrops(True)
        self.add.clicked.connect(self._choose)
        self.slips.opened.connect(self._open)
        self.slips.removed.connect(self._take_out)

    def show_papers(self, send_out_id: int, papers: Sequence[Document]) -> None:
        if send_out_id != self._send_out_id:
            self._say([])
        self._send_out_id, self._papers = send_out_id, papers
        self.slips.set_rows([one.name for one in papers])
        self.hint.setVisible(not papers)

    def in_turn(self) -> list[QWidget]:
        """What Tab comes to here."""
        return [*(self.slips.slip(place) for place in range(len(self.slips))), self.add]

    def take_in(self, sources: Sequence[Path]) -> None:
        """Keep these files with the send-out; each that cannot be kept is named."""
        self._say([])
        self.desk.act(
            services.documents.add, self._send_out_id, list(sources),
            then=self._taken, failed=self._failed,
        )  # fmt: skip

    def _taken(self, answer: tuple[Change, list[str]]) -> None:
        self._say(answer[1])

    def _failed(self, error: BaseException) -> None:
        if isinstance(error, Trouble):
            self._say([error.sentence])
        else:
            self.desk.tell_error(error)

    def _say(self, sentences: Sequence[str]) -> None:
        self.refused.setText("\n".join(sentences))
        self.refused.setVisible(bool(sentences))

    def _choose(self) -> None:
        dialog = QFileDialog(self, "Add papers to the send-out")
        dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
        dialog.filesSelected.connect(self._chosen)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _chosen(self, names: list[str]) -> None:
        self.take_in([Path(name) for name in names])

    def _open(self, place: int) -> None:
        """In whatever program this machine opens such a file with."""
        paper = self._papers[place]
        self.desk.ask(services.documents.path, paper, then=self._show, failed=self._failed)

    def _show(self, path: Path) -> None:
        if not path.is_file():
            self._say([f"The file {path.name} is missing from the store. Add the paper again."])
        elif not QDesktopServices.openUrl(QUrl.fromLocalFile(str(path))):
            self._say([f"No program opens this kind of file here. It lies at {path}."])

    def _take_out(self, place: int) -> None:
        self.desk.act(services.documents.take_out, self._papers[place].id)
        self.add.setFocus()

    # Dropped

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if files_in(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        files = files_in(event.mimeData())
        if files:
            event.acceptProposedAction()
            self.take_in(files)
