"""What the tests share: no screen, the program's own font and look, a store, a desk on it."""

import gc
import json
import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

# No test asserts a time, and a machine that does something else beside is no fault of the program.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

gc.disable()  # as in the program: a worker must not collect what an earlier test left


@pytest.fixture(autouse=True)
def _collected_on_the_main_thread() -> Iterator[None]:
    """Collect after each test what is due, as the program's timer does."""
    yield
    if "PySide6" in sys.modules:
        from bagtag.ui.collector import collect_due

        collect_due()
    else:
        gc.collect(1)


@pytest.fixture
def bagtag(tmp_path, capsys):
    """Run a command line on a store of its own: (status, standard output, standard error)."""

    def run(*arguments: str) -> tuple[int, str, str]:
        from bagtag import cli_app

        status = cli_app.run(["--data-dir", str(tmp_path / "store"), *arguments])
        told = capsys.readouterr()
        return status, told.out, told.err

    return run


@pytest.fixture
def answer(bagtag):
    """What a command answers as JSON, with nothing said beside it."""

    def run(*arguments: str):
        status, out, err = bagtag(*arguments, "--json")
        assert (status, err) == (0, "")
        return json.loads(out)

    return run


@pytest.fixture(scope="session")
def qapp():
    """The one application, dressed as the program dresses it."""
    from PySide6.QtWidgets import QApplication

    from bagtag.ui import fonts
    from bagtag.ui.theme import Theme

    app = QApplication.instance() or QApplication(["bagtag"])
    app.setApplicationName("Bagtag")
    app.setQuitOnLastWindowClosed(False)
    Theme(app)
    fonts.load()
    return app


@pytest.fixture
def store(tmp_path: Path) -> Iterator:
    """An open store in a folder of its own."""
    from bagtag.store.work import Store

    opened = Store.in_folder(tmp_path / "store")
    yield opened
    opened.close()


@pytest.fixture
def job_id(store) -> int:
    """A job with nothing in its log yet."""
    from bagtag import services

    form = services.jobs.JobForm("Walking tractor", "gearbox")
    return services.jobs.open_job(store, form, who="Ada").new_id


@pytest.fixture
def settle(qtbot) -> Callable:
    """Wait until nothing is under way behind a desk, and the screens have heard of it."""

    def wait(desk, other=None) -> None:
        desk = other or desk  # settle(qtbot, desk) is the same as settle(desk)
        qtbot.waitUntil(lambda: desk.idle, timeout=20_000)
        qtbot.wait(1)
        qtbot.waitUntil(lambda: desk.idle, timeout=20_000)

    return wait


@pytest.fixture
def desk(qtbot, store, job_id, settle) -> Iterator:
    """A desk on the store, its job chosen. The store stays open: the fixture closes it."""
    from bagtag.ui.desk import Desk

    made = Desk("Ada")
    with qtbot.waitSignal(made.ready):
        made.open(lambda: store)
    made.choose_job(job_id)
    yield made
    settle(made)
    made.close()
