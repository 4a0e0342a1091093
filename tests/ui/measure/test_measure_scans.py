"""A caliper that types and a scanner that types at one window: each is taken for what it is."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag import services
from bagtag.domain.model import Fate
from bagtag.scan.wedge import Wedge
from bagtag.ui.measure.measure_stage import MeasureStage
from bagtag.ui.measure.new_sheet import NewSheet
from bagtag.ui.scanning.scanner import Scanner
from tests.ui.forms_kit import TAB, press, write
from tests.ui.measure.measure_kit import SIX, add, at_pace, cylinder, readings
from tests.ui.stages_job import gearbox

CODE = "A2C4ER"
MISREAD = "RRSNRC"
"""Its last letter does not fit the others."""
PACE = 8
"""Milliseconds from one key to the next."""


@pytest.fixture
def stage(staged, store):
    return staged(MeasureStage, 1200, 660)


@pytest.fixture
def sheet(stage, desk, store, settle):
    """Open a bore sheet; its id."""

    def opened() -> int:
        job = gearbox(store)
        desk.choose_job(job.id)
        made = add(store, job, part=cylinder(store, job))
        stage.show_sheet(made)
        settle(desk)
        return made

    return opened


@pytest.fixture
def scanner(stage):
    made = Scanner(stage)
    made.heard = []
    made.scanned.connect(made.heard.append)
    yield made
    made.stop()


def test_a_caliper_at_a_scanners_pace_is_no_scan(stage, sheet, scanner, store, desk, settle):
    made = sheet()
    at_pace(stage.windowHandle(), "".join(f"{one}\r" for one in SIX))
    settle(desk)
    assert scanner.heard == []
    assert list(readings(store, made).values()) == [f"{one} mm" for one in SIX]


def test_a_scan_into_a_reading_is_heard_and_leaves_what_was_typed(
    stage, sheet, scanner, store, desk, settle
):
    made = sheet()
    write("76.")
    at_pace(stage.windowHandle(), f"{CODE}\r")
    settle(desk)
    cell = stage.page.table.cells[0]
    assert scanner.heard == [CODE]
    assert (cell.text, cell.wrong.text()) == ("76.", "")
    assert cell.line.hasFocus()
    assert readings(store, made) == {}
    write("31")
    press(TAB)
    settle(desk)
    assert readings(store, made) == {"top, across": "76.31 mm"}


def test_a_scan_decides_nothing(stage, sheet, scanner, store, desk, settle):
    made = sheet()
    for one in (*stage.page.decision.presses, stage.page.back, stage.page.with_.box):
        one.setFocus()
        at_pace(stage.windowHandle(), f"{CODE}\r")
    settle(desk)
    assert set(scanner.heard) == {CODE}
    assert stage.page.isVisible()
    assert services.measuring.get_sheet(store, made).decision is None
    assert stage.page.with_.box.currentIndex() == 0


FIGURES = st.decimals(-1000, 1000, places=3)
SIGNS = st.sampled_from(("", "+", "-"))


def heard(*typed: str) -> list[str]:
    """The codes that are taken out of what is typed at a scanner's pace, each with Enter."""
    wedge, time, found = Wedge(), 0.0, []
    for letter in "".join(f"{one}\r" for one in typed):
        time += PACE
        code = wedge.feed(time, letter).code
        found += [code] if code else []
    return found


@given(st.lists(FIGURES, min_size=1, max_size=6), SIGNS, st.sampled_from((".", ",")))
def test_no_figure_with_a_point_is_ever_taken_for_a_code(figures, sign, point):
    typed = [f"{sign}{abs(one)}".replace(".", point) for one in figures]
    assert heard(*typed) == []


def test_a_code_after_figures_is_still_heard():
    assert heard("76.31", "76.24", CODE) == [CODE]


def test_a_scan_that_was_misread_decides_nothing_where_the_keys_are_first(
    stage, scanner, store, desk, settle
):
    desk.choose_job(gearbox(store).id)
    stage.enter()
    settle(desk)
    row = stage.list.rows[0]
    assert row.first.hasFocus()
    at_pace(stage.windowHandle(), f"{MISREAD}\r")
    settle(desk)
    assert scanner.heard == []
    assert services.strip.get_removal(store, row.removal_id).fate is Fate.DECIDE
    for dialog in stage.findChildren(NewSheet):
        dialog.reject()
