"""Reading the strip log."""

from collections.abc import Iterable, Iterator, Sequence
from typing import TypeVar

from sqlalchemy import ColumnElement, Connection, Select, String, bindparam, func, select

from bagtag.domain.model import Fate, Origin, Removal, Replacement
from bagtag.domain.resolve import other_part
from bagtag.domain.standing import Outline
from bagtag.store import rows
from bagtag.store.tables import removal

c = removal.c
T = TypeVar("T")
_FATES = {fate.value: fate for fate in Fate}
_ORIGINS = {origin.value: origin for origin in Origin}
_REPLACEMENTS = {state.value: state for state in Replacement}
_ID_OF_UID = select(c.id).where(c.uid == bindparam("uid"))
_NAMED = select(c.id, c.job_id, c.number, c.name).where(c.id.in_(bindparam("ids", expanding=True)))
_END_OF_LOG = select(  # two queries in one: each is a look-up at the end of its own index
    select(func.max(c.serial)).where(c.job_id == bindparam("job")).scalar_subquery(),
    select(func.max(c.position)).where(c.job_id == bindparam("job")).scalar_subquery(),
)

NEAR = 300
"""How many lines are looked through for a part that another one names."""
MANY = 500
"""How many ids go into one query; SQLite takes at most 32,766 parameters."""


def _newest(which: ColumnElement[bool]) -> Select[tuple[int]]:
    return select(c.id).where(which).order_by(c.position.desc()).limit(NEAR)


_NAMING_OTHERS = (
    select(c.id)
    .where(c.id.in_(_newest(c.job_id == bindparam("job"))))
    .where(c.which_way.cast(String).contains('"uid": ""'))
    .order_by(c.position)
)


def get(connection: Connection, removal_id: int) -> Removal | None:
    row = connection.execute(select(removal).where(removal.c.id == removal_id)).mappings().first()
    return rows.removal(row) if row else None


def id_of_uid(connection: Connection, uid: str) -> int | None:
    found: int | None = connection.scalar(_ID_OF_UID, {"uid": uid})
    return found


def by_number(connection: Connection, job_id: int, number: str) -> Removal | None:
    wanted = select(removal).where(removal.c.job_id == job_id, removal.c.number == number)
    row = connection.execute(wanted).mappings().first()
    return rows.removal(row) if row else None


def by_ids(connection: Connection, ids: Sequence[int]) -> dict[int, Removal]:
    found: dict[int, Removal] = {}
    for some in in_batches(ids):
        wanted = select(removal).where(removal.c.id.in_(some))
        found |= {r["id"]: rows.removal(r) for r in connection.execute(wanted).mappings()}
    return found


def by_uids(connection: Connection, uids: Iterable[str]) -> dict[str, Removal]:
    found: dict[str, Removal] = {}
    for some in in_batches(sorted(uids)):
        wanted = select(removal).where(removal.c.uid.in_(some))
        found |= {r["uid"]: rows.removal(r) for r in connection.execute(wanted).mappings()}
    return found


def tied_to(connection: Connection, parts: Iterable[Removal]) -> dict[str, Removal]:
    """The entries, by uid, that the facts of these are tied to, and theirs in turn."""
    found: dict[str, Removal] = {}
    named = set(_others(parts))
    while named:
        new = by_uids(connection, named)
        found |= new
        named = set(_others(new.values())) - set(found)
    return found


def _others(parts: Iterable[Removal]) -> Iterator[str]:
    others = (other_part(fact) for part in parts for fact in part.which_way)
    return (other.uid for other in others if other is not None and other.uid)


def named(connection: Connection, ids: Sequence[int]) -> dict[int, tuple[int, str, str]]:
    """Job, number and name by id: all that a list of finds shows, cheaply."""
    found: dict[int, tuple[int, str, str]] = {}
    for some in in_batches(ids):
        for row in connection.execute(_NAMED, {"ids": some}):
            found[row[0]] = (row[1], row[2], row[3])
    return found


def in_batches(ids: Sequence[T]) -> Iterable[Sequence[T]]:
    for start in range(0, len(ids), MANY):
        yield ids[start : start + MANY]


