"""Sign-off of a joint: what is not ticked, and tools still laid out, are mended in place."""

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import Ref
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.tightening import Pass
from tests.ui.add_kit import walked
from tests.ui.sign_kit import enter, log, open_panel, signed
from tests.ui.stages_job import nameless, sentence_of

NUT = HeldBy(1, "nut", "M18", torque=Torque(110))
TWICE = (Pass(share=0.5), Pass(share=1.0))


@pytest.fixture
def nut(store, job) -> Ref:
    """A part with passes of its own."""
    ref = log(store, job, "flywheel nut", NUT)
    services.tightening.set_passes(store, ref.id, TWICE, who="MK")
    return ref


@pytest.fixture
def cover(store, job) -> Ref:
    """An opener with all behind it in, and two tools laid out."""
    area = services.jobs.add_area(store, job.id, "flywheel housing", who="MK").new_id
    ref = log(store, job, "housing cover")
    services.jobs.set_opener(store, area, ref.id, who="MK")
    services.tools.take_out(store, job.id, ["feeler gauge", "scraper"], who="MK")
    return ref


def test_ticked_on_the_sheet_one_key_after_the_other_and_signed(
    bench_card, desk, settle, store, job, nut, qtbot
) -> None:
    panel = open_panel(bench_card, desk, settle, nut)
    passes = panel.fields.passes
    assert passes.head.text() == "Pass 1 of 2: Torque to 50\u00a0% =\u00a055\u00a0N·m"
    assert passes.rows.rows[0].hasFocus()
    assert panel.fields.reason.isVisible()
    bench_card.activateWindow()
    qtbot.waitUntil(bench_card.isActiveWindow)
    qtbot.keyClick(passes.rows.rows[0], Qt.Key.Key_Space)
    settle(desk)
    assert passes.rows.rows[1].hasFocus()
    qtbot.keyClick(passes.rows.rows[1], Qt.Key.Key_F12)
    settle(desk)
    assert passes.head.text() == "All 2 passes are done"
    assert not panel.fields.reason.isVisible()
    panel.answer()
    settle(desk)
    assert signed(store, job, nut).reason == ""


def test_a_pass_left_out_is_said_at_the_reason_and_signed_with_one(
    bench_card, desk, settle, store, job, nut, qtbot
) -> None:
    panel = open_panel(bench_card, desk, settle, nut)
    enter(qtbot, panel.fields.note.line, "gauge is away")
    settle(desk)
    assert signed(store, job, nut) is None
    assert "Pass 1 (Torque to 50 %) is not ticked" in panel.fields.reason.wrong.text()
    assert panel.fields.note.line.text() == "gauge is away"
    enter(qtbot, panel.fields.reason.line, "a trial fit")
    settle(desk)
    assert signed(store, job, nut).reason == "a trial fit"
    assert "Although: a trial fit" in bench_card.facts.texts()["Signed off"]


def test_what_is_typed_stays_while_passes_are_ticked(
    bench_card, desk, settle, store, job, nut, qtbot
) -> None:
    panel = open_panel(bench_card, desk, settle, nut)
    panel.fields.note.line.setFocus()
    qtbot.keyClicks(panel.fields.note.line, "threads oiled")
    panel.fields.passes.rows.rows[0].click()
    settle(desk)
    assert panel.fields.note.line.text() == "threads oiled"
    assert services.tightening.joint(store, nut).ticked == {0}


def test_usual_passes_are_not_in_the_way(bench_card, desk, settle, store, job) -> None:
    """Nobody asked for them: a part as ever is signed by one key where nothing else is asked."""
    bolts = HeldBy(6, "bolt", "M6", 30, torque=Torque(10))
    panel = open_panel(bench_card, desk, settle, log(store, job, "cover plate", bolts))
    assert panel.isVisible()  # its fasteners are counted
    assert not panel.fields.passes.isVisible()
    assert not panel.fields.reason.isVisible()


