"""The chips never lag the typing: from a key to its chips painted, in the whole window.

    python -m tests.bench.bench_chips

A window on a store of a hundred thousand removals types a line of 120 characters key by key. Each
key is timed from its event to the end of the painting that follows from it: line, hint and chips.
The floor is a bare window with nothing but a line edit of the same font, its keys timed alike; each
round types one line into both, in turn. Also printed: what a reader of the same line takes alone.
"""

import os
import time
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QCoreApplication, QEvent, QEventLoop, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QVBoxLayout, QWidget

from bagtag import bootstrap
from bagtag.store.engine import Location
from bagtag.ui import app as program
from bagtag.ui import fonts, theme
from bagtag.ui.field.chips import ChipRow
from tests.bench.bench_common import say, table
from tests.bench.big_store import LINES, fill

ROUNDS = 12
FRAME = 1000 / 60
LINE = (
    "shift fork R, C faces clutch side, 2nd of 3 from left, 11 x M6x30 + 2 x M6x55, "
    "8mm head, 10 Nm, blue, oil, bag 12, renew"
)
WAIT = QEventLoop.ProcessEventsFlag.WaitForMoreEvents
NONE = Qt.KeyboardModifier.NoModifier


def until(app: QApplication, ready) -> None:
    start = time.perf_counter()
    while not ready():
        app.processEvents(WAIT)
        assert time.perf_counter() - start < 120, "nothing came"


def press(widget: QWidget, letter: str) -> None:
    for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
        event = QKeyEvent(kind, Qt.Key(ord(letter.upper())), NONE, letter)
        QCoreApplication.sendEvent(widget, event)


def bare_window() -> tuple[QWidget, QLineEdit]:
    window = QWidget()
    line = QLineEdit(window)
    line.setFont(fonts.font(theme.HEAD))
    QVBoxLayout(window).addWidget(line)
    window.resize(1280, 120)
    window.show()
    return window, line


def typed(app: QApplication, line: QLineEdit, painted) -> list[float]:
    """Milliseconds from each key to the end of its painting."""
    taken = []
    for letter in LINE:
        before = painted()
        start = time.perf_counter()
        press(line, letter)
        until(app, lambda before=before: painted() > before)
        taken.append((time.perf_counter() - start) * 1000)
    return taken


def count_paints(widget: QWidget):
    """How often a widget was painted; painting itself is as it was."""
    kind = type(widget)
    counts = [0]

    class Counted(kind):  # type: ignore[misc, valid-type]  # the very widget, counted
        def paintEvent(self, event):
            super().paintEvent(event)
            counts[0] += 1

    widget.__class__ = Counted
    return lambda: counts[0]


def main() -> None:
    app = program.make_app()
    with TemporaryDirectory() as name:
        say(f"a store of {LINES} removals …")
        fill(Path(name))
        window, desk = bootstrap.make_window(Location.in_folder(Path(name)), "Ada")
        window.show()
        until(app, lambda: window.work is not None)
        window.work.go_to("Strip")
        until(app, lambda: desk.idle and window.field.reader is not None)
        bare, floor_line = bare_window()
        line, chips = window.field.frame.line, window.field.chips
        assert isinstance(chips, ChipRow)
        of_chips, of_line = count_paints(chips), count_paints(floor_line)
        ours, floor = [], []
        for turn in range(ROUNDS + 1):
            line.clear()
            floor_line.clear()
            until(app, lambda: desk.idle)
            one, two = typed(app, floor_line, of_line), typed(app, line, of_chips)
            if turn:
                floor += one
                ours += two
        report(ours, floor, read_alone(window))
        window.stop()
        desk.close()
        bare.close()


def read_alone(window) -> float:
    reader, taken = window.field.reader, []
    for end in range(1, len(LINE) + 1):
        start = time.perf_counter()
        reader.read(LINE[:end])
        taken.append((time.perf_counter() - start) * 1000)
    return median(taken)


def report(ours: list[float], floor: list[float], reader: float) -> None:
    middle, base = median(ours), median(floor)
    p95 = quantiles(ours, n=20)[18]
    say(f"a key to its chips painted: median {middle:.2f} ms, p95 {p95:.2f} ms")
    say(f"a bare line edit's key painted: median {base:.2f} ms; the reader alone {reader:.2f} ms")
    say(
        table(
            [
                ("a key with chips / a bare line edit's key", middle / base, "at most", 20),
                ("p95 of a key with chips / one frame at 60 Hz", p95 / FRAME, "at most", 1),
            ]
        )
    )


if __name__ == "__main__":
    main()
