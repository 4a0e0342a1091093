"""Reading what belongs to removals: containers, tags, photos, sign-offs, times away."""

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from sqlalchemy import Connection, Select, Table, bindparam, func, select

from bagtag.domain.fitting import Ref
from bagtag.domain.model import Away, Container, Photo, PhotoRole, SignOff, Tag, TagRole
from bagtag.store import rows, rows_between
from bagtag.store.removals import in_batches
from bagtag.store.tables import away, container, photo, removal, sign_off, tag, task

T = TypeVar("T")
_TAKEN = select(tag.c.id).where(tag.c.code == bindparam("code"))


def containers(connection: Connection, job_id: int) -> list[Container]:
    wanted = select(container).where(container.c.job_id == job_id).order_by(container.c.id)
    return [rows.container(row) for row in connection.execute(wanted).mappings()]


def get_container(connection: Connection, container_id: int) -> Container | None:
    return _one(connection, select(container).where(container.c.id == container_id), rows.container)


def tag_by_code(connection: Connection, code: str) -> Tag | None:
    return _one(connection, select(tag).where(tag.c.code == code), rows.tag)


def is_taken(connection: Connection, code: str) -> bool:
    return connection.scalar(_TAKEN, {"code": code}) is not None


def codes_taken(connection: Connection, codes: Sequence[str]) -> set[str]:
    return set(connection.scalars(select(tag.c.code).where(tag.c.code.in_(codes))))


def tags_of_containers(connection: Connection, job_id: int) -> dict[int, str]:
    """The newest code of each container of a job."""
    wanted = (
        select(tag.c.container_id, tag.c.code).join(container).where(container.c.job_id == job_id)
    )
    return {row.container_id: row.code for row in connection.execute(wanted.order_by(tag.c.id))}


def tags_of(connection: Connection, removal_ids: Sequence[int]) -> dict[int, list[Tag]]:
    """Tags by removal, oldest first."""
    return _by_removal(connection, tag, removal_ids, rows.tag)


def main_codes(connection: Connection, removal_ids: Sequence[int]) -> dict[int, str]:
    """The code of each removal's own tag: the newest tied to the part itself."""
    codes: dict[int, str] = {}
    for some in in_batches(removal_ids):
        wanted = select(tag.c.removal_id, tag.c.code).where(
            tag.c.removal_id.in_(some), tag.c.role == TagRole.PART.value
        )
        codes |= {row.removal_id: row.code for row in connection.execute(wanted.order_by(tag.c.id))}
    return codes


def tagged(connection: Connection, job_id: int) -> set[int]:
    """The removals of a job that have a tag in the world: printed, or a blank one hung on it."""
    wanted = select(tag.c.removal_id).where(tag.c.job_id == job_id, tag.c.printed_at != "")
    return set(connection.scalars(wanted.where(tag.c.removal_id.is_not(None))))


def photographed(connection: Connection, job_id: int) -> set[int]:
    """The removals of a job that have a photo of how they came off."""
    wanted = select(photo.c.removal_id).join(removal).where(removal.c.job_id == job_id)
    return set(connection.scalars(wanted.where(photo.c.role == PhotoRole.OFF.value)))


def task_codes(connection: Connection, job_id: int) -> dict[int, str]:
    """The code of each task of a job."""
    wanted = select(tag.c.task_id, tag.c.code).join(task, task.c.id == tag.c.task_id)
    return {row[0]: row[1] for row in connection.execute(wanted.where(task.c.job_id == job_id))}


def tags_of_task(connection: Connection, task_id: int) -> list[Tag]:
    wanted = select(tag).where(tag.c.task_id == task_id).order_by(tag.c.id)
    return [rows.tag(row) for row in connection.execute(wanted).mappings()]


def tags_to_print(
    connection: Connection, removal_ids: Sequence[int], container_ids: Sequence[int]
) -> list[Tag]:
    """The main tags of these removals and the tags of these containers."""
    main = set(main_codes(connection, removal_ids).values())
    parts = (t for tags in tags_of(connection, removal_ids).values() for t in tags)
    bags = (t for id_ in container_ids for t in tags_of_container(connection, id_))
    return [*(t for t in parts if t.code in main), *bags]


def twins(connection: Connection, pair: str) -> list[Tag]:
    wanted = select(tag).where(tag.c.pair == pair).order_by(tag.c.id)
    return [rows.tag(row) for row in connection.execute(wanted).mappings()]


