"""Close: what came off equals what went back plus what was renewed or scrapped."""

from bagtag.domain import closing
from bagtag.domain.closing import Closing, ClosingCount
from bagtag.store import belongings, fittings, jobs, removals, sendings
from bagtag.store.work import Store


def closing_count(store: Store, job_id: int) -> ClosingCount:
    """The count of a job as it stands now: by item, by fastener, by container, and what does not
    add up."""
    with store.read() as connection:
        rows = Closing(
            removals=removals.of_job(connection, job_id),
            sign_offs=belongings.sign_offs(connection, job_id),
            tasks=fittings.tasks(connection, job_id),
            areas=jobs.areas(connection, job_id),
            containers=belongings.containers(connection, job_id),
            away=belongings.away_now(connection, job_id),
            came_back=sendings.last_back(connection, job_id).keys(),
        )
    return closing.closing_count(rows)
