"""Finding removals as one types, through SQLite's full-text index, newest first."""

import re

from sqlalchemy import Connection, text

from bagtag.store.tables import SEARCH

_WORDS = re.compile(r"\w+")
_FIND = f"SELECT rowid FROM {SEARCH} WHERE {SEARCH} MATCH :wanted"
_ANYWHERE = text(f"{_FIND} ORDER BY rowid DESC LIMIT :limit")
_IN_JOB = text(f"{_FIND} AND job_id = :job ORDER BY rowid DESC LIMIT :limit")


def query(typed: str) -> str:
    """What was typed as an index query: every word whole, the last as far as it goes."""
    words = _WORDS.findall(typed)
    return " ".join(f'"{word}"' for word in words[:-1]) + (f' "{words[-1]}"*' if words else "")


def ids(
    connection: Connection, typed: str, *, job_id: int | None = None, limit: int = 50
) -> list[int]:
    """Ids of removals whose text has every word typed, the newest first."""
    wanted = query(typed).strip()
    if not wanted:
        return []
    given = {"wanted": wanted, "limit": limit}
    if job_id is None:
        return list(connection.scalars(_ANYWHERE, given))
    return list(connection.scalars(_IN_JOB, given | {"job": job_id}))
