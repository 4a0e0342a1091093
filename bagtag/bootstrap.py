"""The one place that wires store, services and window together.

What is heavy is imported inside, since the window is painted before the store is opened.
"""

from __future__ import annotations

from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bagtag.store.engine import Location
    from bagtag.store.work import Store
    from bagtag.ui.desk import Desk
    from bagtag.ui.window import MainWindow

_BEGUN = datetime.now()


def default_folder() -> Path:
    """Where the store lies when nobody says: the platform's folder for a user's data."""
    import platformdirs

    return Path(platformdirs.user_data_dir("bagtag", appauthor=False))


def locate(data_dir: Path | None = None, database: str | None = None) -> Location:
    """The place of a store by folder or by URL; BadInput for a URL that is none of ours."""
    from bagtag.store.engine import Location

    if database:
        return Location.from_url(database)
    return Location.in_folder(data_dir or default_folder())


def open_store(location: Location) -> Store:
    """Open a store, made or migrated as need be; StoreTrouble when it cannot be."""
    from bagtag.store.work import Store

    store = Store(location)
    store.photos.sweep(_BEGUN)  # what a crash left half written
    return store


def open_at(data_dir: Path | None = None, database: str | None = None) -> Store:
    """Open a store by folder or URL, and load what the window will ask first."""
    store = open_store(locate(data_dir, database))
    _load_services()
    return store


def open_demo(folder: Path) -> Store:
    """A fresh store with the demo job, in a folder that will be thrown away."""
    from bagtag import services

    store = open_store(locate(folder))
    services.demo.write(store)
    _load_services()
    return store


def run(
    *, data_dir: Path | None = None, database: str | None = None, demo: bool = False, who: str = ""
) -> int:
    """Open the window on a store, or on a throw-away copy of the demo; the status to leave with."""
    from bagtag.ui import app

    if not demo:
        return app.run(partial(open_at, data_dir, database), who or _default_name())
    from tempfile import TemporaryDirectory

    with TemporaryDirectory(prefix="bagtag-demo-", ignore_cleanup_errors=True) as folder:
        return app.run(partial(open_demo, Path(folder)), who or _default_name())


def make_window(location: Location, who: str) -> tuple[MainWindow, Desk]:
    """A window whose desk opens the store at once; needs a QApplication."""
    from bagtag.ui.desk import Desk
    from bagtag.ui.window import MainWindow

    desk = Desk(who)
    window = MainWindow(desk)
    window.finish()
    desk.open(partial(open_store, location))
    return window, desk


def _default_name() -> str:
    from bagtag.services.people import default_name

    return default_name()


def _load_services() -> None:
    """Import on the store's thread what the window asks for first."""
    from bagtag import services

    for name in ("jobs", "views", "strip", "tags", "tape", "find", "history", "board", "scanning"):
        getattr(services, name)
