"""A confirmed entry against one sync of the same disk: python -m tests.bench.bench_entry [FOLDER]

The floor is a 4 KiB append and fdatasync, which any entry that survives a power cut must pay. The
peer is SQLite alone, by the standard library: the same rows, index and journal entry in one
transaction, written by hand. FOLDER chooses the disk.

Run it on a machine that does nothing else, or with a priority of its own (as root, `chrt -f 50`).
A process that wakes from a sync while others want the processor waits for a tick of the scheduler,
4 ms at 250 Hz: then sync and entry both seem to take 4 ms, their ratio seems to be 1, and what an
entry costs is hidden. So an unsteady floor gets no verdict.
"""

import os
import sqlite3
import sys
from collections.abc import Callable
from itertools import count
from pathlib import Path
from statistics import quantiles
from tempfile import TemporaryDirectory
from uuid import uuid4

from bagtag import services
from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.which_way import Faces, Hand
from bagtag.store.work import Store
from tests.bench.bench_common import interleave, milliseconds, say, table

ROUNDS = 600
UNSTEADY = 3
_INDEX = "INSERT INTO removal_search (rowid, job_id, body) VALUES (?, 1, ?)"


def main() -> None:
    folder = sys.argv[1] if len(sys.argv) > 1 else None
    with TemporaryDirectory(dir=folder) as made:
        _measure(Path(made))


def _measure(folder: Path) -> None:
    store = Store.in_folder(folder / "store")
    job_id = services.jobs.open_job(store, services.jobs.JobForm("Walking tractor")).new_id
    by_hand = _by_hand(store, folder, job_id)
    floor = os.open(folder / "floor", os.O_CREAT | os.O_WRONLY | os.O_APPEND)

    def sync() -> None:
        os.write(floor, b"x" * 4096)
        os.fdatasync(floor)

    def entry() -> None:
        services.strip.log_removal(store, job_id, _entry(), who="Ada")

    taken = interleave(ROUNDS, sync=sync, entry=entry, by_hand=by_hand)
    os.close(floor)
    store.close()
    _report(taken)


def _report(taken: dict[str, list[float]]) -> None:
    ms = milliseconds(taken)
    figures = ", ".join(f"{name} {value:.2f}" for name, value in ms.items())
    say(f"median ms of {ROUNDS}: {figures}; beyond the sync: {ms['entry'] - ms['sync']:.2f}")
    ours, peer = ms["entry"] / ms["sync"], ms["by_hand"] / ms["sync"]
    low, *_, high = (1000 * tenth for tenth in quantiles(taken["sync"], n=10))
    if high > UNSTEADY * low:
        say(f"No verdict: a sync took {low:.2f} to {high:.2f} ms (10th to 90th of 100).")
        say(f"The processor or the disk was shared; the ratio would read {ours:.2f}.")
        return
    say(
        table(
            [
                ("a confirmed entry / one fdatasync", ours, "at most", 1.3),
                ("to compare: SQLite by hand / one fdatasync", peer, "at most", 1.3),
            ]
        )
    )


def _entry() -> Entry:
    return Entry(
        "shift fork R",
        which_way=(Hand("R", stamped=True), Faces("C", Side.RIGHT)),
        held_by=(HeldBy(2, "screw", "M6", 12.0, torque=Torque(10)),),
        uid=str(uuid4()),
    )


def _by_hand(store: Store, folder: Path, job_id: int) -> Callable[[], None]:
    """Write into a copy of the store what one entry writes, and nothing else."""
    services.strip.log_removal(store, job_id, _entry(), who="Ada")
    with store.engine.connect() as connection:
        raw = connection.connection.dbapi_connection
        assert raw is not None
        copy = sqlite3.connect(folder / "by_hand.db", isolation_level=None)
        raw.backup(copy)
        columns, row = _newest(raw, "removal")
        journal = (None, *_newest(raw, "journal")[1][1:])
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
        copy.execute(f"PRAGMA {pragma}")
    ids = count(10)
    body = f"{row[columns.index('name')]} 2 screws M6x12, 10 N·m"
    places = {name: place for place, name in enumerate(columns)}
    marks = ", ".join("?" * len(row))

    def write() -> None:
        id_ = next(ids)
        new = list(row)
        new[places["id"]], new[places["uid"]] = id_, str(uuid4())
        new[places["number"]], new[places["position"]] = str(id_), id_ << 20
        copy.execute("BEGIN IMMEDIATE")
        copy.execute(f"INSERT INTO removal VALUES ({marks})", new)
        copy.execute(
            "INSERT INTO removal_search (rowid, job_id, body) VALUES (?, 1, ?)", (id_, body)
        )
        copy.execute(
            "INSERT INTO tag (code, role, job_id, removal_id) VALUES (?, 'part', 1, ?)",
            (f"{id_:06}", id_),
        )
        copy.execute(f"INSERT INTO journal VALUES ({', '.join('?' * len(journal))})", journal)
        copy.execute("COMMIT")

    return write


def _newest(raw: sqlite3.Connection, name: str) -> tuple[list[str], tuple]:
    found = raw.execute(f"SELECT * FROM {name} ORDER BY id DESC LIMIT 1")
    return [column[0] for column in found.description], found.fetchone()


if __name__ == "__main__":
    main()
