"""Packing a send-out: parts by list and by scan, what is wanted of each, what cannot be."""

from datetime import date

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.fitting import Asked
from bagtag.domain.model import Origin
from bagtag.domain.sending import ShopPart
from tests.ui.away.away_kit import SHOP, batch, code, days, send_cover, send_drum
from tests.ui.forms_kit import CONTROL, ENTER, ESC, press, write
from tests.ui.stages_job import sentence_of

TODAY = date(2026, 11, 25)


@pytest.fixture
def pack(stage, desk, settle):
    stage.all.send.click()
    settle(desk)
    return stage.pack


def choose(pack, part: int):
    """Tick a part in the list; its panel."""
    pack.pick.set_values([*pack.pick.values, part])
    pack.pick.changed.emit()
    return pack.panels[part]


def test_what_could_go_is_listed_the_newest_first(pack, job) -> None:
    rows = [pack.pick.list.rows.row_at(at).text for at in range(pack.pick.list.rows.rowCount())]
    assert rows[0] == "9 oil jets"
    assert not any("split pins" in row for row in rows)  # scrapped


def test_a_batch_is_packed_by_keyboard_alone(pack, stage, desk, settle, store, job) -> None:
    write("Mill Lane")
    pack.shop.promised.setFocus()
    write("2 weeks")
    pack.pick.line.setFocus()
    write("cover, cl")
    press(ENTER)
    form = pack.panels[job.parts["cover, clutch side"]].form
    form.work.setFocus()
    write("skim")
    form.figures.add()
    write("flatness")
    form.figures.rows[0].high.setFocus()
    write("0,05")
    form.off.pick.line.setFocus()
    write("gasket")
    press(ENTER)
    form.takes.line.setFocus()
    write("2 dowels")
    press(ENTER)
    write("oil nozzle")  # not yet taken by Enter: it goes all the same
    press(ENTER, CONTROL)
    settle(desk)
    assert stage.pages.currentWidget() is stage.one
    (sent,) = services.send_outs.batches(store, job.id)
    assert (sent.shop, sent.promised) == ("Mill Lane", days(14))
    item = sent.items[0]
    assert item.away.work == "skim"
    assert item.away.asks == (Asked("flatness", "mm", None, 0.05),)
    assert item.off == ("2 gasket, cover",)
    taken = [(one.removal.name, one.removal.quantity) for one in sent.items[1:]]
    assert taken == [("dowels", 2), ("oil nozzle", 1)]
    assert {one.removal.origin for one in sent.items[1:]} == {Origin.SHOP}


def test_a_scanned_part_goes_and_the_keys_are_on_its_work(pack, stage, desk, settle, store, job):
    assert stage.take_scan(code(store, job, "shift drum"))
    settle(desk)
    drum = job.parts["shift drum"]
    assert pack.pick.values == [drum]
    assert pack.panels[drum].form.work.hasFocus()
    assert stage.take_scan(code(store, job, "main shaft"))
    settle(desk)
    assert [panel.is_open for panel in pack.panels.values()] == [False, True]
    stage.take_scan(code(store, job, "shift drum"))
    settle(desk)
    assert pack.pick.values == [drum, job.parts["main shaft"]]


def test_a_scan_of_what_cannot_go_says_why(pack, stage, desk, settle, store, job) -> None:
    send_drum(store, job)
    pack.refresh()
    settle(desk)
    stage.take_scan(code(store, job, "shift drum"))
    settle(desk)
    assert "4 shift drum is away already" in pack.wrong.text()
    stage.take_scan(services.containers.list_containers(store, job.id)[0].code)
    settle(desk)
    assert "hangs on no part of this job" in pack.wrong.text()
    stage.take_scan("22222Z")
    settle(desk)
    assert pack.wrong.text()
    assert pack.pick.values == []


