"""Whether a store is whole: what the database, the journal and the search index say of each other.

Every function yields one sentence for each thing that is wrong, and nothing where all is well.
"""

import json
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from hashlib import blake2b

from sqlalchemy import Connection, RowMapping, func, or_, select, text

from bagtag.domain import codes
from bagtag.domain.model import TagRole
from bagtag.store import rows
from bagtag.store.act import Image, whole_row
from bagtag.store.tables import (
    JOURNALED,
    SEARCH,
    journal,
    pass_tick,
    photo,
    removal,
    rule,
    rule_member,
    tag,
    task,
)

Key = tuple[str, int]


def counted(connection: Connection) -> dict[str, int]:
    """How many rows of each kind there are, the journal's entries among them."""
    tables = JOURNALED | {"journal": journal}
    count = {name: select(func.count()).select_from(table) for name, table in tables.items()}
    return {name: connection.scalar(query) or 0 for name, query in count.items()}


def database(connection: Connection) -> Iterator[str]:
    """SQLite's own check of its pages and indexes, and of every row's owner."""
    for (said,) in connection.execute(text("PRAGMA integrity_check")):
        if said != "ok":
            yield f"The database file is damaged: {' '.join(said.split())}."
    for table, row_id, owner, _ in connection.execute(text("PRAGMA foreign_key_check")):
        yield f"Row {row_id} of {table} belongs to a row of {owner} that is not there."


def replayed(connection: Connection) -> Iterator[str]:
    """The journal against the rows, read backwards.

    Each row must be what its newest entry left; each entry must have found what the one before it
    left; and each row's first entry must have made it.
    """
    found_by: dict[Key, bytes] = {}
    for entry in connection.execute(select(journal).order_by(journal.c.id.desc())).mappings():
        for table, row_id, was, became in reversed(entry["rows"]):
            key = (table, row_id)
            before, after = whole_row(JOURNALED[table], was), whole_row(JOURNALED[table], became)
            if key not in found_by:
                yield from _newest(connection, key, after)
            elif found_by[key] != _mark(after):
                yield f"The journal has a gap in {table} {row_id}, after entry {entry['id']}."
            found_by[key] = _mark(before)
    yield from _never_made(found_by)
    yield from _unknown(connection, found_by)


def _newest(connection: Connection, key: Key, after: Image | None) -> Iterator[str]:
    name, row_id = key
    table = JOURNALED[name]
    row = connection.execute(select(table).where(table.c.id == row_id)).mappings().first()
    if (dict(row) if row else None) != after:
        yield f"{name.capitalize()} {row_id} is not what the journal says of it."


def _never_made(found_by: Mapping[Key, bytes]) -> Iterator[str]:
    for (name, row_id), mark in found_by.items():
        if mark != _mark(None):
            yield f"The journal does not tell how {name} {row_id} was made."


def _unknown(connection: Connection, found_by: Mapping[Key, bytes]) -> Iterator[str]:
    for name, table in JOURNALED.items():
        for row_id in connection.scalars(select(table.c.id)):
            if (name, row_id) not in found_by:
                yield f"{name.capitalize()} {row_id} is not in the journal."


def _mark(image: Image | None) -> bytes:
    """A row in sixteen bytes, so that a long journal fits in memory."""
    return blake2b(json.dumps(image, sort_keys=True).encode(), digest_size=16).digest()


def search_index(connection: Connection) -> Iterator[str]:
    """The index finds every removal, by its words of today, and nothing else."""
    found = connection.execute(text(f"SELECT rowid, job_id, body FROM {SEARCH}"))
    indexed = {row_id: (job_id, body) for row_id, job_id, body in found}
    for row in connection.execute(select(removal)).mappings():
        if indexed.pop(row["id"], None) != (row["job_id"], rows.search_text(row)):
            yield f"The search index is out of step for {_called(row)}."
    for row_id in indexed:
        yield f"The search index finds a removal {row_id} that is not there."


def _called(row: RowMapping) -> str:
    return f"{row['number']} {row['name']}"


