"""Opening the window on the store that a command line names."""

from dataclasses import dataclass
from pathlib import Path


@dataclass(slots=True)
class Wanted:
    """Which store, as given before any command."""

    data_dir: Path | None = None
    database: str = ""
    demo: bool = False


def open_window(wanted: Wanted) -> int:
    """Open the window; returns the status to leave with when it is closed."""
    from bagtag import bootstrap

    return bootstrap.run(
        data_dir=wanted.data_dir, database=wanted.database or None, demo=wanted.demo
    )