def test_no_part_and_no_shop_are_each_said_where_they_are_wanted(pack, desk, settle) -> None:
    pack.save()
    settle(desk)
    assert "Say which shop" in pack.shop.shop.wrong.text()
    pack.shop.shop.line.setText("plater")
    pack.save()
    settle(desk)
    assert "at least one part" in pack.pick.field.wrong.text()


@pytest.mark.parametrize(
    ("line", "typed", "field", "said"),
    [
        ("promised", "12.13.", "promised", "12.13. is no day"),
        ("promised", "2020-01-01", "promised", "before it goes out"),
        ("more.out_on", "2020-01-01", "out_on", "more than a year"),
        ("more.price", "about 20", "price", "about 20"),
    ],
)
def test_what_cannot_be_is_said_at_its_field_and_nothing_typed_is_lost(
    pack, desk, settle, store, job, line, typed, field, said
) -> None:
    pack.shop.shop.line.setText("plater")
    panel = choose(pack, job.parts["shift drum"])
    panel.form.work.setText("chrome")
    holder = pack.shop.more if line.startswith("more.") else pack.shop
    getattr(holder, line.removeprefix("more.")).setText(typed)
    pack.save()
    settle(desk)
    assert said in pack.shop.fields[field].wrong.text()
    assert pack.shop.fields[field].editor.isVisible()
    assert panel.form.work.text() == "chrome"
    assert services.send_outs.batches(store, job.id) == ()


def test_a_limit_that_is_no_figure_opens_the_panel_it_is_in(pack, desk, settle, store, job):
    pack.shop.shop.line.setText("plater")
    first = choose(pack, job.parts["shift drum"])
    first.form.figures.add()
    first.form.figures.rows[0].name.setText("bore")
    first.form.figures.rows[0].low.setText("wide")
    choose(pack, job.parts["main shaft"])
    assert not first.is_open
    pack.save()
    settle(desk)
    assert first.is_open
    assert "wide is not a figure" in first.form.fields["asks"].wrong.text()
    assert services.send_outs.batches(store, job.id) == ()


def test_limits_turned_round_are_said_at_the_part_they_are_of(pack, desk, settle, store, job):
    pack.shop.shop.line.setText("plater")
    first = choose(pack, job.parts["shift drum"])
    second = choose(pack, job.parts["main shaft"])
    first.form.figures.set_asks([Asked("bore", "mm", 76.52, 76.50, places=2)])
    assert second.is_open
    pack.save()
    settle(desk)
    assert first.is_open
    assert first.form.fields["asks"].wrong.text() == (
        "The limits of bore are the wrong way round: 76.52 is above 76.50. Turn them round."
    )
    assert second.form.fields["asks"].wrong.text() == ""
    assert first.form.figures.rows[0].name.hasFocus()
    assert services.send_outs.batches(store, job.id) == ()


def test_a_day_that_cannot_be_is_chosen_whole_to_be_typed_anew(pack, desk, settle, job) -> None:
    write("plater")
    choose(pack, job.parts["shift drum"])
    pack.shop.promised.setText("1 May 2020")
    pack.save()
    settle(desk)
    assert "before it goes out" in pack.shop.fields["promised"].wrong.text()
    write("2 weeks")
    assert pack.shop.promised.text() == "2 weeks"


def test_what_the_shop_takes_off_twice_is_said_where_it_was_typed(pack, desk, settle, store, job):
    pack.shop.shop.line.setText("plater")
    panel = choose(pack, job.parts["shift drum"])
    panel.form.takes.set_parts([ShopPart("dowel"), ShopPart("Dowel")])
    pack.save()
    settle(desk)
    assert "named twice" in panel.form.takes.field.wrong.text()


def test_what_was_typed_for_a_part_is_there_when_it_is_ticked_again(pack, job) -> None:
    drum = job.parts["shift drum"]
    choose(pack, drum).form.work.setText("chrome")
    pack.panels[drum].out.click()
    assert not pack.panels[drum].isVisible()
    assert choose(pack, drum).form.work.text() == "chrome"
    assert pack.panels[drum].isVisible()


