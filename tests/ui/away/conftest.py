"""What the tests of Away stand on: the screen; the cover and the main shaft four days late."""

import pytest

from bagtag.ui.away.away_stage import AwayStage
from tests.ui.away.away_kit import days, send_cover


@pytest.fixture
def sent(store, job) -> int:
    return send_cover(store, job, days(-4))


@pytest.fixture
def stage(job, entered):
    return entered(AwayStage, 1280, 800)
