"""Start: the window painted and its first key taken, against a bare hello-world window.

    python -m tests.bench.bench_start            offscreen, and under Xvfb where `xvfb-run` is there

Each round starts one process of each, in turn, and takes the time from just before the start to
the first paint and to the first key in the field. The store behind Bagtag's window holds a hundred
thousand removals and opens meanwhile. Both are children of this process with compiled code. The
key is sent the moment the window is painted.
"""

import compileall
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from tests.bench.bench_common import say, table
from tests.bench.big_store import LINES, fill

ROOT = Path(__file__).parent.parent.parent
ROUNDS = 15

PROBE = """
import sys, time

def since_start():
    return time.monotonic() - float(sys.argv[2])

def watch(window, field, app, then):
    from PySide6.QtCore import QObject, QEvent, QTimer

    class Watch(QObject):
        painted = 0.0

        def look(self):
            from PySide6.QtCore import QCoreApplication, Qt
            from PySide6.QtGui import QKeyEvent
            self.painted = since_start()
            field.textChanged.connect(self.typed)
            none = Qt.KeyboardModifier.NoModifier
            for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
                QCoreApplication.postEvent(field, QKeyEvent(kind, 65, none, "a"))

        def typed(self, text):
            if text:
                print(f"{self.painted:.4f} {since_start():.4f}", flush=True)
                then()

    return Watch(app)
"""

BARE = (
    PROBE
    + """
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QVBoxLayout, QWidget
from PySide6.QtCore import QTimer, Signal

class Window(QWidget):
    painted = Signal()
    was = False
    def paintEvent(self, event):
        if not self.was:
            self.was = True
            QTimer.singleShot(0, self.painted.emit)

app = QApplication(["bare"])
window = Window()
window.resize(1280, 800)
column = QVBoxLayout(window)
column.addWidget(QLabel("hello, world"))
field = QLineEdit()
column.addWidget(field)
seen = watch(window, field, app, app.quit)
window.painted.connect(seen.look)
window.show()
app.exec()
import os
os._exit(0)
"""
)

OURS = (
    PROBE
    + """
from functools import partial
from pathlib import Path
from bagtag import bootstrap
from bagtag.ui import app as program
app = program.make_app()
made = program.Program(app, partial(bootstrap.open_at, Path(sys.argv[1])), "Ada")
field = made.window.field.frame.line
seen = watch(made.window, field, app, lambda: None)
made.window.painted.connect(seen.look)

def ready():
    import os
    print(f"open {since_start():.4f}", flush=True)
    os._exit(0)

made.desk.ready.connect(ready)
made.window.show()
app.exec()
"""
)


def run(code: str, folder: Path, display: bool) -> tuple[float, float]:
    """Seconds to the first paint and to the first key, of one start."""
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    if not display:
        environment["QT_QPA_PLATFORM"] = "offscreen"
    done = subprocess.run(
        [sys.executable, "-c", code, str(folder), str(time.monotonic())],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )
    painted, key = done.stdout.split("\n")[0].split()
    return float(painted), float(key)


def measure(folder: Path, display: bool) -> list[tuple[str, float, str, float]]:
    taken: dict[str, list[tuple[float, float]]] = {"bare": [], "ours": []}
    for turn in range(ROUNDS + 1):
        for name, code in (("bare", BARE), ("ours", OURS)):
            times = run(code, folder, display)
            if turn:
                taken[name].append(times)
    bound = 1.25 if display else 1.20
    where = "Xvfb" if display else "offscreen"
    rows = []
    for place, what in enumerate(("painted", "painted and first key taken")):
        bare, ours = (median(t[place] for t in taken[name]) * 1000 for name in ("bare", "ours"))
        say(f"{where}, {what}: bare {bare:.0f} ms, Bagtag {ours:.0f} ms")
        rows.append((f"{what}, {where}", ours / bare, "at most", bound))
    return rows


def main() -> None:
    compileall.compile_dir(ROOT / "bagtag", quiet=1)
    with TemporaryDirectory() as name:
        folder = Path(name)
        say(f"a store of {LINES} removals …")
        fill(folder)
        rows = measure(folder, display=False)
        if os.environ.get("DISPLAY"):
            os.environ.pop("QT_QPA_PLATFORM", None)
            rows += measure(folder, display=True)
        elif shutil.which("xvfb-run"):
            say("run it again under xvfb-run for the other half of the table")
    say(table(rows))


if __name__ == "__main__":
    main()
