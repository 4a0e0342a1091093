"""Away: what is out and what is late, as cards; which page is shown when."""

from datetime import UTC, date, datetime

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.model import Away
from bagtag.domain.send_out import BackCheck
from bagtag.ui.away import away_words
from bagtag.ui.away.away_stage import AwayStage
from tests.ui.away.away_kit import SHOP, called_out, days, send_cover, send_drum, sent_before
from tests.ui.stages_job import dies, nameless, sentence_of


@pytest.fixture
def stage(job, entered):
    return entered(AwayStage, 1000, 640)


def entered(stage, desk, settle):
    stage.enter()
    settle(desk)
    return stage


def test_nothing_away_says_so_and_what_to_do(stage) -> None:
    assert stage.all.head.text() == "Nothing is away"
    assert "Send castings" in sentence_of(stage)


@pytest.mark.parametrize(
    ("promised", "today", "said"),
    [
        (None, date(2026, 6, 1), "out since 3 May, no day promised"),
        (date(2026, 5, 12), date(2026, 5, 12), "out since 3 May, promised for 12 May"),
        (
            date(2026, 5, 12),
            date(2026, 5, 13),
            "out since 3 May, promised for 12 May, 1 day late",
        ),
        (
            date(2026, 5, 12),
            date(2027, 5, 13),
            "out since 3 May 2026, promised for 12 May 2026, 366 days late",
        ),
    ],
)
def test_since_when_until_when(promised, today, said) -> None:
    assert away_words.since(date(2026, 5, 3), promised, today) == said


def test_what_is_said_of_a_part_that_is_back() -> None:
    came = datetime(2026, 5, 12, 12, tzinfo=UTC)
    one = Away(1, 1, "plater", "", came, None, came, checks=(BackCheck.WORK,), back_by="MK")
    assert away_words.back_said(one, date(2026, 6, 1)) == "back 12 May, checked in by MK: work done"


def test_a_card_for_each_send_out_the_late_one_first(stage, desk, settle, store, job) -> None:
    send_drum(store, job, days(9))
    send_cover(store, job, days(-4))
    entered(stage, desk, settle)
    assert stage.all.head.text() == "4 parts away in 2 send-outs, 1 of them late"
    assert [card.head.text() for card in stage.all.cards] == [
        f"Send-out 2, {SHOP}",
        "Send-out 1, plater",
    ]
    assert "4 days late" in stage.all.cards[0].when.text()
    assert stage.all.cards[0].when.property("tone") == "accent"
    said = sentence_of(stage)
    assert "skim the joint face" in said
    assert "2 × dowels" in said


def test_a_card_is_opened_by_its_button_and_by_a_click(qtbot, stage, desk, settle, store, job):
    sent = send_cover(store, job)
    entered(stage, desk, settle)
    stage.all.cards[0].show_it.click()
    assert stage.pages.currentWidget() is stage.one
    assert stage.one.key == sent
    qtbot.keyClick(stage.one, Qt.Key.Key_Escape)
    assert stage.pages.currentWidget() is stage.all
    qtbot.mouseClick(stage.all.cards[0], Qt.MouseButton.LeftButton)
    assert stage.pages.currentWidget() is stage.one


def test_a_scanned_traveller_shows_its_send_out_though_nothing_was_read_yet(
    qtbot, desk, settle, store, job
) -> None:
    sent = send_cover(store, job)
    made = AwayStage(desk)
    qtbot.addWidget(made)
    made.enter()
    made.show_batch(sent)
    settle(desk)
    assert made.pages.currentWidget() is made.one
    assert made.one.key == sent


def test_a_send_out_that_is_gone_leads_back_to_all(stage, desk, settle, store, job) -> None:
    sent = send_cover(store, job)
    entered(stage, desk, settle)
    stage.show_batch(sent)
    desk.act(services.send_outs.delete, sent)
    settle(desk)
    assert stage.pages.currentWidget() is stage.all
    stage.show_batch(sent)
    settle(desk)
    assert stage.pages.currentWidget() is stage.all


def test_another_job_begins_with_all_of_its_own(stage, desk, settle, store, job) -> None:
    sent = send_cover(store, job)
    entered(stage, desk, settle)
    stage.show_batch(sent)
    other = services.jobs.open_job(store, services.jobs.JobForm("Pump"), who="MK").new_id
    desk.choose_job(other)
    entered(stage, desk, settle)
    assert stage.pages.currentWidget() is stage.all
    assert stage.all.cards == []


def test_what_an_older_store_sent_shows_and_comes_back(stage, desk, settle, store, job) -> None:
    sent_before(store, job)
    sent_before(store, job, "shift fork L")
    entered(stage, desk, settle)
    (card,) = stage.all.cards
    assert card.head.text() == "Sent one by one, welder"
    card.show_it.click()
    assert stage.one.paper.isHidden()
    assert stage.one.papers.isHidden()
    stage.one.back.click()
    row = next(iter(stage.back.rows.values()))
    row.tick()
    stage.back.finish.click()
    stage.back.finish.click()
    settle(desk)
    assert len(services.fates.away_list(store, job.id)) == 1
    assert stage.pages.currentWidget() is stage.all


def test_a_send_out_that_is_all_back_is_quiet_and_stands_last(stage, desk, settle, store, job):
    sent = send_drum(store, job)
    send_cover(store, job)
    away_id = services.send_outs.batch(store, sent).items[0].away.id
    services.send_outs.back(store, [services.send_outs.Back(away_id)], who="MK")
    entered(stage, desk, settle)
    last = stage.all.cards[-1]
    assert last.key == sent
    assert "back" in last.when.text()
    assert last.back.isHidden()
    last.show_it.click()
    assert stage.one.back.isHidden()
    assert "back" in sentence_of(stage)


def test_undo_brings_what_was_checked_in_back_onto_the_page(stage, desk, settle, store, job):
    sent = send_drum(store, job)
    entered(stage, desk, settle)
    stage.check_in(sent)
    next(iter(stage.back.rows.values())).tick()
    stage.back.finish.click()
    stage.back.finish.click()
    settle(desk)
    assert called_out(store, sent) == []
    desk.act(services.history.undo, job.id)
    settle(desk)
    assert called_out(store, sent) == ["shift drum"]
    assert stage.one.back.isEnabled()


def test_names_and_leaks(stage, qtbot, desk, settle, store, job) -> None:
    sent = send_cover(store, job, days(-4))
    sent_before(store, job)
    entered(stage, desk, settle)
    assert nameless(stage) == []
    stage.show_batch(sent)
    assert nameless(stage) == []
    stage.check_in(sent)
    for row in stage.back.rows.values():
        row.tick()
    assert nameless(stage) == []
    stage.begin()
    settle(desk)
    stage.pack.pick.set_values([job.parts["shift drum"]])
    stage.pack.pick.changed.emit()
    stage.pack.panels[job.parts["shift drum"]].form.figures.add()
    assert nameless(stage) == []

    def make() -> AwayStage:
        made = AwayStage(desk)
        made.enter()
        settle(desk)
        made.check_in(sent)
        made.show_batch(sent)
        made.begin()
        settle(desk)
        return made

    assert dies(qtbot, make)
