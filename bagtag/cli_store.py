"""The store a command works on, and who works."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from bagtag import bootstrap
from bagtag.cli_window import Wanted
from bagtag.services import people
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Bench:
    """What every command is handed."""

    wanted: Wanted

    @property
    def who(self) -> str:
        return people.default_name()

    @contextmanager
    def store(self) -> Iterator[Store]:
        """The store asked for, closed again afterwards."""
        where = bootstrap.locate(self.wanted.data_dir, self.wanted.database or None)
        store = bootstrap.open_store(where)
        try:
            yield store
        finally:
            store.close()
