"""A process killed in the middle of logging, again and again: every confirmed entry is there.

100 kills, or as many as BAGTAG_KILLS in the environment says. docs/reliability.md has figures.
"""

import os
import random
import signal
import subprocess
import sys
import time

import pytest

from bagtag import services

KILLS = int(os.environ.get("BAGTAG_KILLS", "100"))

# Every line goes through the use cases, and is told only after it was confirmed. Forks of a process
# that has everything imported start at once, and are killed like any other.
BENCH = """
import os, sys
from pathlib import Path
from uuid import uuid4
from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.services.strip import Extras
from bagtag.store.work import Store
from bagtag.domain.fitting import part

folder, job_id = Path(sys.argv[1]), int(sys.argv[2])
services.board, services.history  # imported once, before the first fork

def log_until_killed():
    store = Store.in_folder(folder)
    last = None
    for turn in range(1_000_000):
        uid = str(uuid4())
        extras = Extras(before=last if turn % 5 == 4 else None, container_wanted=f"bag {turn % 7}")
        last = services.strip.log_removal(store, job_id, Entry("bolt", uid=uid), extras).new_id
        os.write(1, f"{uid}\\n".encode())
        if turn % 11 == 10:
            form = services.signing.SignForm(reason="trial")
            services.signing.sign(store, part(last), form, who="Ada")
            os.write(1, f"signed {uid}\\n".encode())

for _ in sys.stdin:
    child = os.fork()
    if not child:
        log_until_killed()
    os.write(1, f"pid {child}\\n".encode())
    os.waitpid(child, 0)
    os.write(1, b"killed\\n")
"""


def one_kill(bench: subprocess.Popen[str], after: float) -> list[str]:
    """Let a child log for `after` seconds, kill it, and return what it confirmed."""
    bench.stdin.write("go\n")
    bench.stdin.flush()
    pid, told = None, []
    while not (pid and told):  # the clock runs from its first entry
        pid, told = _heard(bench.stdout.readline(), pid, told)
    time.sleep(after)
    os.kill(pid, signal.SIGKILL)
    while (line := bench.stdout.readline()) != "killed\n":
        pid, told = _heard(line, pid, told)
    return told


def _heard(line: str, pid: int | None, told: list[str]) -> tuple[int | None, list[str]]:
    if line.startswith("pid "):
        return int(line.split()[1]), told
    assert line.endswith("\n"), "the bench has fallen over"
    return pid, [*told, line.strip()]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="fork and SIGKILL are POSIX")
def test_every_confirmed_entry_survives_a_kill(store, job_id):
    chance = random.Random(20)
    confirmed: list[str] = []
    folder = str(store.location.database.parent)
    store.close()
    with subprocess.Popen(
        [sys.executable, "-c", BENCH, folder, str(job_id)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as bench:
        for _ in range(KILLS):
            confirmed += one_kill(bench, chance.uniform(0, 0.12))
        bench.stdin.close()
    log = [services.strip.get_removal(store, id_) for id_ in services.strip.log_ids(store, job_id)]
    board = services.board.board(store, job_id)
    signed = {step.removal_id for step in board.steps if step.sign_off}
    kept = {removal.uid for removal in log} | {
        f"signed {removal.uid}" for removal in log if removal.id in signed
    }
    assert len(confirmed) >= KILLS
    assert set(confirmed) <= kept
    assert len(kept) - len(confirmed) <= KILLS, "a kill leaves one act that was not told, at most"
    assert services.check.check(store).findings == ()
