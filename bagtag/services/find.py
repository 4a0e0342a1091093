"""Find as one types: removals by their words, over one job or over all."""

from dataclasses import dataclass

from bagtag.store import jobs, removals, search
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Hit:
    """A removal that has the words typed."""

    removal_id: int
    job_id: int
    number: str
    name: str
    job_title: str


def find(store: Store, typed: str, *, job_id: int | None = None, limit: int = 50) -> list[Hit]:
    """Removals that have every word typed, the last as far as it goes, the newest first."""
    with store.read() as connection:
        ids = search.ids(connection, typed, job_id=job_id, limit=limit)
        found = removals.named(connection, ids)
        titles = {job.id: job.title for job in jobs.all_jobs(connection)} if ids else {}
    return [Hit(id_, *found[id_], titles[found[id_][0]]) for id_ in ids if id_ in found]
