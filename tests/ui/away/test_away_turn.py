"""Away by keyboard: Tab comes to everything in the turn it stands in, and the keys are kept."""

import pytest
from PySide6.QtWidgets import QApplication, QWidget

from bagtag import services
from bagtag.ui.away.away_stage import AwayStage
from tests.ui.away.away_kit import days, send_cover, send_drum
from tests.ui.forms_kit import ENTER, ESC, TAB, press, show


@pytest.fixture
def stage(job, entered):
    return entered(AwayStage, 1180, 640)


def turn(start: QWidget, end: str) -> list[str]:
    """The names of what Tab comes to from there, as far as the end and no further than a page."""
    start.setFocus()
    found = [start.accessibleName()]
    while found[-1] != end and len(found) < 60:
        press(TAB)
        found.append(QApplication.focusWidget().accessibleName())
    return found


def test_packing_is_walked_from_the_shop_to_its_last_act(stage, desk, settle, job) -> None:
    stage.begin()
    settle(desk)
    pack = stage.pack
    pack.pick.set_values([job.parts["shift drum"]])
    pack.pick.changed.emit()
    form = pack.panels[job.parts["shift drum"]].form
    form.figures.add()
    form.off.set_ids([job.parts["gasket, cover"]])
    form.takes.line.setText("3 jets")
    assert form.takes.take()
    walked = turn(form.work, "Leave it")
    assert walked == [
        "Work wanted",
        "Figure 1: what is measured",
        "Figure 1: unit",
        "Figure 1: at least",
        "Figure 1: at most",
        "Take figure 1 out",
        "Add a figure wanted",
        "Taken off it first",
        "Taken off first: 2 gasket, cover",
        "The shop takes off",
        "The shop takes off: 3 × jets",
        "Send it",
        "Leave it",
    ]
    before = turn(pack.shop.shop.line, "Work wanted")
    assert "Send it" not in before
    assert before.index("Promised for") < before.index("Parts that go")


def test_a_send_out_is_walked_part_by_part_to_its_papers(stage, desk, settle, store, job) -> None:
    stage.show_batch(send_cover(store, job, days(3)))
    settle(desk)
    end = "Add a quote, a drawing or an invoice"
    walked = turn(stage.one.back, end)
    assert walked[0] == "What is back?"
    cards = [name for name in walked if name.startswith("Show its card")]
    assert cards == ["Show its card: 1 cover, clutch side", "Show its card: 8 main shaft"]
    assert walked.index("It did not go: 1 cover, clutch side") < walked.index(cards[1])
    assert walked[-1] == end


def test_what_is_back_is_walked_before_it_is_checked_in(stage, desk, settle, store, job) -> None:
    sent = send_cover(store, job)
    stage.show_batch(sent)
    settle(desk)
    stage.check_in(sent)
    row = next(iter(stage.back.rows.values()))
    row.tick()
    settle(desk)
    walked = turn(row.here.chips[0], "Leave it")
    assert walked[0] == "1 cover, clutch side: It is here"
    assert walked[-2:] == ["Check it in", "Leave it"]
    assert "Note on 1 cover, clutch side" in walked


def test_the_keys_stay_on_the_act_of_a_part_that_is_shown_anew(
    stage, desk, settle, store, job
) -> None:
    stage.show_batch(send_cover(store, job))
    settle(desk)
    strip = next(one for one in stage.one.items[1].presses if "took" in one.text())
    strip.setFocus()
    services.send_outs.shop_took(store, stage.one.key, job.parts["main shaft"], "studs", 2)
    stage.enter()
    settle(desk)
    again = next(one for one in stage.one.items[1].presses if "took" in one.text())
    assert again is not strip
    assert again.hasFocus()


def test_of_a_part_that_did_not_go_the_keys_pass_to_the_next(stage, desk, settle, store, job):
    stage.show_batch(send_cover(store, job))
    settle(desk)
    drop = next(one for one in stage.one.items[0].presses if one.text() == "It did not go")
    drop.setFocus()
    press(ENTER)
    settle(desk)
    (shaft,) = stage.one.items
    assert shaft.item.removal.name == "main shaft"
    assert shaft.presses[0].hasFocus()


def test_the_photos_of_a_part_come_into_sight_with_the_keys(
    qtbot, stage, desk, settle, store, job
) -> None:
    stage.resize(880, 330)
    stage.show_batch(send_cover(store, job))
    settle(desk)
    stage.one.items[1].photo_press.click()
    settle(desk)
    view, choose = stage.one.view, stage.one.items[1].photos.acts.choose
    qtbot.waitUntil(lambda: not choose.visibleRegion().isEmpty())
    assert choose.hasFocus()
    assert view.verticalScrollBar().value() > 0


def test_leaving_a_send_out_leads_back_to_it_in_the_list(stage, desk, settle, store, job) -> None:
    send_cover(store, job, days(-2))
    sent = send_drum(store, job)
    stage.show_batch(sent)
    settle(desk)
    press(ESC)
    assert [card.key for card in stage.all.cards][1] == sent
    assert stage.all.cards[1].show_it.hasFocus()


def test_the_keys_are_on_the_first_send_out_when_away_is_first_gone_to(
    qtbot, desk, settle, store, job
) -> None:
    send_cover(store, job)
    stage = AwayStage(desk)
    show(qtbot, stage)
    stage.enter()
    settle(desk)
    assert stage.all.cards[0].show_it.hasFocus()
    stage.all.send.setFocus()
    stage.enter()
    settle(desk)
    assert stage.all.send.hasFocus()
