"""The strip: first paint of a log of a hundred thousand lines, against a table of constants.

    python -m tests.bench.bench_strip

The floor is a table view whose model answers every cell with the same string and has a hundred
thousand rows: made, shown, painted. The strip is made on an open store, shown, and painted with the
newest lines of real removals, pictures of which way included: as many as are in sight, before the
log is counted. Each in turn, in one process, at the same size. Also printed: the time until every
id of the log is there, and with it the true length of the scroll bar.
"""

import os
import time
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QAbstractTableModel, QEventLoop, QModelIndex, Qt
from PySide6.QtWidgets import QTableView

from bagtag import bootstrap
from bagtag.ui import app as program
from bagtag.ui.desk import Desk
from bagtag.ui.strip.strip_model import ROW_ROLE
from bagtag.ui.strip.strip_view import StripView
from tests.bench.bench_common import say, table
from tests.bench.big_store import LINES, fill

ROUNDS = 15
SIZE = (480, 700)
NOWHERE = QModelIndex()
WAIT = QEventLoop.ProcessEventsFlag.WaitForMoreEvents


class Constant(QAbstractTableModel):
    """The same string everywhere."""

    def rowCount(self, _=NOWHERE):
        return LINES

    def columnCount(self, _=NOWHERE):
        return 5

    def data(self, _, role=0):
        return "main shaft bearing" if role == Qt.ItemDataRole.DisplayRole else None


class Constants(QTableView):
    done = False

    def paintEvent(self, event):
        super().paintEvent(event)
        self.done = True


class Strip(StripView):
    done = False

    def paintEvent(self, event):
        super().paintEvent(event)
        last = self.model().rowCount() - 1
        self.done = last >= 0 and self.model().data(self.model().index(last), ROW_ROLE) is not None


def until(app, ready):
    start = time.perf_counter()
    while not ready():
        app.processEvents(WAIT)  # as exec does it: a spinning loop would starve the store's thread
        assert time.perf_counter() - start < 20, "nothing was painted"


def constants(app) -> float:
    start = time.perf_counter()
    view = Constants()
    model = Constant(view)
    view.setModel(model)
    view.resize(*SIZE)
    view.show()
    until(app, lambda: view.done)
    taken = time.perf_counter() - start
    view.close()
    view.deleteLater()
    return taken


def strip(app, desk: Desk, job_id: int) -> tuple[float, float]:
    start = time.perf_counter()
    view = Strip(desk)
    view.resize(*SIZE)
    view.show_job(job_id)
    view.rows.ready.connect(view.scrollToBottom)
    view.show()
    until(app, lambda: view.done)
    painted = time.perf_counter() - start
    until(app, lambda: view.rows.rowCount() == LINES and desk.idle)
    whole = time.perf_counter() - start
    view.close()
    view.deleteLater()
    return painted, whole


def main() -> None:
    app = program.make_app()
    with TemporaryDirectory() as name:
        say(f"a store of {LINES} removals …")
        job_id = fill(Path(name))
        desk = Desk("Ada")
        desk.open(lambda: bootstrap.open_at(Path(name)))
        until(app, lambda: desk.is_open)
        floor, ours, whole = [], [], []
        for turn in range(ROUNDS + 2):
            one, (two, three) = constants(app), strip(app, desk, job_id)
            if turn > 1:
                floor.append(one)
                ours.append(two)
                whole.append(three)
        desk.close()
    a, b, c = (median(times) * 1000 for times in (floor, ours, whole))
    say(f"constants {a:.1f} ms, strip {b:.1f} ms, all ids after {c:.0f} ms")
    say(table([("first paint of 100,000 lines against constants", b / a, "at most", 1.5)]))


if __name__ == "__main__":
    main()
