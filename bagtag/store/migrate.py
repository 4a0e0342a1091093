"""Bringing a store to the newest version, with a dated copy first."""

import sqlite3
from datetime import datetime
from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Engine
from sqlalchemy.exc import OperationalError

from bagtag.domain.errors import StoreTrouble


def to_head(engine: Engine, database: Path, from_version: str | None) -> None:
    """Migrate; a store that already holds something is copied beside itself before."""
    if from_version is not None:
        copy_beside(database, from_version)
    try:
        with engine.begin() as connection:
            command.upgrade(config(connection), "head")
    except OperationalError as wrong:
        raise StoreTrouble(
            f"The store {database} cannot be written ({wrong.orig}). "
            "Free some space or choose a folder you may write to."
        ) from wrong


def config(connection: object) -> Config:
    """Alembic's configuration for our scripts on an open connection."""
    made = Config()
    scripts = str(Path(__file__).parent / "migrations").replace("%", "%%")
    made.set_main_option("script_location", scripts)
    made.set_main_option("path_separator", "os")
    made.attributes["connection"] = connection
    return made


def copy_beside(database: Path, from_version: str) -> Path:
    """A whole copy, named after its version and the time: `bagtag.0001.2026-05-17T09-30-00.db`."""
    stamp = datetime.now().strftime("%Y-%m-%dT%H-%M-%S")
    target = database.with_name(f"{database.stem}.{from_version}.{stamp}{database.suffix}")
    source, copy = sqlite3.connect(database), sqlite3.connect(target)
    try:
        source.backup(copy)
    finally:
        copy.close()
        source.close()
    return target
