"""What a store holds, row by row: what must be alike before and after."""

from typing import Any

from sqlalchemy import select

from bagtag.store.tables import JOURNALED
from bagtag.store.work import Store


def all_rows(store: Store) -> dict[str, list[dict[str, Any]]]:
    """Every row of every table but the journal."""
    with store.read() as connection:
        return {
            name: [
                dict(row)
                for row in connection.execute(select(table).order_by(table.c.id)).mappings()
            ]
            for name, table in JOURNALED.items()
        }
