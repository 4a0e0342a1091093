"""Search as typed at 100,000 removals against reading 50 rows by key.

    python -m tests.bench.bench_search [REMOVALS]

What is typed: every beginning, from its first letter on, of words and pairs of words that name
parts. The floor is the database alone, reading 50 rows by their keys through the standard
library. Bagtag answers twice: the ids alone, and the whole list as the window gets it.
"""

import random
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory
from time import perf_counter

from bagtag import services
from bagtag.store import rows, search
from bagtag.store.tables import SEARCH, removal
from bagtag.store.work import Store
from tests.bench.bench_common import say, table

PARTS = [
    "fork",
    "bearing",
    "shaft",
    "gear",
    "plate",
    "gasket",
    "seal",
    "washer",
    "circlip",
    "dowel",
    "bolt",
    "stud",
    "spring",
    "jet",
]
KINDS = [
    "shift",
    "main",
    "input",
    "output",
    "clutch",
    "rocker",
    "oil",
    "thrust",
    "retainer",
    "exhaust",
    "inlet",
    "pilot",
]
SIDES = [
    "left",
    "right",
    "upper",
    "lower",
    "inner",
    "outer",
    "flywheel",
    "gearbox",
    "front",
    "rear",
]


def main() -> None:
    many = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    with TemporaryDirectory() as folder:
        store = Store.in_folder(Path(folder))
        fill(store, many)
        _measure(store, many)
        store.close()


def fill(store: Store, many: int) -> None:
    """A long log, straight into the tables and the index: the bench is of the reading."""
    job_id = services.jobs.open_job(store, services.jobs.JobForm("Walking tractor")).new_id
    chance = random.Random(3)
    made = [_row(chance, job_id, number) for number in range(1, many + 1)]
    with store.engine.begin() as connection:
        connection.execute(removal.insert(), made)
        connection.exec_driver_sql(
            f"INSERT INTO {SEARCH} (rowid, job_id, body) VALUES (?, ?, ?)",
            [(row["id"], job_id, rows.search_text(row)) for row in made],
        )


def _row(chance: random.Random, job_id: int, number: int) -> dict[str, object]:
    name = f"{chance.choice(KINDS)} {chance.choice(PARTS)} {chance.choice(SIDES)} {number % 97}"
    note = " ".join(chance.choices(PARTS + KINDS + SIDES, k=6))
    held_by = [{"count": chance.randint(1, 9), "kind": "bolt", "thread": "M6", "length": 30.0}]
    empty = {"condition": "", "goes_on": "", "area_id": None, "container_id": None, "version": 1}
    return empty | {
        "id": number,
        "uid": f"{number:036}",
        "job_id": job_id,
        "number": str(number),
        "serial": number,
        "position": number << 20,
        "name": name,
        "quantity": 1,
        "which_way": [],
        "held_by": held_by,
        "fate": "refit",
        "note": note,
        "replacement": "wanted",
        "logged_at": "2026-05-17T09:30:00+00:00",
        "logged_by": "Ada",
    }


def typed(chance: random.Random) -> Iterator[str]:
    """What stands in the field after each key."""
    for _ in range(40):
        text = f"{chance.choice(KINDS)} {chance.choice(PARTS)}"
        if chance.random() < 0.3:
            text = str(chance.randint(1, 99_999))
        for length in range(1, len(text) + 1):
            yield text[:length]


def _measure(store: Store, many: int) -> None:
    chance = random.Random(11)
    times: dict[str, list[float]] = {"key": [], "ids": [], "find": []}
    with store.read() as connection, closing(sqlite3.connect(store.location.database)) as raw:
        for text in typed(chance):
            keys = chance.sample(range(1, many + 1), 50)
            times["key"].append(_taken(_by_key, raw, keys))
            times["ids"].append(_taken(search.ids, connection, text))
            times["find"].append(_taken(services.find.find, store, text))
    for name, taken in times.items():
        say(f"{name:6} median {median(taken) * 1e3:7.3f} ms, p95 {_p95(taken) * 1e3:7.3f} ms")
    floor = median(times["key"])
    rows_ = []
    for what, name in (("ids", "ids"), ("list", "find")):
        middle, late = median(times[name]) / floor, _p95(times[name]) / floor
        rows_.append((f"{what} as typed, median / 50 rows by key", middle, "at most", 4))
        rows_.append((f"{what} as typed, p95 / 50 rows by key", late, "at most", 12))
    say(table(rows_))


def _by_key(raw: sqlite3.Connection, keys: list[int]) -> list[tuple]:
    """The database's own cost: nothing of ours on top, no row made into anything."""
    marks = ", ".join("?" * len(keys))
    return raw.execute(f"SELECT * FROM removal WHERE id IN ({marks})", keys).fetchall()


def _taken(call, *arguments: object) -> float:
    start = perf_counter()
    call(*arguments)
    return perf_counter() - start


def _p95(taken: list[float]) -> float:
    return quantiles(taken, n=20)[-1]


if __name__ == "__main__":
    main()