def of_job(connection: Connection, job_id: int) -> list[Removal]:
    """The whole log, in the order off."""
    wanted = select(removal).where(removal.c.job_id == job_id).order_by(removal.c.position)
    return [rows.removal(row) for row in connection.execute(wanted).mappings()]


def ids_in_order(connection: Connection, job_id: int) -> list[int]:
    wanted = select(removal.c.id).where(removal.c.job_id == job_id)
    return list(connection.scalars(wanted.order_by(removal.c.position)))


def last_ids(connection: Connection, job_id: int, count: int) -> list[int]:
    """The ids of the newest `count` lines, in the order off."""
    wanted = select(removal.c.id).where(removal.c.job_id == job_id)
    newest = connection.scalars(wanted.order_by(removal.c.position.desc()).limit(count))
    return list(newest)[::-1]


def how_many(connection: Connection, job_id: int) -> int:
    wanted = select(func.count()).select_from(removal).where(removal.c.job_id == job_id)
    return connection.scalar(wanted) or 0


def outlines(connection: Connection, job_id: int) -> list[Outline]:
    """The log as the build needs it, in the order off."""
    columns = (c.id, c.number, c.name, c.area_id, c.fate, c.replacement, c.origin, c.build_id)
    wanted = select(*columns).where(c.job_id == job_id).order_by(c.position)
    found = connection.execute(wanted)
    return [
        Outline(*row[:4], _FATES[row[4]], _REPLACEMENTS[row[5]], _ORIGINS[row[6]], row[7])
        for row in found
    ]


def end_of_log(connection: Connection, job_id: int) -> tuple[int, int | None]:
    """The next number of a log, and the position of its last line, None while it is empty."""
    serial, position = connection.execute(_END_OF_LOG, {"job": job_id}).one()
    return (serial or 0) + 1, position


def before(connection: Connection, job_id: int, position: int) -> Removal | None:
    """The line just above a position."""
    wanted = select(removal).where(removal.c.job_id == job_id, removal.c.position < position)
    row = connection.execute(wanted.order_by(removal.c.position.desc()).limit(1)).mappings().first()
    return rows.removal(row) if row else None


def following(connection: Connection, job_id: int, position: int) -> Removal | None:
    """The line just below a position."""
    wanted = select(removal).where(removal.c.job_id == job_id, removal.c.position > position)
    row = connection.execute(wanted.order_by(removal.c.position).limit(1)).mappings().first()
    return rows.removal(row) if row else None


def numbers_like(connection: Connection, job_id: int, stem: str) -> set[str]:
    """The numbers in a job that begin with `stem`."""
    wanted = select(removal.c.number).where(
        removal.c.job_id == job_id, removal.c.number.startswith(stem, autoescape=True)
    )
    return set(connection.scalars(wanted))


def near(connection: Connection, job_id: int, area_id: int | None) -> list[Removal]:
    """What lies near an entry: the newest `NEAR` lines of its area and of the log, in the order
    off."""
    near_by: ColumnElement[bool] = c.id.in_(_newest(c.job_id == job_id))
    if area_id is not None:  # by id, which the index on areas has in order
        inside = select(c.id).where(c.area_id == area_id).order_by(c.id.desc()).limit(NEAR)
        near_by |= c.id.in_(inside)
    wanted = select(removal).where(near_by).order_by(c.position)
    return [rows.removal(row) for row in connection.execute(wanted).mappings()]


def naming_others(connection: Connection, job_id: int) -> list[Removal]:
    """Those of the newest `NEAR` lines with a fact that names a part it is not tied to."""
    ids = list(connection.scalars(_NAMING_OTHERS, {"job": job_id}))
    return list(by_ids(connection, ids).values()) if ids else []


def ids_in_area(connection: Connection, area_id: int) -> list[int]:
    return list(connection.scalars(select(removal.c.id).where(removal.c.area_id == area_id)))


def ids_in_build(connection: Connection, build_id: int) -> list[int]:
    return list(connection.scalars(select(c.id).where(c.build_id == build_id)))


def ids_in_container(connection: Connection, container_id: int) -> list[int]:
    wanted = select(removal.c.id).where(removal.c.container_id == container_id)
    return list(connection.scalars(wanted.order_by(removal.c.position)))
