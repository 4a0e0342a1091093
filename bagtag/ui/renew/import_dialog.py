"""Taking a list in: what it would add and change is shown first, and what is wrong with it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QDialog, QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.errors import Trouble
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, button, label
from bagtag.ui.forms.signed import Signed
from bagtag.ui.renew.import_lines import PlannedList
from bagtag.ui.renew.tables import FILTER, table_in

if TYPE_CHECKING:
    from bagtag.domain.renewal_csv_read import CsvRead
    from bagtag.domain.renewal_import import ImportPlan

HOW = (
    "Choose a file, drop one here, or paste a table (Ctrl+V). Commas, semicolons or tabs between "
    "the cells; with a header, or in this order: what, size, part number, count, supplier, price."
)
_PARTED = {",": "commas", ";": "semicolons", "\t": "tabs"}


class ImportDialog(QDialog):
    """Enter takes it in; until then nothing in the list is changed."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.plan: ImportPlan | None = None
        self._name = self._about = ""
        self._asked = 0
        self._is_busy = False
        self.setWindowTitle("Import a list")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setAcceptDrops(True)
        self.head = label("Import a list of new parts", self, scale="head")
        self.said = label(HOW, self, tone="muted")
        self.wrong = label("", self, tone="accent")
        self.list = PlannedList(self)
        self.troubles = Signed("!", self, name="What is wrong with it")
        self.take = button("Take it in\u2002Enter", self, role="primary", name="Take it in")
        self.file = button("Choose a file…", self, name="Choose a file")
        self.leave = button("Close\u2002Esc", self, role="quiet", name="Close")
        self._lay()
        self.take.clicked.connect(self.take_in)
        self.file.clicked.connect(self.choose)
        self.leave.clicked.connect(self.reject)
        self._show(None)
        self.file.setFocus()

    def _lay(self) -> None:
        acts = QHBoxLayout()
        for press in (self.take, self.file, self.leave):
            acts.addWidget(press)
        acts.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 20, 20, 20)
        column.setSpacing(12)
        for widget in (self.head, self.said, self.wrong, self.list, self.troubles):
            column.addWidget(widget)
        column.setStretchFactor(self.list, 1)
        column.addStretch(0)
        column.addLayout(acts)
        self.resize(720, 560)

    # Where it comes from

    def choose(self) -> None:
        dialog = QFileDialog(self, "Import a list", "", FILTER)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.fileSelected.connect(self._chosen)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _chosen(self, name: str) -> None:
        self.read(Path(name))

    def read(self, source: Path | bytes) -> None:
        """Read a file or a table that was pasted, and show what it would do."""
        self._name = source.name if isinstance(source, Path) else "What was pasted"
        self._asked += 1
        self.said.setText(f"{self._name} is read…")
        read = services.renewals.read_csv
        self.desk.draw(read, source, then=self._read, failed=self._not_read)

    def _read(self, found: CsvRead) -> None:
        plan = services.renewals.plan_import
        self.desk.ask(plan, self.desk.job_id, found, then=self._planned, failed=self._not_read)
        marks = _PARTED.get(found.delimiter, "cells")
        header = "a header" if found.header else "no header"
        self._about = f"{self._name}: {marks} between the cells, {header}, {found.encoding}."

    def _planned(self, plan: ImportPlan) -> None:
        self._asked -= 1
        if self._asked == 0:
            self.wrong.hide()
            self._show(plan)

    def _not_read(self, error: Exception) -> None:
        self._asked -= 1
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
            return
        self._show(None)
        self.wrong.setText(error.sentence)
        self.wrong.show()

    # What it would do

    def _show(self, plan: ImportPlan | None) -> None:
        self.plan = plan
        self.head.setText(sum_words(plan) if plan is not None else "Import a list of new parts")
        self.said.setText(self._about if plan is not None else HOW)
        self.list.show_plan(plan)
        self.list.setVisible(plan is not None and plan.does_something)
        self.troubles.say(plan.troubles if plan is not None else ())
        can = plan is not None and plan.does_something
        self.take.setEnabled(can)
        if plan is None:
            self.wrong.hide()
        elif can:
            self.take.setFocus()

    def take_in(self) -> None:
        if self.plan is None or not self.plan.does_something or self._is_busy:
            return
        self._say_busy(is_busy=True)
        take = services.renewals.apply_import
        self.desk.act(take, self.plan, then=self._taken, failed=self._failed)

    def _say_busy(self, *, is_busy: bool) -> None:
        """A long list takes a while: it says so, and cannot be left half way."""
        self._is_busy = is_busy
        for press in (self.take, self.file, self.leave):
            press.setEnabled(not is_busy)
        if is_busy:
            self.head.setText("It is taken in…")
            self.said.setText("A long list takes some seconds. Ctrl+Z takes all of it back.")
        elif self.plan is not None:
            self.head.setText(sum_words(self.plan))
            self.said.setText(self._about)

    def reject(self) -> None:
        if not self._is_busy:
            super().reject()

    def _taken(self, _: Any) -> None:
        self._say_busy(is_busy=False)
        self.accept()

    def _failed(self, error: Exception) -> None:
        self._say_busy(is_busy=False)
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
            return
        self.wrong.setText(error.sentence)
        self.wrong.show()

    # Keys, and what is dropped

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        elif event.key() in ENTER:
            self.take_in()
        else:
            super().keyPressEvent(event)

    def paste(self) -> None:
        found = table_in(QGuiApplication.clipboard().mimeData(), wanted=True)
        if found is not None:
            self.read(found)
            return
        self.wrong.setText("There is no table to paste. Copy some rows of a spreadsheet first.")
        self.wrong.show()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if table_in(event.mimeData(), wanted=True) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        found = table_in(event.mimeData(), wanted=True)
        if found is not None:
            event.acceptProposedAction()
            self.read(found)


def sum_words(plan: ImportPlan) -> str:
    """`3 new, 2 changed, 5 as they are`"""
    alike = f"{plan.alike} as {'it is' if plan.alike == 1 else 'they are'}" if plan.alike else ""
    new, changed = len(plan.new), len(plan.changed)
    said = (f"{new} new" if new else "", f"{changed} changed" if changed else "", alike)
    return ", ".join(filter(None, said)) or "Nothing in it can be taken in"
