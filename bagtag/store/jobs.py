"""Reading jobs and their areas."""

from sqlalchemy import Connection, func, select, text

from bagtag.domain.model import Area, Job, Origin
from bagtag.store import rows
from bagtag.store.tables import area, away, job, removal, sign_off


def get(connection: Connection, job_id: int) -> Job | None:
    row = connection.execute(select(job).where(job.c.id == job_id)).mappings().first()
    return rows.job(row) if row else None


def all_jobs(connection: Connection) -> list[Job]:
    """Every job, the newest first."""
    return [
        rows.job(r) for r in connection.execute(select(job).order_by(job.c.id.desc())).mappings()
    ]


def next_number(connection: Connection) -> int:
    return (connection.scalar(select(func.max(job.c.number))) or 0) + 1


def areas(connection: Connection, job_id: int) -> list[Area]:
    wanted = select(area).where(area.c.job_id == job_id).order_by(area.c.rank, area.c.id)
    return [rows.area(row) for row in connection.execute(wanted).mappings()]


def get_area(connection: Connection, area_id: int) -> Area | None:
    row = connection.execute(select(area).where(area.c.id == area_id)).mappings().first()
    return rows.area(row) if row else None


def opened_by(connection: Connection, removal_id: int) -> list[int]:
    """The areas whose opener is this removal."""
    return list(connection.scalars(select(area.c.id).where(area.c.opener_id == removal_id)))


def counts(connection: Connection, job_id: int) -> tuple[int, int, int]:
    """How many removals of a job came off, are fitted again, and are away now."""
    mine = removal.c.job_id == job_id
    logged = select(func.count()).select_from(removal).where(mine)
    new = logged.where(removal.c.origin == Origin.NEW.value, text("origin <> 'off'"))  # its index
    fitted = select(func.count()).select_from(sign_off.join(removal)).where(mine)
    out = select(func.count()).select_from(away.join(removal)).where(mine, away.c.back_at.is_(None))
    lines, added, back, gone = (connection.scalar(q) or 0 for q in (logged, new, fitted, out))
    return lines - added, back, gone
