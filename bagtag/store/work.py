"""The store: one database, its photo files, and the two ways in, reading and acting."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection
from sqlalchemy.exc import DatabaseError

from bagtag.domain.change import Change
from bagtag.domain.errors import StoreTrouble
from bagtag.store import journal
from bagtag.store.act import Act
from bagtag.store.engine import WRITES, Location, open_engine
from bagtag.store.photo_files import PhotoFiles


class Store:
    """An open store. Safe to hand between threads; each read or act has a connection of its own."""

    def __init__(self, location: Location) -> None:
        self.location = location
        self.engine = open_engine(location)
        self.photos = PhotoFiles(location.photos)

    @classmethod
    def in_folder(cls, folder: Path) -> "Store":
        return cls(Location.in_folder(folder))

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A consistent view; nothing can be written through it."""
        with _said_plainly(self.location), self.engine.begin() as connection:
            yield connection

    def act(
        self, name: str, do: Callable[[Act], None], *, who: str = "", job_id: int = 0
    ) -> Change:
        """One act in one transaction with its journal entry; nothing is kept if `do` raises.

        An act that touches nothing leaves no entry.
        """
        return self._commit(name, do, journal.append, who=who, job_id=job_id)

    def undo(self, *, who: str = "", job_id: int = 0) -> Change:
        """Take back the newest act of a job (0: of the store)."""
        return self._commit("undo", None, journal.undo, who=who, job_id=job_id)

    def redo(self, *, who: str = "", job_id: int = 0) -> Change:
        """Do the newest undone act again."""
        return self._commit("redo", None, journal.redo, who=who, job_id=job_id)

    def _commit(
        self,
        name: str,
        do: Callable[[Act], None] | None,
        enter: Callable[[Act], int],
        *,
        who: str,
        job_id: int,
    ) -> Change:
        with _said_plainly(self.location), self._writing() as connection:
            act = Act(connection, name, who=who, scope=job_id)
            if do is not None:
                do(act)
            journal_id = enter(act) if act.touches or do is None else 0
        return act.change(journal_id)

    @contextmanager
    def _writing(self) -> Iterator[Connection]:
        with self.engine.connect() as connection:
            writes = connection.execution_options(**WRITES)
            with writes.begin():
                yield writes

    def close(self) -> None:
        self.engine.dispose()


@contextmanager
def _said_plainly(location: Location) -> Iterator[None]:
    """A full or read-only disk, a locked or damaged file: one sentence instead of a traceback."""
    try:
        yield
    except DatabaseError as wrong:
        sentence = _sentence(wrong.orig, location.database)
        if sentence is None:
            raise
        raise StoreTrouble(sentence) from wrong


def _sentence(wrong: BaseException | None, database: Path) -> str | None:
    if not isinstance(wrong, sqlite3.DatabaseError):
        return None
    said = str(wrong)
    for cause, sentence in _CAUSES.items():
        if cause in said:
            return sentence.format(database=database)
    return None


_CAUSES = {
    "FOREIGN KEY": "This belongs to something that is no longer in the store, so it was not kept. "
    "Choose again what it belongs to.",
    "disk is full": "The disk is full, so this was not kept. Free some space and do it again; "
    "what you typed is still here.",
    "readonly": "The store {database} may not be written, so this was not kept. "
    "Allow writing or open another store; what you typed is still here.",
    "disk I/O error": "The disk does not answer, so this was not kept. Check the disk of "
    "{database} and do it again; what you typed is still here.",
    "unable to open": "The store {database} cannot be opened any more. Check that its disk is "
    "there.",
    "locked": "Another program holds the store {database}. Close it there and do this again; "
    "what you typed is still here.",
    "malformed": "The store {database} is damaged. Close Bagtag and put back the newest copy.",
}
