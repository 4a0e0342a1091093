"""Measure: the parts to inspect or measure with their sheets, and those decided without one."""

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.model import Fate
from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.measure.measure_stage import MeasureStage
from tests.ui.forms_kit import ENTER, ESC, press
from tests.ui.measure.measure_kit import add, cylinder
from tests.ui.stages_job import dies, nameless, sentence_of


@pytest.fixture
def job(job, store):
    services.fates.set_fate(store, [job.parts["shift drum"]], Fate.DECIDE)
    return job


@pytest.fixture
def stage(job, entered):
    return entered(MeasureStage, 900, 600)


@pytest.fixture
def rows(stage):
    def now():
        return stage.list.rows

    return now


def test_what_is_to_be_decided_is_listed(stage, rows, job) -> None:
    assert [row.removal_id for row in rows()] == [
        job.parts["shift drum"],
        job.parts["shift fork R"],
    ]
    assert stage.list.head.text() == "2 to inspect or measure, and decide"
    assert rows()[0].first.hasFocus()
    assert "pads worn on one side" in sentence_of(stage)
    assert "The maker's manual overrides every limit" in sentence_of(stage)


@pytest.mark.parametrize(
    ("key", "fate"),
    [(Qt.Key.Key_R, Fate.REFIT), (Qt.Key.Key_N, Fate.RENEW), (Qt.Key.Key_S, Fate.SCRAP)],
)
def test_one_key_decides(rows, qtbot, desk, settle, store, job, key, fate) -> None:
    qtbot.keyClick(rows()[1].presses[0], key)
    qtbot.wait(QUIET + 30)
    settle(desk)
    assert services.strip.get_removal(store, job.parts["shift fork R"]).fate is fate
    assert [row.removal_id for row in rows()] == [job.parts["shift drum"]]


def test_a_scanner_that_types_decides_nothing(rows, qtbot, desk, settle, store, job) -> None:
    one = rows()[1].presses[0]
    one.setFocus()
    qtbot.keyClicks(one, "RSN7RS")
    qtbot.wait(QUIET + 30)
    settle(desk)
    assert services.strip.get_removal(store, job.parts["shift fork R"]).fate is Fate.DECIDE


def test_the_buttons_decide_too_and_the_rest_says_so(stage, rows, desk, settle) -> None:
    for _ in range(2):
        rows()[0].presses[0].click()
        settle(desk)
    assert rows() == []
    assert "Nothing is left to decide" in sentence_of(stage)
    assert "Renew comes next" in sentence_of(stage)


def test_a_part_that_is_gone_is_said(rows, desk, settle, store, job) -> None:
    services.strip.delete_removal(store, job.parts["shift drum"])
    said = []
    desk.said.connect(lambda sentence, trouble: said.append((sentence, trouble)))
    rows()[0].presses[0].click()
    settle(desk)
    ((sentence, trouble),) = said
    assert trouble
    assert "no longer in the log" in sentence


def test_a_part_with_a_sheet_is_decided_on_it(stage, rows, desk, settle, store, job) -> None:
    part = cylinder(store, job)
    sheet = add(store, job, part=part, title="cylinder 1")
    stage.enter()
    settle(desk)
    row = next(row for row in rows() if row.removal_id == part)
    assert row.presses == []
    (slip,) = row.slips
    assert (slip.text(), slip.summary) == ("Bore, cylinder 1", "6 readings to take")
    slip.setFocus()
    press(ENTER)
    settle(desk)
    assert stage.page.isVisible()
    assert stage.page.head.text().endswith("cylinder")
    press(ESC)
    settle(desk)
    assert stage.list.isVisible()
    slips = [slip for row in rows() for slip in row.slips]
    assert [slip.sheet_id for slip in slips if slip.hasFocus()] == [sheet]


def test_sheets_of_no_part_stand_at_the_end(stage, rows, desk, settle, store, job) -> None:
    add(store, job, SheetKind.COMPRESSION)
    stage.enter()
    settle(desk)
    assert rows()[-1].name == "Of no part alone"
    assert [slip.text() for slip in rows()[-1].slips] == ["Compression ratio"]


def test_what_was_decided_by_a_sheet_stays_in_the_list(
    stage, rows, desk, settle, store, job
) -> None:
    part = cylinder(store, job)
    sheet = add(store, job, part=part)
    services.measuring.decide(store, sheet, Fate.RENEW, why="cracked", who="MK")
    stage.enter()
    settle(desk)
    assert rows()[-1].removal_id == part
    assert "decided: renew" in sentence_of(stage)
    (slip,) = rows()[-1].slips
    assert slip.summary == "6 readings to take; decided: renew"


def test_names_and_leaks(stage, qtbot, desk, settle, store, job) -> None:
    add(store, job, part=cylinder(store, job))
    stage.enter()
    settle(desk)
    assert nameless(stage) == []

    def make() -> MeasureStage:
        made = MeasureStage(desk)
        made.enter()
        settle(desk)
        return made

    assert dies(qtbot, make)
