"""Deciding on a sheet: by name, with a reason where the figures do not bear it out, undone."""

import pytest

from bagtag import services
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.model import Fate
from bagtag.ui.measure.measure_stage import MeasureStage
from tests.ui.forms_kit import ENTER, press, write
from tests.ui.measure.measure_kit import LIMITS, OVERSIZES, SIX, add, caliper, cylinder
from tests.ui.stages_job import sentence_of


@pytest.fixture
def opened(staged, desk, store, job, settle):
    """A stage with a bore sheet of a cylinder that is out of its limits, and their ids."""
    stage = staged(MeasureStage, 1200, 660)
    part = cylinder(store, job)
    sheet = add(store, job, part=part, limits=LIMITS, given=OVERSIZES)
    stage.show_sheet(sheet)
    settle(desk)
    caliper(*SIX)
    settle(desk)
    return stage, part, sheet


def fate(store, part: int) -> Fate:
    return services.strip.get_removal(store, part).fate


def word(stage, wanted: Fate):
    return next(one for one in stage.page.decision.presses if one.fate is wanted)


def test_enter_on_a_word_decides_with_name_and_date(opened, store, desk, settle):
    stage, part, sheet = opened
    word(stage, Fate.RENEW).setFocus()
    press(ENTER)
    settle(desk)
    made = services.measuring.get_sheet(store, sheet).decision
    assert (made.fate, made.who) == (Fate.RENEW, "Ada")
    assert fate(store, part) is Fate.RENEW
    assert stage.page.decision.head.text() == "Renew"
    assert f"Decided by Ada, {made.at.astimezone().day} " in sentence_of(stage)
    assert not any(one.isVisible() for one in stage.page.decision.presses)
    assert stage.page.back.hasFocus()
    press(ENTER)
    settle(desk)
    assert services.measuring.get_sheet(store, sheet).decision == made
    assert stage.list.isVisible()


def test_refitted_out_of_limits_wants_a_reason(opened, store, desk, settle):
    stage, part, sheet = opened
    word(stage, Fate.REFIT).click()
    settle(desk)
    panel = stage.page.decision
    assert "Say why" in panel.fields["why"].wrong.text()
    assert panel.why.hasFocus()
    assert services.measuring.get_sheet(store, sheet).decision is None
    write("runs in a spare pump")
    press(ENTER)  # decides nothing: one of the words has to be pressed
    settle(desk)
    assert fate(store, part) is Fate.DECIDE
    word(stage, Fate.REFIT).click()
    settle(desk)
    assert fate(store, part) is Fate.REFIT
    assert "Why: runs in a spare pump" in panel.about.text()


def test_the_work_stands_ready_from_the_advice(opened, store, desk, settle):
    stage, part, sheet = opened
    assert "Rebore to 76.50 mm" in stage.page.decision.work.toPlainText()
    word(stage, Fate.DECIDE).click()
    settle(desk)
    made = services.measuring.get_sheet(store, sheet).decision
    assert made.fate is Fate.DECIDE
    assert "Rebore to 76.50 mm" in made.work
    assert "Largest at" not in made.work
    assert fate(store, part) is Fate.DECIDE
    assert "Pack it in Away" in stage.page.decision.about.text()


def test_other_work_that_was_written_is_not_written_over(opened, desk, settle):
    stage, _, _ = opened
    stage.page.decision.work.setPlainText("hone only")
    stage.page.table.focus_on("top, across")
    caliper("76.35")
    settle(desk)
    assert stage.page.decision.work.toPlainText() == "hone only"


def test_a_decision_is_taken_back(opened, store, desk, settle):
    stage, part, sheet = opened
    word(stage, Fate.SCRAP).click()
    settle(desk)
    assert fate(store, part) is Fate.SCRAP
    stage.page.decision.back.click()
    settle(desk)
    assert services.measuring.get_sheet(store, sheet).decision is None
    assert fate(store, part) is Fate.DECIDE
    assert word(stage, Fate.SCRAP).isVisible()


def test_what_is_read_after_the_decision_is_asked_about(opened, desk, settle):
    stage, _, _ = opened
    word(stage, Fate.RENEW).click()
    settle(desk)
    stage.page.table.focus_on("top, across")
    caliper("76.50")
    settle(desk)
    assert any("Decide again" in one for one in stage.page.questions.sentences)


def test_a_sheet_of_no_part_decides_nothing(opened, store, desk, settle, job):
    stage, _, _ = opened
    stage.show_sheet(add(store, job, SheetKind.COMPRESSION))
    settle(desk)
    assert stage.page.decision.isHidden()


def test_without_a_name_at_the_bench_one_is_asked_for(opened, store, desk, settle, qtbot):
    _, _, sheet = opened
    desk.who = ""
    stage = MeasureStage(desk)
    qtbot.addWidget(stage)
    stage.resize(1200, 660)
    stage.show()
    stage.show_sheet(sheet)
    settle(desk)
    word(stage, Fate.RENEW).click()
    settle(desk)
    who = stage.page.decision.fields["who"]
    assert "who decided" in who.wrong.text()
    stage.page.decision.who.setText("Ben")
    word(stage, Fate.RENEW).click()
    settle(desk)
    assert services.measuring.get_sheet(store, sheet).decision.who == "Ben"


def test_a_sheet_taken_out_leads_back_to_the_parts_and_comes_back(opened, store, desk, settle):
    stage, _, sheet = opened
    said = []
    desk.said.connect(lambda sentence, _: said.append(sentence))
    stage.page.more.open(True)
    stage.page.more.out.click()
    settle(desk)
    assert stage.list.isVisible()
    assert said == []
    desk.act(services.history.undo, desk.job_id)
    settle(desk)
    slips = [slip.sheet_id for row in stage.list.rows for slip in row.slips]
    assert slips == [sheet]


def test_another_job_shows_its_own_parts(opened, store, desk, settle, job_id):
    stage, _, _ = opened
    desk.choose_job(job_id)
    stage.enter()
    settle(desk)
    assert stage.list.isVisible()
    assert stage.list.rows == []


def test_the_sheet_is_printed_as_a_page(opened, qtbot, desk, settle):
    from bagtag.ui.sheets.measure_dialog import MeasureDialog

    stage, _, _ = opened
    stage.page.print.click()
    settle(desk)
    (dialog,) = stage.page.findChildren(MeasureDialog)
    assert dialog.subject() == stage.ties.work.sheet_id
    dialog.close()
