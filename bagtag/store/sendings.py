"""Reading more of send-outs: times away one by one, where parts are now, tags and papers."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, func, select

from bagtag.domain.model import Away, Removal, Tag
from bagtag.domain.send_out import SendOut
from bagtag.store import belongings, between, removals, rows, rows_between
from bagtag.store.removals import in_batches
from bagtag.store.tables import away, document, removal, tag


def times(connection: Connection, away_ids: Sequence[int]) -> dict[int, Away]:
    """Times away by their ids; those that are gone are left out."""
    found: dict[int, Away] = {}
    for some in in_batches(away_ids):
        wanted = select(away).where(away.c.id.in_(some))
        for row in connection.execute(wanted).mappings():
            found[row["id"]] = rows_between.away(row)
    return found


def first_times(connection: Connection, removal_ids: Sequence[int]) -> dict[int, int]:
    """The id of the first time away of each of these removals that was ever away."""
    found: dict[int, int] = {}
    for some in in_batches(removal_ids):
        wanted = select(away.c.removal_id, func.min(away.c.id)).where(away.c.removal_id.in_(some))
        for id_, earliest in connection.execute(wanted.group_by(away.c.removal_id)):
            found[id_] = earliest
    return found


def last_back(connection: Connection, job_id: int) -> dict[int, datetime]:
    """When parts of a job that were ever back from a shop were so last, by removal."""
    wanted = select(away.c.removal_id, away.c.back_at).join(removal).order_by(away.c.id)
    back = wanted.where(removal.c.job_id == job_id, away.c.back_at.is_not(None))
    return {id_: datetime.fromisoformat(at) for id_, at in connection.execute(back)}


def out_of(connection: Connection, removal_ids: Sequence[int]) -> dict[int, Away]:
    """The time away that is not over, of each of these removals that is out."""
    found: dict[int, Away] = {}
    for some in in_batches(removal_ids):
        wanted = select(away).where(away.c.removal_id.in_(some), away.c.back_at.is_(None))
        for row in connection.execute(wanted).mappings():
            found[row["removal_id"]] = rows_between.away(row)
    return found


@dataclass(frozen=True, slots=True)
class Whereabouts:
    """Where parts are now: at a shop and with which batch, or in the machine again."""

    parts: Mapping[int, Removal]
    out: Mapping[int, Away]
    wholes: Mapping[int | None, SendOut | None]
    fitted: Collection[int]


def whereabouts(connection: Connection, removal_ids: Sequence[int]) -> Whereabouts:
    """Where these removals are now; those that are gone are left out."""
    out = out_of(connection, removal_ids)
    return Whereabouts(
        removals.by_ids(connection, removal_ids),
        out,
        wholes(connection, out.values()),
        belongings.fitted_of(connection, removal_ids),
    )


def document_files(connection: Connection) -> list[tuple[str, str, str]]:
    """Hash, `ext` and name of every file that a paper needs, each once."""
    wanted = select(document.c.hash, document.c.ext, document.c.name).order_by(document.c.id)
    found = {(row.hash, row.ext): row.name for row in connection.execute(wanted)}
    return [(digest, ext, name) for (digest, ext), name in sorted(found.items())]


def wholes(connection: Connection, times: Iterable[Away]) -> dict[int | None, SendOut | None]:
    """The batch, by its id, that each of these times away belongs to."""
    ids = dict.fromkeys(one.send_out_id for one in times if one.send_out_id is not None)
    return {id_: between.get_send_out(connection, id_) for id_ in ids}


def tags(connection: Connection, send_out_id: int) -> list[Tag]:
    """The tags of a batch, the oldest first."""
    wanted = select(tag).where(tag.c.send_out_id == send_out_id).order_by(tag.c.id)
    return [rows.tag(row) for row in connection.execute(wanted).mappings()]
