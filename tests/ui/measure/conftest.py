"""What the tests of measuring stand on: the screen, and a sheet that is open on it."""

import pytest

from bagtag.domain.measuring.sheet import SheetKind
from bagtag.ui.measure.measure_stage import MeasureStage
from tests.ui.measure.measure_kit import add, cylinder


@pytest.fixture
def stage(staged, job):
    return staged(MeasureStage, 1200, 660)


@pytest.fixture
def sheet(stage, desk, store, job, settle):
    """Open a sheet of the cylinder with these values; its id."""

    def opened(kind=SheetKind.BORE, **values) -> int:
        made = add(store, job, kind, cylinder(store, job), **values)
        stage.show_sheet(made)
        settle(desk)
        return made

    return opened
