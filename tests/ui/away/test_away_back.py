"""Check-in: by scan and by tick, what speaks against it, what stays away."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.model import Fate
from bagtag.domain.send_out import BackCheck
from bagtag.ui.card.task_signs import CROSS, TICK
from tests.ui.away.away_kit import batch, called_out, code, send_drum
from tests.ui.forms_kit import CONTROL, ENTER, press, write
from tests.ui.stages_job import sentence_of


@pytest.fixture
def stage(sent, stage):
    stage.check_in(sent)
    return stage


@pytest.fixture
def scan(stage, desk, settle, store, job):
    def do(name: str) -> None:
        assert stage.take_scan(code(store, job, name))
        settle(desk)

    return do


def row(stage, name: str):
    return next(one for one in stage.back.rows.values() if one.item.removal.name == name)


def finish(stage, desk, settle) -> None:
    press(ENTER, CONTROL)
    settle(desk)


def test_every_part_is_listed_with_what_the_shop_took_off(stage) -> None:
    names = [one.item.removal.name for one in stage.back.rows.values()]
    assert names == ["cover, clutch side", "dowels", "main shaft"]
    assert not any(one.is_here for one in stage.back.rows.values())
    assert "stay away" in stage.back.count.text()


def test_a_scanned_part_is_ticked_and_its_figure_has_the_keys(stage, scan) -> None:
    scan("cover, clutch side")
    cover = row(stage, "cover, clutch side")
    assert cover.is_here
    assert stage.back.scanned.sign is TICK
    assert QApplication.focusWidget() is cover.figures[0].line
    scan("cover, clutch side")
    assert "ticked already" in stage.back.scanned.said.text()
    assert cover.is_here


def test_a_part_of_another_send_out_a_part_that_is_here_and_a_strange_code(
    stage, scan, desk, settle, store, job
) -> None:
    send_drum(store, job)
    for name, said in (("shift drum", "plater"), ("shift fork L", "shift fork L")):
        scan(name)
        assert stage.back.scanned.sign is CROSS
        assert said in stage.back.scanned.said.text()
    stage.take_scan("no code at all")
    settle(desk)
    assert stage.back.scanned.sign is CROSS
    assert not any(one.is_here for one in stage.back.rows.values())


def test_what_is_not_ticked_stays_away(stage, scan, desk, settle, store, sent) -> None:
    scan("main shaft")
    shaft = row(stage, "main shaft")
    shaft.all_right.click()
    assert shaft.speaks_against() == ()
    assert "1 cover, clutch side" in stage.back.count.text()
    finish(stage, desk, settle)
    assert called_out(store, sent) == ["cover, clutch side", "dowels"]
    assert stage.pages.currentWidget() is stage.one
    assert "1 of 3 back" in stage.one.when.text()
    back = next(one for one in batch(store, sent).items if one.removal.name == "main shaft")
    assert set(back.away.checks) == {BackCheck.WORK, BackCheck.CLEAN, BackCheck.PLUGS}
    assert back.away.back_by == "Ada"


def test_all_of_it_measured_and_in_limits(stage, scan, desk, settle, store, sent) -> None:
    scan("cover, clutch side")
    write("0,03")
    cover = row(stage, "cover, clutch side")
    cover.all_right.click()
    assert cover.speaks_against() == ()
    assert not cover.decide.isVisible()
    for name in ("dowels", "main shaft"):
        row(stage, name).tick()
        row(stage, name).all_right.click()
    assert stage.back.count.text() == "All of it is here."
    finish(stage, desk, settle)
    assert called_out(store, sent) == []
    item = batch(store, sent).items[0]
    assert set(item.away.checks) == set(BackCheck)
    assert item.away.figures[0].value == 0.03
    assert "0.03" in sentence_of(stage)


def test_a_figure_outside_is_said_at_once_and_may_be_left_to_decide(
    stage, scan, desk, settle, store, job, sent
) -> None:
    scan("cover, clutch side")
    write("0.08")
    cover = row(stage, "cover, clutch side")
    assert "0.08 mm is above 0.05" in cover.against.text()
    assert cover.decide.isVisible()
    cover.decide.chips[0].click()
    finish(stage, desk, settle)
    assert called_out(store, sent) == ["dowels", "main shaft"]
    part = services.strip.get_removal(store, job.parts["cover, clutch side"])
    assert part.fate is Fate.DECIDE


def test_a_figure_outside_decides_nothing_by_itself(stage, scan, desk, settle, store, job, sent):
    scan("cover, clutch side")
    write("0.08")
    cover = row(stage, "cover, clutch side")
    cover.note.setText("the foreman skims it again on Monday")
    finish(stage, desk, settle)
    assert "cover, clutch side" not in called_out(store, sent)
    part = services.strip.get_removal(store, job.parts["cover, clutch side"])
    assert part.fate is Fate.REFIT
    assert "skims it again" in sentence_of(stage)


def test_what_speaks_against_it_is_said_once_before_it_is_taken(
    stage, scan, desk, settle, store, sent
) -> None:
    scan("main shaft")
    finish(stage, desk, settle)
    assert "main shaft" in called_out(store, sent)
    assert "once more" in stage.back.wrong.text()
    assert row(stage, "main shaft").note.hasFocus()
    finish(stage, desk, settle)
    assert "main shaft" not in called_out(store, sent)


def test_one_that_is_ticked_after_the_warning_is_warned_of_too(
    stage, scan, desk, settle, store, sent
) -> None:
    scan("main shaft")
    finish(stage, desk, settle)
    row(stage, "dowels").tick()
    assert stage.back.wrong.isHidden()
    finish(stage, desk, settle)
    assert len(called_out(store, sent)) == 3


def test_nothing_ticked_is_said(stage, desk, settle, store, sent) -> None:
    finish(stage, desk, settle)
    assert "Nothing is ticked yet" in stage.back.wrong.text()
    assert len(called_out(store, sent)) == 3


def test_what_is_no_figure_is_said_at_its_row_and_nothing_is_lost(
    stage, scan, desk, settle, store, sent
) -> None:
    scan("cover, clutch side")
    write("flat")
    cover = row(stage, "cover, clutch side")
    cover.note.setText("looks good")
    finish(stage, desk, settle)
    assert "flat is no figure" in cover.figures[0].verdict.said.text()
    assert cover.note.text() == "looks good"
    assert len(called_out(store, sent)) == 3


def test_what_was_ticked_is_there_after_looking_elsewhere(
    qtbot, stage, scan, desk, settle, store, job, sent
) -> None:
    scan("cover, clutch side")
    write("0.03")
    qtbot.keyClick(stage.back, Qt.Key.Key_Escape)
    assert stage.pages.currentWidget() is stage.one
    services.send_outs.shop_took(store, sent, job.parts["main shaft"], "oil jet", who="MK")
    stage.enter()
    settle(desk)
    stage.one.back.click()
    assert row(stage, "cover, clutch side").figures[0].line.text() == "0.03"
    assert row(stage, "cover, clutch side").is_here
    assert row(stage, "oil jet")


def test_another_send_out_is_checked_in_by_itself(stage, scan, desk, settle, store, job) -> None:
    scan("cover, clutch side")
    other = send_drum(store, job)
    stage.enter()
    settle(desk)
    stage.check_in(other)
    assert [one.item.removal.name for one in stage.back.rows.values()] == ["shift drum"]
    assert not any(one.is_here for one in stage.back.rows.values())


def test_one_that_somebody_checked_in_meanwhile_is_no_longer_asked_for(
    stage, scan, desk, settle, store, sent
) -> None:
    scan("cover, clutch side")
    shaft = row(stage, "main shaft").item.away.id
    desk.act(services.send_outs.back, [services.send_outs.Back(shaft)])
    settle(desk)
    assert [one.item.removal.name for one in stage.back.rows.values()] == [
        "cover, clutch side",
        "dowels",
    ]
    assert row(stage, "cover, clutch side").is_here


def test_a_scan_is_left_to_the_window_where_nothing_is_checked_in(stage, store, job) -> None:
    stage.show_all()
    assert not stage.take_scan(code(store, job, "main shaft"))
    stage.check_in(stage.batches[0].send_out.id)
    stage.hide()
    assert not stage.take_scan(code(store, job, "main shaft"))
