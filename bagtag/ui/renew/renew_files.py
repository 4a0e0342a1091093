"""Files of Renew: a list that is taken in, one that is given out, the order list on paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog, QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.renew.import_dialog import ImportDialog
from bagtag.ui.renew.jobs_dialog import JobsDialog
from bagtag.ui.renew.tables import table_in

if TYPE_CHECKING:
    from bagtag.services.jobs import JobRow

FORMS = {
    "CSV, a comma between the cells (*.csv)": ",",
    "CSV, a semicolon between the cells, decimal commas (*.csv)": ";",
    "Text, a tab between the cells (*.tsv)": "\t",
}


class RenewFiles(QObject):
    def __init__(self, desk: Desk, over: QWidget) -> None:
        super().__init__(over)
        self.desk = desk
        self._over = over
        self._file = Path()

    # In

    def choose(self) -> None:
        """Ask for a file, and show what it would bring."""
        self._open().choose()

    def take(self, source: Path | bytes) -> None:
        """Show what a file or a table would bring."""
        self._open().read(source)

    def paste(self) -> bool:
        """Take the table or the file that lies on the clipboard; False where there is none."""
        found = table_in(QGuiApplication.clipboard().mimeData())
        if found is not None:
            self.take(found)
        return found is not None

    def _open(self) -> ImportDialog:
        dialog = ImportDialog(self.desk, self._over)
        dialog.open()
        return dialog

    # Out

    def give_out(self) -> None:
        dialog = QFileDialog(self._over, "Export the list", "new parts.csv", ";;".join(FORMS))
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix("csv")
        dialog.fileSelected.connect(self._chosen)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _chosen(self, name: str) -> None:
        dialog = self.sender()
        assert isinstance(dialog, QFileDialog)
        self.write(Path(name), FORMS.get(dialog.selectedNameFilter(), ","))

    def write(self, file: Path, delimiter: str) -> None:
        self._file = file
        write = services.renewals.write_csv
        jobs = [self.desk.job_id]
        self.desk.draw(write, self.desk.store, jobs, file, delimiter, then=self._written)

    def _written(self, _: Any) -> None:
        self.desk.say(f"Saved as {self._file}.")

    # On paper

    def print_it(self) -> None:
        """The order list of this job, or of several where there are several."""
        self.desk.ask(services.jobs.list_jobs, then=self._jobs)

    def _jobs(self, jobs: list[JobRow]) -> None:
        if len(jobs) > 1:
            dialog = JobsDialog(self.desk, jobs, self._over)
            dialog.chosen.connect(self.open_list)
            dialog.open()
        elif jobs:
            self.open_list([jobs[0].id])

    def open_list(self, job_ids: list[int]) -> None:
        from bagtag.ui.sheets.order_dialog import open_order_list

        open_order_list(self.desk, self._over, tuple(job_ids))
