"""Which store a command works on, and who works."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import platformdirs

from bagtag.cli import Wanted
from bagtag.services import people
from bagtag.store.engine import Location
from bagtag.store.work import Store


def location(wanted: Wanted) -> Location:
    """The store asked for, else the one in the platform's user data folder."""
    if wanted.database:
        return Location.from_url(wanted.database)
    folder = wanted.data_dir or Path(platformdirs.user_data_dir("bagtag", appauthor=False))
    return Location.in_folder(folder)


@dataclass(frozen=True, slots=True)
class Bench:
    """What every command is handed."""

    wanted: Wanted

    @property
    def who(self) -> str:
        return people.default_name()

    @contextmanager
    def store(self) -> Iterator[Store]:
        """The store, closed again afterwards."""
        store = Store(location(self.wanted))
        try:
            yield store
        finally:
            store.close()
