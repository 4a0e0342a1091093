"""An act: one transaction that keeps its own journal entry and the search index.

Every write of the program goes through `Act.insert`, `update` and `delete`, which note each row as
it was and as it became. From these notes undo and redo work, after a restart too.
"""

import json
from collections import defaultdict
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any

from sqlalchemy import JSON, Connection, Insert, Select, Table, Update, bindparam, select, text

from bagtag.domain.change import Change
from bagtag.store import rows, tables

Image = dict[str, Any]
Touch = tuple[str, int, Image | None, Image | None]


class Act:
    """The write side of one open transaction."""

    def __init__(self, connection: Connection, name: str, *, who: str, scope: int) -> None:
        self.connection = connection
        self.name = name
        self.who = who
        self.scope = scope
        self.touches: list[Touch] = []
        self.new_id: int | None = None

    def insert(self, table: Table, **values: Any) -> int:
        """Add a row; returns its id, which `Change.new_id` will carry for the first row added."""
        image = empty_row(table) | values
        image["id"] = inserted(self.connection, table, image)
        self._note(table, image["id"], None, image)
        if self.new_id is None:
            self.new_id = image["id"]
        return int(image["id"])

    def insert_all(self, table: Table, rows_: Sequence[Mapping[str, Any]]) -> None:
        """Add many rows that have no id yet, in a few statements, in this order."""
        if not rows_:
            return
        images = [{**empty_row(table), **values} for values in rows_]
        plain = [{key: value for key, value in one.items() if key != "id"} for one in images]
        wanted = table.insert().returning(table.c.id, sort_by_parameter_order=True)
        ids = self.connection.execute(wanted, plain).scalars().all()
        for image, row_id in zip(images, ids, strict=True):
            image["id"] = row_id
            self._note(table, row_id, None, image)
        if self.new_id is None:
            self.new_id = ids[0]

    def update(self, table: Table, row_id: int, **values: Any) -> None:
        before = self.image(table, row_id)
        if before is None or all(before[key] == value for key, value in values.items()):
            return
        self.connection.execute(_update_by_id(table), {"row_id": row_id, **values})
        self._note(table, row_id, before, before | values)

    def delete(self, table: Table, row_id: int) -> None:
        before = self.image(table, row_id)
        if before is not None:
            self.connection.execute(table.delete().where(table.c.id == row_id))
            self._note(table, row_id, before, None)

    def image(self, table: Table, row_id: int) -> Image | None:
        """The row as plain data, or None."""
        row = self.connection.execute(_by_id(table), {"row_id": row_id}).mappings().first()
        return dict(row) if row else None

    def _note(self, table: Table, row_id: int, before: Image | None, after: Image | None) -> None:
        self.touches.append((table.name, row_id, before, after))
        if table is tables.removal:
            _index(self.connection, row_id, before, after)

    def change(self, journal_id: int) -> Change:
        """The record of what was touched."""
        touched: dict[str, set[int]] = defaultdict(set)
        for name, row_id, before, after in self.touches:
            touched[name].add(row_id)
            owner = (after or before or {}).get("removal_id")
            if owner is not None:
                touched["removal"].add(owner)
        frozen = {kind: frozenset(ids) for kind, ids in touched.items()}
        return Change(self.name, journal_id, self.scope, self.new_id, frozen)


def inserted(connection: Connection, table: Table, image: Image) -> int:
    """Insert a row of plain data; returns its id, given by the database where it has none."""
    key = connection.execute(_insert_into(table), image).inserted_primary_key
    assert key is not None
    return int(key[0])


# Statements are built once: building one costs several times as much as running it.
@cache
def _insert_into(table: Table) -> Insert:
    return table.insert()


@cache
def _update_by_id(table: Table) -> Update:
    return table.update().where(table.c.id == bindparam("row_id"))


@cache
def _by_id(table: Table) -> Select[Any]:
    return select(table).where(table.c.id == bindparam("row_id"))


@cache
def empty_row(table: Table) -> Image:
    """A row as the database would fill it by itself, so that the journal's row is whole."""
    filled: Image = {column.name: None for column in table.columns}
    for column in table.columns:
        if column.server_default is not None:
            default = str(column.server_default.arg)  # type: ignore[attr-defined]  # plain text
            plain = default.isdigit() or isinstance(column.type, JSON)
            filled[column.name] = json.loads(default) if plain else default
    return filled


def whole_row(table: Table, image: Image | None) -> Image | None:
    """A row from the journal of an older store, with the columns that have come since."""
    return None if image is None else empty_row(table) | image


def _index(connection: Connection, row_id: int, before: Image | None, after: Image | None) -> None:
    """Keep the full-text index in step with a removal."""
    old = rows.search_text(before) if before else None
    new = rows.search_text(after) if after else None
    if old == new:
        return
    if before is not None:
        connection.execute(_DROP, {"id": row_id})
    if after is not None:
        connection.execute(_ADD, {"id": row_id, "job": after["job_id"], "body": new})


_DROP = text(f"DELETE FROM {tables.SEARCH} WHERE rowid = :id")
_ADD = text(f"INSERT INTO {tables.SEARCH} (rowid, job_id, body) VALUES (:id, :job, :body)")
