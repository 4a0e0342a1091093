"""Undo and redo, across restarts, and what was done."""

from dataclasses import dataclass
from datetime import datetime

from bagtag.domain.change import Change
from bagtag.store import journal
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Deed:
    """One line of the history."""

    at: datetime
    who: str
    act: str


def undo(store: Store, job_id: int, *, who: str = "") -> Change:
    """Take back the newest act of a job that still stands."""
    return store.undo(who=who, job_id=job_id)


def redo(store: Store, job_id: int, *, who: str = "") -> Change:
    """Do the newest undone act of a job again."""
    return store.redo(who=who, job_id=job_id)


def next_names(store: Store, job_id: int) -> tuple[str, str]:
    """What undo and redo would do, by name; empty where there is nothing."""
    with store.read() as connection:
        return journal.next_names(connection, job_id)


def history(store: Store, job_id: int, limit: int = 100) -> list[Deed]:
    """The newest acts of a job."""
    with store.read() as connection:
        found = journal.history(connection, job_id, limit)
    return [Deed(datetime.fromisoformat(row["at"]), row["who"], row["act"]) for row in found]
