"""Measure: what has to be inspected or measured, and is then decided."""

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.model import Fate
from bagtag.ui.stages.measure_stage import MeasureStage
from bagtag.ui.stages.stage_keys import QUIET
from tests.ui.stages_job import dies, gearbox, nameless, sentence_of


@pytest.fixture
def job(desk, store):
    made = gearbox(store)
    services.fates.set_fate(store, [made.parts["shift drum"]], Fate.DECIDE)
    desk.choose_job(made.id)
    return made


@pytest.fixture
def stage(qtbot, desk, job, settle):
    made = MeasureStage(desk)
    qtbot.addWidget(made)
    desk.changed.connect(made.hear)
    made.resize(900, 600)
    made.show()
    made.enter()
    settle(desk)
    return made


def test_what_is_to_be_decided_is_listed(stage, job) -> None:
    assert [row.removal_id for row in stage.rows] == [
        job.parts["shift drum"],
        job.parts["shift fork R"],
    ]
    assert stage.head.text() == "2 to inspect or measure, and decide"
    assert "pads worn on one side" in sentence_of(stage)
    assert "maker's manual" in sentence_of(stage)


@pytest.mark.parametrize(
    ("key", "fate"),
    [(Qt.Key.Key_R, Fate.REFIT), (Qt.Key.Key_N, Fate.RENEW), (Qt.Key.Key_S, Fate.SCRAP)],
)
def test_one_key_decides(stage, qtbot, desk, settle, store, job, key, fate) -> None:
    qtbot.keyClick(stage.rows[1].presses[0], key)
    qtbot.wait(QUIET + 30)
    settle(desk)
    assert services.strip.get_removal(store, job.parts["shift fork R"]).fate is fate
    assert [row.removal_id for row in stage.rows] == [job.parts["shift drum"]]


def test_a_scanner_that_types_decides_nothing(stage, qtbot, desk, settle, store, job) -> None:
    press = stage.rows[1].presses[0]
    press.setFocus()
    qtbot.keyClicks(press, "RSN7RS")
    qtbot.wait(QUIET + 30)
    settle(desk)
    assert services.strip.get_removal(store, job.parts["shift fork R"]).fate is Fate.DECIDE


def test_the_buttons_decide_too_and_the_rest_says_so(stage, desk, settle) -> None:
    for _ in range(2):
        stage.rows[0].presses[0].click()
        settle(desk)
    assert stage.rows == []
    assert "Nothing is left to decide" in sentence_of(stage)
    assert "Renew comes next" in sentence_of(stage)


def test_a_part_that_is_gone_is_said(stage, qtbot, desk, settle, store, job) -> None:
    services.strip.delete_removal(store, job.parts["shift drum"])
    said = []
    desk.said.connect(lambda sentence, trouble: said.append((sentence, trouble)))
    stage.settle(job.parts["shift drum"], Fate.REFIT)
    settle(desk)
    ((sentence, trouble),) = said
    assert trouble
    assert "no longer in the log" in sentence


def test_names_and_leaks(stage, qtbot, desk, settle) -> None:
    assert nameless(stage) == []

    def make() -> MeasureStage:
        made = MeasureStage(desk)
        made.enter()
        settle(desk)
        return made

    assert dies(qtbot, make)
