"""Logging and reading lines of the one job."""

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.services.strip import Extras

NOTHING_ELSE = Extras()


@pytest.fixture
def log(store, job_id):
    """Log a line; returns its id."""

    def entered(name: str, *, extras: Extras = NOTHING_ELSE, **fields: object) -> int:
        return services.strip.log_removal(
            store, job_id, Entry(name, **fields), extras, who="Ada"
        ).new_id

    return entered


@pytest.fixture
def lines(store, job_id):
    """The log as (number, name)."""

    def read() -> list[tuple[str, str]]:
        found = [
            services.strip.get_removal(store, id_) for id_ in services.strip.log_ids(store, job_id)
        ]
        return [(removal.number, removal.name) for removal in found]

    return read