def test_a_shut_panel_says_what_is_wanted(pack, job) -> None:
    panel = choose(pack, job.parts["shift drum"])
    assert "Nothing is said" in panel.said.text()
    panel.form.work.setText("chrome")
    panel.form.takes.set_parts([ShopPart("bushes", 2)])
    panel.open(False)
    assert panel.said.text() == "chrome; the shop takes 2 × bushes off"
    panel.head.click()
    assert panel.is_open
    assert panel.form.work.hasFocus()


def test_slips_are_opened_again_and_taken_out(qtbot, pack, job) -> None:
    takes = choose(pack, job.parts["shift drum"]).form.takes
    takes.set_parts([ShopPart("dowels", 2), ShopPart("oil jet")])
    takes.slips.slip(0).click()
    assert takes.line.text() == "2 dowels"
    assert takes.parts == [ShopPart("oil jet")]
    qtbot.keyClick(takes.slips.slip(0), Qt.Key.Key_Delete)
    assert takes.parts == []
    takes.line.setText("0 dowels")
    assert not takes.take()
    assert "at least 1" in takes.field.wrong.text()


def test_leaving_sends_nothing_and_keeps_what_was_typed_until_it_is_sent(
    pack, stage, desk, settle, store, job
) -> None:
    write("plater")
    choose(pack, job.parts["shift drum"]).form.work.setText("hard chrome")
    press(ESC)
    assert stage.pages.currentWidget() is stage.all
    assert services.send_outs.batches(store, job.id) == ()
    stage.all.send.click()
    settle(desk)
    assert pack.shop.shop.text == "plater"
    assert pack.panels[job.parts["shift drum"]].form.work.text() == "hard chrome"
    pack.send.click()
    settle(desk)
    assert [one.shop for one in services.send_outs.batches(store, job.id)] == ["plater"]
    stage.begin()
    settle(desk)
    assert (pack.shop.shop.text, pack.pick.values, pack.panels) == ("", [], {})


def test_what_was_begun_for_one_batch_is_not_offered_to_another(
    pack, stage, desk, settle, store, job
) -> None:
    choose(pack, job.parts["shift drum"])
    sent = send_cover(store, job)
    stage.enter()
    settle(desk)
    stage.show_batch(sent)
    stage.one.more.click()
    settle(desk)
    assert pack.pick.values == []


def test_shops_gone_to_before_are_offered(stage, desk, settle, store, job) -> None:
    send_cover(store, job)
    stage.enter()
    settle(desk)
    stage.begin()
    settle(desk)
    assert stage.pack.shop.shop.line.words == (SHOP,)


def test_more_parts_go_with_a_batch_that_is_packed(stage, desk, settle, store, job) -> None:
    sent = send_drum(store, job)
    stage.enter()
    settle(desk)
    stage.show_batch(sent)
    stage.one.more.click()
    settle(desk)
    assert stage.pack.shop.isHidden()
    choose(stage.pack, job.parts["main shaft"]).form.work.setText("polish")
    stage.pack.send.click()
    settle(desk)
    assert [item.removal.name for item in batch(store, sent).items] == ["shift drum", "main shaft"]
    assert stage.pages.currentWidget() is stage.one
    assert "polish" in sentence_of(stage)


def test_one_that_went_meanwhile_is_said_and_the_choice_kept(stage, pack, desk, settle, store, job):
    pack.shop.shop.line.setText("plater")
    panel = choose(pack, job.parts["shift drum"])
    panel.form.work.setText("chrome")
    send_drum(store, job)
    pack.save()
    settle(desk)
    assert "away already" in sentence_of(stage)
    assert pack.shop.shop.text == "plater"
    assert pack.panels[job.parts["shift drum"]].form.work.text() == "chrome"
