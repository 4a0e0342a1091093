"""Memory of the idle window, against a bare window.

    python -m tests.bench.bench_memory

Each is a child process; what is taken is its resident set and its proportional set (`Rss` and
`Pss` of /proc/self/smaps_rollup; of pages that several processes map, each counts its share). The
bare window holds a label and a field. Bagtag's has a store of a hundred thousand removals open,
stands on Strip with the log shown, and has had nothing to do for a second and a half.
"""

import os
import subprocess
import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from tests.bench.bench_common import say, table
from tests.bench.big_store import LINES, fill

ROOT = Path(__file__).parent.parent.parent
ROUNDS = 5
IDLE_MS = 1500

TELL = f"""
import sys

def tell():
    import os
    with open("/proc/self/smaps_rollup") as rollup:
        sizes = dict(line.split()[:2] for line in list(rollup)[1:])
    print(sizes["Rss:"], sizes["Pss:"], flush=True)
    os._exit(0)

def when_idle(idle):
    from PySide6.QtCore import QTimer
    def look():
        if idle():
            clock.stop()
            QTimer.singleShot({IDLE_MS}, tell)
    clock = QTimer()
    clock.timeout.connect(look)
    clock.start(20)
    return clock
"""

BARE = (
    TELL
    + """
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QVBoxLayout, QWidget
app = QApplication(["bare"])
window = QWidget()
window.resize(1280, 800)
column = QVBoxLayout(window)
column.addWidget(QLabel("hello, world"))
column.addWidget(QLineEdit())
window.show()
clock = when_idle(lambda: True)
app.exec()
"""
)

OURS = (
    TELL
    + """
from functools import partial
from pathlib import Path
from bagtag import bootstrap
from bagtag.ui import app as program
app = program.make_app()
made = program.Program(app, partial(bootstrap.open_at, Path(sys.argv[1])), "Ada")
made.window.show()

def idle():
    return made.desk.job_id and made.desk.idle and made.window.work.bench.strip.rows.whole

clock = when_idle(idle)
app.exec()
"""
)


def run(code: str, folder: str) -> tuple[int, int]:
    """Resident and proportional set of one child, in KiB."""
    environment = {"QT_QPA_PLATFORM": "offscreen"} | os.environ | {"PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-c", code, folder],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    rss, pss = done.stdout.split()
    return int(rss), int(pss)


def main() -> None:
    taken: dict[str, list[tuple[int, int]]] = {"bare": [], "ours": []}
    with TemporaryDirectory() as folder:
        say(f"a store of {LINES} removals …")
        fill(Path(folder))
        for _ in range(ROUNDS):
            for name, code in (("bare", BARE), ("ours", OURS)):
                taken[name].append(run(code, folder))
    rows = []
    for place, what in enumerate(("resident set", "proportional set")):
        bare, ours = (median(t[place] for t in taken[name]) / 1024 for name in ("bare", "ours"))
        say(f"{what}: bare {bare:.0f} MiB, Bagtag {ours:.0f} MiB")
        rows.append((f"{what} of the idle window", ours / bare, "at most", 1.8))
    say(table(rows))


if __name__ == "__main__":
    main()
