"""What the tests of Renew stand on: the screen on a gearbox with something to buy."""

import pytest
from PySide6.QtCore import Qt

from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.renew.renew_stage import RenewStage
from tests.ui.forms_kit import press
from tests.ui.renew.renew_kit import furnish


@pytest.fixture
def job(job, store):
    furnish(store, job)
    return job


@pytest.fixture
def stage(job, entered):
    return entered(RenewStage, 1180, 620)


@pytest.fixture
def at(stage, desk, settle):
    """Put the keys on the line of this name."""

    def go(name: str):
        rows = stage.list.rows
        stage.list.go_to(
            next(n for n in rows.places() if rows.lines[n].new_part.what == name),
        )
        stage.list.setFocus()
        settle(desk)
        return stage.list.here

    return go


@pytest.fixture
def letter(qtbot, desk, settle):
    def tap(key: Qt.Key) -> None:
        press(key)
        qtbot.wait(QUIET + 30)
        settle(desk)

    return tap
