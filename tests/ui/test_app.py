"""The program's life, as a process of its own: it opens, it ends when told, it leaves nothing."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

OFFSCREEN = "This plugin does not support propagateSizeHints()"
CODE = """
import sys
from functools import partial
from pathlib import Path
from bagtag import bootstrap
from bagtag.ui import app

from PySide6.QtCore import QTimer
from bagtag.ui.stage_bar import STAGES
from bagtag.ui.window_work import UNDER

made = app.Program
class Told(made):
    def _open(self):
        super()._open()
        self.left = [*STAGES, *UNDER]
        self.desk.ready.connect(self.look_round)
    def look_round(self):
        work = self.window.work
        if work is not None and self.desk.job_id and self.desk.idle and self.left:
            work.go_to(self.left.pop(0))
        if self.left and sys.argv[2] == "demo":
            QTimer.singleShot(20, self.look_round)
        else:
            print("ready", flush=True)
app.Program = Told
sys.exit(bootstrap.run(data_dir=Path(sys.argv[1]), demo=sys.argv[2] == "demo", who="Ada"))
"""


@pytest.mark.skipif(os.name == "nt", reason="Windows knows no polite kill")
@pytest.mark.parametrize("told", [signal.SIGTERM, signal.SIGINT])
@pytest.mark.parametrize("kind", ["demo", "store"])
def test_a_polite_kill_ends_it_as_closing_does_and_quietly(tmp_path: Path, told, kind):
    scratch = tmp_path / "scratch"
    scratch.mkdir()
    environment = os.environ | {"TMPDIR": str(scratch), "XDG_CONFIG_HOME": str(tmp_path / "conf")}
    running = subprocess.Popen(
        [sys.executable, "-c", CODE, str(tmp_path / "data"), kind],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=environment,
        cwd=Path(__file__).parent.parent.parent,
    )
    assert running.stdout is not None
    assert running.stdout.readline() == "ready\n"
    assert bool(list(scratch.glob("bagtag-demo-*"))) == (kind == "demo")
    running.send_signal(told)
    _, wrong = running.communicate(timeout=60)
    assert running.returncode == 0, wrong
    assert [line for line in wrong.splitlines() if OFFSCREEN not in line] == []
    assert list(scratch.glob("bagtag-demo-*")) == []
    assert (tmp_path / "data" / "bagtag.db").exists() == (kind == "store")


def test_the_default_store_lies_in_the_users_data_folder(monkeypatch, tmp_path):
    from bagtag import bootstrap

    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    folder = bootstrap.default_folder()
    assert folder.name == "bagtag"
    assert bootstrap.locate().database == folder / "bagtag.db"
    if sys.platform == "linux":
        assert folder == tmp_path / "bagtag"


def test_a_store_is_found_by_its_url(tmp_path):
    from bagtag import bootstrap

    assert bootstrap.locate(database=f"sqlite:///{tmp_path}/a.db").database == tmp_path / "a.db"
