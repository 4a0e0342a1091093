"""Opening a store: where it lies, its engine, its version.

SQLite with WAL and `synchronous=FULL`: an act the window confirmed survives a power cut. A write
takes the lock at its beginning, so that what it read is still true when it commits.
"""

import sqlite3
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError

from bagtag.domain.errors import BadInput, StoreTrouble
from bagtag.store.versions import HEAD, KNOWN

WRITES = {"bagtag_writes": True}


@dataclass(frozen=True, slots=True)
class Location:
    """The database file and the folder of its photos."""

    database: Path
    photos: Path

    @classmethod
    def in_folder(cls, folder: Path) -> "Location":
        return cls(folder / "bagtag.db", folder / "photos")

    @classmethod
    def from_url(cls, url: str) -> "Location":
        """The place a `sqlite:///path` URL names; BadInput for any other kind."""
        try:
            parsed = make_url(url)
        except ArgumentError:
            parsed = None
        if parsed is None or parsed.get_backend_name() != "sqlite" or not parsed.database:
            raise BadInput(
                "The store's address must read sqlite:///FILE, for example "
                "sqlite:///jobs/bagtag.db.",
                field="database",
            )
        path = Path(parsed.database)
        return cls(path, path.with_name(path.stem + ".photos"))


def open_engine(location: Location) -> Engine:
    """An engine on the store's newest version: made, migrated or refused as need be."""
    from_version = version_of(location.database)
    if from_version is not None and from_version not in KNOWN:
        raise StoreTrouble(
            f"This store was written by a newer Bagtag (store version {from_version}; "
            f"this program knows up to {HEAD}). Install the newer Bagtag to open it; "
            "nothing was changed."
        )
    engine = _engine(location.database)
    if from_version != HEAD:
        from bagtag.store import migrate

        migrate.to_head(engine, location.database, from_version)
    return engine


def version_of(database: Path) -> str | None:
    """The version a store file says it has; None for a new or empty one."""
    if not database.exists() or database.stat().st_size == 0:
        _folder(database)
        return None
    try:
        with sqlite3.connect(f"file:{_quoted(database)}?mode=ro", uri=True) as raw:
            row = raw.execute("SELECT version_num FROM alembic_version").fetchone()
        raw.close()
    except sqlite3.OperationalError as wrong:
        if "no such table" in str(wrong):
            raise StoreTrouble(
                f"{database.name} is a database, but not a Bagtag store. Choose another file."
            ) from wrong
        raise StoreTrouble(f"{database} cannot be opened: {wrong}.") from wrong
    except sqlite3.DatabaseError as wrong:
        raise StoreTrouble(
            f"{database.name} is not a Bagtag store or is damaged ({wrong}). "
            "Choose another file, or put back the newest copy beside it."
        ) from wrong
    return str(row[0]) if row else None


def _quoted(path: Path) -> str:
    return str(path.resolve()).replace("%", "%25").replace("?", "%3f").replace("#", "%23")


def _folder(database: Path) -> None:
    try:
        database.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as wrong:
        raise StoreTrouble(
            f"The folder {database.parent} cannot be made ({wrong.strerror}). "
            "Choose another folder for the store."
        ) from wrong


def _engine(database: Path) -> Engine:
    # made, not written: in a written address a question mark ends the file's name
    address = URL.create("sqlite", database=str(database))
    engine = create_engine(address, connect_args={"timeout": 10})
    event.listen(engine, "connect", _on_connect)
    event.listen(engine, "begin", _on_begin)
    return engine


def _on_connect(raw: Any, _record: object) -> None:
    raw.isolation_level = None
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "cache_size=-16000"):
        try:
            raw.execute(f"PRAGMA {pragma}").close()
        except sqlite3.OperationalError:
            if not pragma.startswith("journal_mode"):  # a read-only disk can still be read
                raise


def _on_begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("bagtag_writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