def photos_of(connection: Connection, removal_ids: Sequence[int]) -> dict[int, list[Photo]]:
    """Photos by removal, in the order they were added."""
    return _by_removal(connection, photo, removal_ids, rows.photo)


def get_photo(connection: Connection, photo_id: int) -> Photo | None:
    return _one(connection, select(photo).where(photo.c.id == photo_id), rows.photo)


def first_thumbs(connection: Connection, removal_ids: Sequence[int]) -> dict[int, str]:
    """The hash of each removal's first photo."""
    hashes: dict[int, str] = {}
    for some in in_batches(removal_ids):
        firsts = select(func.min(photo.c.id)).where(photo.c.removal_id.in_(some))
        wanted = select(photo.c.removal_id, photo.c.hash).where(
            photo.c.id.in_(firsts.group_by(photo.c.removal_id))
        )
        hashes |= {row.removal_id: row.hash for row in connection.execute(wanted)}
    return hashes


def sign_off_of(connection: Connection, ref: Ref) -> SignOff | None:
    column = sign_off.c.removal_id if ref.removal_id is not None else sign_off.c.task_id
    return _one(connection, select(sign_off).where(column == ref.id), rows.sign_off)


def sign_offs(connection: Connection, job_id: int) -> dict[Ref, SignOff]:
    """Sign-offs of a job by step, in the order signed."""
    of_parts = select(sign_off).join(removal).where(removal.c.job_id == job_id)
    of_tasks = select(sign_off).join(task).where(task.c.job_id == job_id)
    found = [
        rows.sign_off(row)
        for wanted in (of_parts, of_tasks)
        for row in connection.execute(wanted).mappings()
    ]
    return {one.ref: one for one in sorted(found, key=lambda one: one.id)}


def away_now(connection: Connection, job_id: int) -> dict[int, Away]:
    """Parts of a job that are at an outside shop, by removal."""
    wanted = select(away).join(removal).where(removal.c.job_id == job_id, away.c.back_at.is_(None))
    found = [rows_between.away(row) for row in connection.execute(wanted).mappings()]
    return {one.removal_id: one for one in found}


def times_away(connection: Connection, removal_id: int) -> list[Away]:
    return _by_removal(connection, away, [removal_id], rows_between.away).get(removal_id, [])


def last_away(connection: Connection, removal_ids: Sequence[int]) -> dict[int, Away]:
    """The last time that each of these was at a shop, whether or not it is back."""
    found = _by_removal(connection, away, removal_ids, rows_between.away)
    return {removal_id: times[-1] for removal_id, times in found.items()}


def _one(
    connection: Connection, wanted: Select[Any], read: Callable[[rows.Columns], T]
) -> T | None:
    row = connection.execute(wanted).mappings().first()
    return read(row) if row else None


def _by_removal(
    connection: Connection,
    table: Table,
    removal_ids: Sequence[int],
    read: Callable[[rows.Columns], T],
) -> dict[int, list[T]]:
    found: dict[int, list[T]] = {}
    for some in in_batches(removal_ids):
        wanted = select(table).where(table.c.removal_id.in_(some)).order_by(table.c.id)
        for row in connection.execute(wanted).mappings():
            found.setdefault(row["removal_id"], []).append(read(row))
    return found


def tags_of_container(connection: Connection, container_id: int) -> list[Tag]:
    wanted = select(tag).where(tag.c.container_id == container_id).order_by(tag.c.id)
    return [rows.tag(row) for row in connection.execute(wanted).mappings()]


def fitted_of(connection: Connection, removal_ids: Sequence[int]) -> set[int]:
    """Which of these removals are signed off."""
    return _which(connection, select(sign_off.c.removal_id), sign_off, removal_ids)


def away_of(connection: Connection, removal_ids: Sequence[int]) -> set[int]:
    """Which of these removals are away now."""
    out = select(away.c.removal_id).where(away.c.back_at.is_(None))
    return _which(connection, out, away, removal_ids)


def _which(
    connection: Connection, wanted: Select[Any], table: Table, removal_ids: Sequence[int]
) -> set[int]:
    found: set[int] = set()
    for some in in_batches(removal_ids):
        found |= set(connection.scalars(wanted.where(table.c.removal_id.in_(some))))
    return found
