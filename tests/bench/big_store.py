"""A store of a hundred thousand removals, written in bulk."""

from pathlib import Path

from sqlalchemy import text

from bagtag import services
from bagtag.store import tables
from bagtag.store.work import Store

LINES = 100_000
_FACTS = [{"fact": "faces", "feature": "OUT", "toward": "outward"}]
_NAMES = ("shift fork", "main shaft bearing", "oil jet", "cover, clutch side", "retainer plate")


def fill(folder: Path, lines: int = LINES) -> int:
    """Fill a fresh store in a folder; returns the job's id."""
    store = Store.in_folder(folder)
    job_id = services.jobs.open_job(store, services.jobs.JobForm("Walking tractor", "all")).job_id
    with store.engine.begin() as connection:
        for start in range(0, lines, 10_000):
            rows = [_row(job_id, n) for n in range(start + 1, min(start + 10_000, lines) + 1)]
            connection.execute(tables.removal.insert(), rows)
        connection.execute(
            text(
                f"INSERT INTO {tables.SEARCH} (rowid, job_id, body) "
                "SELECT id, job_id, name FROM removal"
            )
        )
    store.close()
    return job_id


def _row(job_id: int, number: int) -> dict[str, object]:
    return {
        "uid": f"uid-{number}",
        "job_id": job_id,
        "number": str(number),
        "serial": number,
        "position": number * 1024,
        "name": f"{_NAMES[number % 5]} {number}",
        "quantity": 1,
        "which_way": _FACTS if number % 3 else [],
        "held_by": [],
        "condition": "",
        "fate": "refit",
        "goes_on": "",
        "note": "",
        "replacement": "wanted",
        "logged_at": "2026-11-02T09:00:00+00:00",
        "logged_by": "Ada",
        "version": 1,
    }