def places(connection: Connection) -> Iterator[str]:
    """No two lines of a log in one place."""
    twice = select(removal.c.job_id, removal.c.position).group_by(
        removal.c.job_id, removal.c.position
    )
    for job_id, _ in connection.execute(twice.having(func.count() > 1)):
        yield f"Two lines of the log of job {job_id} are in one place."


def tags(connection: Connection) -> Iterator[str]:
    """Every code is right, hangs on what its role says, and no removal is without one."""
    pairs: dict[str, Counter[str]] = defaultdict(Counter)
    own: set[int] = set()
    of_tasks: set[int] = set()
    for row in connection.execute(select(tag)).mappings():
        if not codes.is_valid(row["code"]):
            yield f"{row['code']} is no tag code."
        if not _hangs_right(row):
            yield f"The tag {codes.show(row['code'])} does not hang on what it should."
        if row["pair"]:
            pairs[row["pair"]][row["role"]] += 1
        if row["role"] == TagRole.PART.value:
            own.add(row["removal_id"])
        if row["role"] == TagRole.TASK.value:
            of_tasks.add(row["task_id"])
    for ends in pairs.values():
        if ends != {TagRole.TWIN_PART.value: 1, TagRole.TWIN_PLACE.value: 1}:
            yield "A twin tag has lost its other half."
    for row in connection.execute(
        select(removal.c.id, removal.c.number, removal.c.name)
    ).mappings():
        if row["id"] not in own:
            yield f"{_called(row)} has no tag of its own."
    for row in connection.execute(select(task.c.id, task.c.name)).mappings():
        if row["id"] not in of_tasks:
            yield f"The task {row['name']} has no code of its own."


def ticks(connection: Connection) -> Iterator[str]:
    """A ticked pass is one of a part or of a task."""
    for row in connection.execute(select(pass_tick)).mappings():
        if (row["removal_id"] is None) == (row["task_id"] is None):
            yield f"The ticked pass {row['id']} does not belong to one step."


def steps(connection: Connection) -> Iterator[str]:
    """A rule ties two steps or more, and every step it names, and every task's, is of its job."""
    members: Counter[int] = Counter()
    for row in connection.execute(_MEMBERS).mappings():
        members[row["rule_id"]] += 1
        if row["job_id"] not in (row["of_removal"], row["of_task"]):
            yield f"Rule {row['rule_id']} names a step of another job."
    for rule_id in connection.scalars(select(rule.c.id)):
        if members[rule_id] < 2:
            yield f"Rule {rule_id} ties fewer than two steps."
    for row in connection.execute(_ON_PARTS).mappings():
        if row["job_id"] != row["of_removal"]:
            yield f"The task {row['name']} hangs on a part of another job."


_MEMBERS = (
    select(
        rule_member.c.rule_id,
        rule.c.job_id,
        removal.c.job_id.label("of_removal"),
        task.c.job_id.label("of_task"),
    )
    .join(rule, rule.c.id == rule_member.c.rule_id)
    .outerjoin(removal, removal.c.id == rule_member.c.removal_id)
    .outerjoin(task, task.c.id == rule_member.c.task_id)
)
_ON_PARTS = select(task.c.name, task.c.job_id, removal.c.job_id.label("of_removal")).join(
    removal, or_(removal.c.id == task.c.removal_id, removal.c.id == task.c.anchor_removal_id)
)


def _hangs_right(row: rows.Columns) -> bool:
    on = {name for name in _OWNERS if row[name] is not None}
    return on == _HANGS_ON.get(TagRole(row["role"]), {"removal_id"})


_OWNERS = ("removal_id", "container_id", "task_id", "send_out_id")
_HANGS_ON: dict[TagRole, set[str]] = {
    TagRole.BLANK: set(),
    TagRole.CONTAINER: {"container_id"},
    TagRole.TASK: {"task_id"},
    TagRole.SEND_OUT: {"send_out_id"},
}


def photo_files(connection: Connection) -> list[tuple[str, str]]:
    """Hash and `ext` of every file that a photo needs, each once."""
    wanted = select(photo.c.hash, photo.c.ext).distinct().order_by(photo.c.hash)
    return [(row.hash, row.ext) for row in connection.execute(wanted)]
