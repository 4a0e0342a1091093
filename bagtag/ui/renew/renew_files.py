"""Files of Renew: a list that is taken in, one that is given out, the order list on paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog, QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.renew.import_dialog import ImportDialog
from bagtag.ui.renew.jobs_dialog import JobsDialog
from bagtag.ui.renew.renew_lines import suppliers
from bagtag.ui.renew.tables import table_in

if TYPE_CHECKING:
    from bagtag.services.jobs import JobRow

FORMS = {
    "CSV, a comma between the cells (*.csv)": ",",
    "CSV, a semicolon between the cells, decimal commas (*.csv)": ";",
    "Text, a tab between the cells (*.tsv)": "\t",
}


class RenewFiles(QObject):
    taken_in = Signal()
    """A list was taken in, and its form is closed."""

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
        dialog.accepted.connect(self.taken_in)
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
        """The order list; where there are several jobs or suppliers it is asked of which."""
        self.desk.ask(jobs_and_suppliers, self.desk.job_id, then=self._known)

    def _known(self, known: tuple[list[JobRow], list[str]]) -> None:
        jobs, suppliers = known
        if len(jobs) > 1 or len(suppliers) > 1:
            dialog = JobsDialog(self.desk, jobs, suppliers, self._over)
            dialog.chosen.connect(self.open_list)
            dialog.open()
        else:
            self.open_list([self.desk.job_id], "")

    def open_list(self, job_ids: list[int], supplier: str) -> None:
        from bagtag.ui.sheets.order_dialog import open_order_list

        open_order_list(self.desk, self._over, tuple(job_ids), supplier)


def jobs_and_suppliers(store: Any, job_id: int) -> tuple[list[JobRow], list[str]]:
    """Every job, and every supplier that something of this one comes from."""
    return services.jobs.list_jobs(store), suppliers(services.renewals.lines(store, job_id))
