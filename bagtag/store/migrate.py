"""Bringing a store to the newest version, with a dated copy first."""

import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Engine
from sqlalchemy.exc import OperationalError

from bagtag.domain.errors import StoreTrouble

SCRIPTS = Path(__file__).parent / "migrations"


def to_head(
    engine: Engine, database: Path, from_version: str | None, scripts: Path = SCRIPTS
) -> None:
    """Migrate; a store that already holds something is copied beside itself before."""
    if from_version is not None:
        copy_beside(database, from_version)
    try:
        with engine.begin() as connection:
            command.upgrade(config(connection, scripts), "head")
    except OperationalError as wrong:
        raise StoreTrouble(
            f"The store {database} cannot be written ({wrong.orig}). "
            "Free some space or choose a folder you may write to."
        ) from wrong


def config(connection: object, scripts: Path = SCRIPTS) -> Config:
    """Alembic's configuration for our scripts on an open connection."""
    made = Config()
    made.set_main_option("script_location", str(scripts).replace("%", "%%"))
    made.set_main_option("path_separator", "os")
    made.attributes["connection"] = connection
    return made


def copy_beside(database: Path, from_version: str) -> Path:
    """A whole copy, named after its version and the time: `bagtag.0001.2026-05-17T09-30-00.db`."""
    stamp = datetime.now().strftime("%Y-%m-%dT%H-%M-%S")
    target = database.with_name(f"{database.stem}.{from_version}.{stamp}{database.suffix}")
    try:
        _copy(database, target)
    except sqlite3.Error as wrong:
        target.unlink(missing_ok=True)
        raise StoreTrouble(
            f"The store must be brought up to date, and the copy that is made before cannot be "
            f"written beside {database} ({wrong}). Free some space there; nothing was changed."
        ) from wrong
    return target


def _copy(database: Path, target: Path) -> None:
    with closing(sqlite3.connect(database)) as source, closing(sqlite3.connect(target)) as copy:
        source.backup(copy)