def test_every_caution_stands_by_a_torque(bench_card, desk, settle, nut) -> None:
    panel = open_panel(bench_card, desk, settle, nut)
    assert all(caution in sentence_of(panel) for caution in TORQUE_CAUTIONS)


def test_tools_are_counted_back_on_the_sheet_and_then_it_is_signed(
    bench_card, desk, settle, store, job, cover
) -> None:
    panel = open_panel(bench_card, desk, settle, cover)
    tools = panel.fields.tools
    assert "Still out: nothing may be left inside" in sentence_of(panel)
    assert "Feeler gauge" in sentence_of(tools)
    assert len(tools.presses) == 2
    tools.presses[0].click()
    settle(desk)
    assert [one.name for one in services.tools.out_now(store, job.id)] == ["scraper"]
    assert panel.fields.reason.isVisible()
    tools.presses[0].click()
    settle(desk)
    assert services.tools.out_now(store, job.id) == []
    assert not panel.fields.reason.isVisible()
    panel.answer()
    settle(desk)
    assert signed(store, job, cover) is not None


def test_of_two_alike_one_is_counted_back_at_a_time(
    bench_card, desk, settle, store, job, cover
) -> None:
    services.tools.take_out(store, job.id, ["scraper"], who="MK")
    panel = open_panel(bench_card, desk, settle, cover)
    tools = panel.fields.tools
    assert "2 × scraper" in sentence_of(tools)
    assert [press.text() for press in tools.presses] == ["Counted back", "One is back"]
    tools.presses[1].click()
    settle(desk)
    assert [(one.name, one.count) for one in services.tools.out_now(store, job.id)] == [
        ("feeler gauge", 1),
        ("scraper", 1),
    ]
    assert panel.fields.reason.isVisible()


def test_all_are_back_with_one_press(bench_card, desk, settle, store, job, cover) -> None:
    panel = open_panel(bench_card, desk, settle, cover)
    panel.fields.tools.all.click()
    settle(desk)
    assert services.tools.out_now(store, job.id) == []
    assert not panel.fields.tools.isVisible()


def test_closed_over_a_tool_only_with_a_reason(
    bench_card, desk, settle, store, job, cover, qtbot
) -> None:
    panel = open_panel(bench_card, desk, settle, cover)
    assert panel.fields.reason.line.hasFocus()  # beside what is still out, however low the card
    panel.answer()
    settle(desk)
    assert "not counted back. Count them back" in panel.fields.reason.wrong.text()
    enter(qtbot, panel.fields.reason.line, "lent to the other bench")
    settle(desk)
    assert signed(store, job, cover).reason == "lent to the other bench"
    assert len(services.tools.out_now(store, job.id)) == 2


def test_a_tool_still_out_is_named_with_what_is_missing(
    bench_card, desk, settle, store, job, cover
) -> None:
    area = services.jobs.find_area(store, job.id, "flywheel housing")
    entry = Entry("flywheel key", area_id=area.id)
    services.strip.log_removal(store, job.id, entry, who="MK")
    panel = open_panel(bench_card, desk, settle, cover)
    assert panel._is_closing
    said = [line.title for line in panel.closing.list.steps.lines]
    assert any("flywheel key" in title for title in said)
    assert {"Feeler gauge", "Scraper"} <= set(said)


def test_every_control_has_a_name(bench_card, desk, settle, nut, cover) -> None:
    for ref in (nut, cover):
        assert nameless(open_panel(bench_card, desk, settle, ref)) == []


def test_tab_goes_down_the_page(bench_card, desk, settle, nut, qtbot) -> None:
    panel = open_panel(bench_card, desk, settle, nut)
    bench_card.activateWindow()
    qtbot.waitUntil(bench_card.isActiveWindow)
    names = walked(panel.fields.passes.done)
    assert names[:4] == [
        "Pass done",
        "Passes: 1  Torque to 50\u00a0% =\u00a055\u00a0N·m",
        "Passes: 2  Torque to 100\u00a0% =\u00a0110\u00a0N·m",
        "Why it is signed all the same",
    ]
