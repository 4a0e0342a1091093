"""What every dialog that puts something on paper has: a true preview, save and print."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt, QTimer
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QDialog, QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.errors import Trouble
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import label, tight
from bagtag.ui.sheets.sheet_preview import Pages
from bagtag.ui.sheets.sheet_print import NO_PRINTER, has_printer, paper_of, print_pages, set_page

Call = tuple[Callable[..., Any], tuple[Any, ...]]
"""A service and what it is asked with."""


class PaperDialog(QDialog):
    """Subclasses say what to ask for the preview, for the file and for the printer."""

    DELAY = 120
    """How long a change rests before the preview is drawn anew, in milliseconds."""

    def __init__(self, desk: Desk, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self._asked = 0
        self._printer: QPrinter | None = None
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.head = label(title, self, scale="head")
        self.pages = Pages(self)
        self.controls = QVBoxLayout()
        self.said = label("", self, tone="muted")
        self.wrong = label("", self, tone="accent")
        self.wrong.hide()
        self.save = Act("Save as PDF", "Ctrl+S", self, role="primary")
        self.print = Act("Print", "Ctrl+P", self)
        self.put_away = Act("Close", "", self)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(self.DELAY)
        self._connect()
        self._lay()

    def _connect(self) -> None:
        self.save.clicked.connect(self.choose_file)
        self.print.clicked.connect(self.choose_printer)
        self.put_away.clicked.connect(self.reject)
        self._timer.timeout.connect(self.refresh)

    def _lay(self) -> None:
        acts = QHBoxLayout()
        acts.setSpacing(12)
        for act in (self.save, self.print, self.put_away):
            acts.addWidget(act)
        acts.addStretch(1)
        left = QVBoxLayout()
        tight(left, 12)
        left.addWidget(self.head)
        left.addLayout(self.controls)
        left.addStretch(1)
        for widget in (self.said, self.wrong):
            left.addWidget(widget)
        left.addLayout(acts)
        row = QHBoxLayout(self)
        row.setContentsMargins(20, 20, 20, 20)
        row.setSpacing(20)
        row.addLayout(left, 5)
        row.addWidget(self.pages, 6)
        self.resize(960, 680)

    # What a subclass says

    def preview_call(self, width_px: int) -> Call:
        raise NotImplementedError

    def file_call(self, path: Path) -> Call:
        raise NotImplementedError

    def printer_call(self) -> Call:
        raise NotImplementedError

    def dpi(self) -> int:
        raise NotImplementedError

    def file_name(self) -> str:
        raise NotImplementedError

    def show_preview(self, preview: Any) -> None:
        raise NotImplementedError

    def made(self) -> None:
        """The paper is saved or printed: what follows from that."""

    # The preview

    def later(self) -> None:
        """Draw the preview anew once the changes rest."""
        self._timer.start()

    def refresh(self) -> None:
        self._timer.stop()
        self._asked += 1
        width = round(max(self.pages.viewport().width(), 420) * self.devicePixelRatio())
        read, args = self.preview_call(width)
        self.desk.draw(read, self.desk.store, *args, then=self._preview, failed=self._no_preview)

    def _preview(self, preview: Any) -> None:
        self._asked -= 1
        if self._asked == 0:
            self.say_wrong("")
            self.show_preview(preview)

    def _no_preview(self, error: Exception) -> None:
        self._asked -= 1
        if self._asked == 0:
            self.pages.show_pages(())
            self._told(error)

    def say_wrong(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))

    def _told(self, error: Exception) -> None:
        if isinstance(error, Trouble):
            self.say_wrong(error.sentence)
        else:
            self.desk.tell_error(error)

    # Save

    def choose_file(self) -> None:
        dialog = QFileDialog(self, "Save as PDF", self.file_name(), "PDF (*.pdf)")
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix("pdf")
        dialog.fileSelected.connect(self.save_to)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def save_to(self, name: str) -> None:
        self._file = Path(name)
        write, args = self.file_call(self._file)
        self.desk.draw(write, self.desk.store, *args, then=self._saved, failed=self._told)

    def _saved(self, _: Any) -> None:
        self.say_wrong("")
        self.said.setText(f"Saved as {self._file.name}.")
        self.desk.say(f"Saved as {self._file}.")
        self.made()

    # Print

    def choose_printer(self) -> None:
        if not has_printer():
            self.say_wrong(NO_PRINTER)
            return
        self._printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        dialog = QPrintDialog(self._printer, self)
        dialog.accepted.connect(self.print_now)
        dialog.finished.connect(dialog.deleteLater)
        QDialog.open(dialog)  # QPrintDialog has another open, which takes a slot by name

    def print_now(self) -> None:
        """Render the pages at the printer's dots per inch and send them."""
        read, args = self.printer_call()
        self.desk.draw(read, self.desk.store, *args, then=self._send, failed=self._told)

    def _send(self, pngs: Sequence[bytes]) -> None:
        assert self._printer is not None
        set_page(self._printer, paper_of(pngs[0], self.dpi()), self.dpi())
        try:
            print_pages(self._printer, pngs, self.dpi())
        except Trouble as trouble:
            self._told(trouble)
            return
        self.made()
        count = len(pngs)
        self.said.setText(
            f"Sent {count} page{'s' * (count != 1)} to {self._printer.printerName()}."
        )
