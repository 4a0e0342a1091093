"""The journal: every act, appended, never changed; undo and redo read from it.

A scope's undo and redo stacks are linked lists through its entries, so an undo is one look-up
however long the history is. An entry says what lies below it:

    kind   top of undo after it   top of redo after it
    do     itself                 nothing: what was undone before can no longer be redone
    undo   its `undo_below`       itself
    redo   itself                 its `redo_below`
"""

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Connection, RowMapping, Table, bindparam, func, select
from sqlalchemy.exc import IntegrityError

from bagtag.domain.errors import BadInput, StoreTrouble
from bagtag.store import rows, tables
from bagtag.store.act import Act, Image, inserted, whole_row

_t = tables.journal
_CHANGED_SINCE = (
    "This cannot be undone or done again: what it touched has changed since. "
    "Correct the entry by hand."
)
_NEWEST = (
    select(_t.c.id, _t.c.kind, _t.c.undo_below, _t.c.redo_below)
    .where(_t.c.scope == bindparam("scope"))
    .order_by(_t.c.id.desc())
    .limit(1)
)


def append(act: Act) -> int:
    """Write the entry of a fresh act."""
    undo_top, _ = _tops(act.connection, act.scope)
    return _insert(act, "do", undo_below=undo_top)


def undo(act: Act) -> int:
    """Put back every row of the newest act that still stands."""
    undo_top, redo_top = _tops(act.connection, act.scope)
    if undo_top is None:
        raise BadInput("There is nothing to undo here.")
    done = _get(act.connection, undo_top)
    act.name = f"undo: {done['act']}"
    for name, row_id, before, after in reversed(done["rows"]):
        _put(act, name, row_id, expected=after, wanted=before)
    return _insert(act, "undo", of=undo_top, undo_below=done["undo_below"], redo_below=redo_top)


def redo(act: Act) -> int:
    """Do the newest undone act again."""
    undo_top, redo_top = _tops(act.connection, act.scope)
    if redo_top is None:
        raise BadInput("There is nothing to redo here.")
    undone = _get(act.connection, redo_top)
    done = _get(act.connection, undone["of"])
    act.name = done["act"]
    for name, row_id, before, after in done["rows"]:
        _put(act, name, row_id, expected=before, wanted=after)
    below = undone["redo_below"]
    return _insert(act, "redo", of=redo_top, undo_below=undo_top, redo_below=below)


def next_names(connection: Connection, scope: int) -> tuple[str, str]:
    """What undo and redo would do now, by name; empty where there is nothing."""
    undo_top, redo_top = _tops(connection, scope)
    undo_name, redo_name = (_name(connection, top) for top in (undo_top, redo_top))
    return undo_name, redo_name.removeprefix("undo: ")


def _name(connection: Connection, journal_id: int | None) -> str:
    """The name alone: an entry of a long list has the rows of all of it."""
    return connection.scalar(select(_t.c.act).where(_t.c.id == journal_id)) or ""


def newest(connection: Connection) -> int:
    """The id of the newest entry of all; 0 while there is none."""
    return connection.scalar(select(func.max(_t.c.id))) or 0


def history(connection: Connection, scope: int, limit: int) -> list[RowMapping]:
    """The newest entries of a scope: id, at, who, act, kind."""
    wanted = select(_t.c.id, _t.c.at, _t.c.who, _t.c.act, _t.c.kind).where(_t.c.scope == scope)
    return list(connection.execute(wanted.order_by(_t.c.id.desc()).limit(limit)).mappings())


def entries(connection: Connection) -> Iterable[RowMapping]:
    """Every entry, oldest first."""
    return connection.execute(select(_t).order_by(_t.c.id)).mappings()


def _tops(connection: Connection, scope: int) -> tuple[int | None, int | None]:
    head = connection.execute(_NEWEST, {"scope": scope}).first()
    if head is None:
        return None, None
    undo_top = head.undo_below if head.kind == "undo" else head.id
    return undo_top, head.id if head.kind == "undo" else head.redo_below


def _put(act: Act, name: str, row_id: int, *, expected: Image | None, wanted: Image | None) -> None:
    table = tables.JOURNALED[name]
    if act.image(table, row_id) != whole_row(table, expected):
        raise StoreTrouble(_CHANGED_SINCE)
    try:
        _set(act, table, row_id, wanted, is_new=expected is None)
    except IntegrityError as wrong:  # another job took its number, or something hangs on it now
        raise StoreTrouble(_CHANGED_SINCE) from wrong


def _set(act: Act, table: Table, row_id: int, wanted: Image | None, *, is_new: bool) -> None:
    if wanted is None:
        act.delete(table, row_id)
    elif is_new:
        act.insert(table, **wanted)
    else:
        act.update(table, row_id, **wanted)


def _insert(act: Act, kind: str, **links: int | None) -> int:
    entry: dict[str, Any] = {
        "at": rows.now(),
        "who": act.who,
        "scope": act.scope,
        "act": act.name[:200],
        "kind": kind,
        "rows": act.touches,
    }
    return inserted(act.connection, _t, entry | links)


def _get(connection: Connection, journal_id: int) -> RowMapping:
    return connection.execute(select(_t).where(_t.c.id == journal_id)).mappings().one()
