"""Sign-off in place: what is asked, what speaks against it, who signs, and that nothing is lost."""

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.fitting import Asked, Counted, Figure
from bagtag.domain.hardware import OVERRIDE, HeldBy
from bagtag.ui import theme
from bagtag.ui.card.task_signs import CROSS, TICK
from tests.ui.sign_kit import BOLTS, END_FLOAT, enter, log, open_panel, signed
from tests.ui.stages_job import nameless, sentence_of


def test_one_key_is_enough_where_nothing_is_asked(bench_card, desk, settle, store, job) -> None:
    ref = log(store, job, "needle roller", HeldBy(1, "circlip"))
    panel = open_panel(bench_card, desk, settle, ref)
    assert not panel.isVisible()
    assert signed(store, job, ref).who == "Ada"
    assert bench_card.acts.photo.isEnabled()  # the photo as fitted is offered next


def test_a_figure_is_held_against_its_limits_as_one_types(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "thrust washer", asks=(END_FLOAT,))
    panel = open_panel(bench_card, desk, settle, ref)
    (row,) = panel.fields.figures
    assert row.line.hasFocus()
    assert row.verdict.said.text() == "0.05 to 0.2 mm"
    for typed, said, sign in (
        ("0.12", "within 0.05 to 0.2 mm", TICK),
        ("0,05", "within 0.05 to 0.2 mm", TICK),
        ("0.25", "0.25 mm is above 0.2", CROSS),
        ("0", "0 mm is below 0.05", CROSS),
        ("-0.1", "-0.1 mm is below 0.05", CROSS),
    ):
        row.line.clear()
        qtbot.keyClicks(row.line, typed)
        assert row.verdict.said.text() == said
        assert row.verdict.sign == sign
        assert row.line.accessibleDescription() == said
        assert panel.fields.reason.isVisible() is (sign is CROSS)


def test_a_figure_within_is_kept_with_its_limits(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "thrust washer", asks=(END_FLOAT,))
    panel = open_panel(bench_card, desk, settle, ref)
    enter(qtbot, panel.fields.figures[0].line, "0.12")
    settle(desk)
    assert signed(store, job, ref).figures == (Figure("end float", 0.12, "mm", 0.05, 0.20),)
    assert "end float 0.12 mm" in bench_card.facts.texts()["Signed off"]


def test_out_of_limits_wants_a_reason_and_keeps_what_was_typed(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "thrust washer", asks=(END_FLOAT,))
    panel = open_panel(bench_card, desk, settle, ref)
    line = panel.fields.figures[0].line
    enter(qtbot, line, "0.25")
    settle(desk)
    assert signed(store, job, ref) is None
    assert "is above 0.2" in panel.fields.reason.wrong.text()
    assert panel.fields.reason.line.hasFocus()
    assert line.text() == "0.25"
    enter(qtbot, panel.fields.reason.line, "new washer is ordered")
    settle(desk)
    assert signed(store, job, ref).reason == "new washer is ordered"
    said = bench_card.facts.texts()["Signed off"]
    assert "end float 0.25 mm is above 0.2" in said
    assert "Although: new washer is ordered" in said


def test_a_reason_is_not_kept_for_what_was_put_right(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "thrust washer", asks=(END_FLOAT,))
    panel = open_panel(bench_card, desk, settle, ref)
    panel.fields.figures[0].line.setText("0.25")
    panel.fields.reason.line.setText("worn")
    enter(qtbot, panel.fields.figures[0].line, "0.15")
    settle(desk)
    assert signed(store, job, ref).reason == ""


def test_a_figure_that_is_left_out_wants_a_note(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "thrust washer", asks=(END_FLOAT,))
    panel = open_panel(bench_card, desk, settle, ref)
    row = panel.fields.figures[0]
    enter(qtbot, row.line)
    settle(desk)
    assert "say in the note why" in row.verdict.said.text()
    assert row.line.hasFocus()
    enter(qtbot, panel.fields.note.line, "no gauge here")
    settle(desk)
    assert signed(store, job, ref).note == "no gauge here"


@pytest.mark.parametrize("typed", ["o.12", "12 mm", "1e9", "nan", "--1", "1/0"])
def test_what_is_no_figure_is_said_where_it_stands(
    bench_card, desk, settle, store, job, qtbot, typed
) -> None:
    ref = log(store, job, "thrust washer", asks=(END_FLOAT,))
    panel = open_panel(bench_card, desk, settle, ref)
    row = panel.fields.figures[0]
    enter(qtbot, row.line, typed)
    settle(desk)
    assert signed(store, job, ref) is None
    assert row.verdict.sign == CROSS
    assert row.line.text() == typed
    assert row.line.hasFocus()


def test_fasteners_are_counted_and_torques_may_be_left_out(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "bearing cap", BOLTS, HeldBy(None, "washer", "M6"))
    panel = open_panel(bench_card, desk, settle, ref)
    bolts, washers = panel.fields.counts
    (torque,) = panel.fields.figures
    assert (bolts.name.text(), bolts.after.text()) == ("bolts M6x30", "of 6")
    assert (washers.name.text(), washers.after.text()) == ("washers M6", "back")
    assert (torque.line.placeholderText(), torque.after.text()) == ("10", "N·m")
    assert OVERRIDE in sentence_of(panel)
    enter(qtbot, bolts.line)
    settle(desk)
    done = signed(store, job, ref)
    assert (done.figures, done.counts) == ((), ())


def test_a_count_that_does_not_add_up_wants_a_reason(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "bearing cap", BOLTS)
    panel = open_panel(bench_card, desk, settle, ref)
    bolts = panel.fields.counts[0]
    qtbot.keyClicks(bolts.line, "6")
    assert (bolts.verdict.said.text(), bolts.verdict.sign) == ("all back", TICK)
    assert not panel.fields.reason.isVisible()
    enter(qtbot, bolts.line, "5")
    settle(desk)
    assert bolts.verdict.said.text() == "5 of 6 went back"
    assert "Find the rest" in panel.fields.reason.wrong.text()
    enter(qtbot, panel.fields.reason.line, "one sheared, it is ordered")
    settle(desk)
    assert signed(store, job, ref).counts == (Counted(0, 6, 5),)
    assert "5 of 6 M6x30 bolt" in bench_card.facts.texts()["Signed off"]


@pytest.mark.parametrize("typed", ["six", "5.5", "-1", "12345"])
def test_what_is_no_count_is_said(bench_card, desk, settle, store, job, qtbot, typed) -> None:
    ref = log(store, job, "bearing cap", BOLTS)
    panel = open_panel(bench_card, desk, settle, ref)
    bolts = panel.fields.counts[0]
    enter(qtbot, bolts.line, typed)
    settle(desk)
    assert "whole number" in bolts.verdict.said.text()
    assert bolts.line.hasFocus()
    assert signed(store, job, ref) is None


def test_a_torque_out_of_what_a_wrench_may_be_off_is_said(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    """ISO 6789-1:2017 allows a setting tool 6 % up to 10 N·m (from memory)."""
    ref = log(store, job, "bearing cap", BOLTS)
    panel = open_panel(bench_card, desk, settle, ref)
    (torque,) = panel.fields.figures
    torque.line.setText("10.6")
    assert torque.verdict.sign == TICK
    torque.line.setText("10.7")
    assert torque.verdict.sign == CROSS
    torque.line.setText("9.4")
    enter(qtbot, torque.line)
    settle(desk)
    assert [figure.value for figure in signed(store, job, ref).figures] == [9.4]


def test_f6_again_signs_and_escape_leaves(bench_card, desk, settle, store, job, qtbot) -> None:
    ref = log(store, job, "bearing cap", BOLTS)
    bench_card.activateWindow()
    qtbot.waitUntil(bench_card.isActiveWindow)
    panel = open_panel(bench_card, desk, settle, ref)
    assert not bench_card.view.isVisible()
    qtbot.keyClick(panel.fields.counts[0].line, Qt.Key.Key_Escape)
    assert not panel.isVisible()
    assert bench_card.view.isVisible()
    assert signed(store, job, ref) is None
    for _ in range(2):
        qtbot.keyClick(bench_card.focusWidget() or bench_card, Qt.Key.Key_F6)
        settle(desk)
    assert signed(store, job, ref) is not None


def test_enter_pressed_twice_presses_nothing_else(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "bearing cap", BOLTS)
    bench_card.activateWindow()
    qtbot.waitUntil(bench_card.isActiveWindow)
    panel = open_panel(bench_card, desk, settle, ref)
    line = panel.fields.counts[0].line
    qtbot.keyClick(line, Qt.Key.Key_Return)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    settle(desk)
    assert signed(store, job, ref) is not None
    assert bench_card.hasFocus()
    acts = [deed.act for deed in services.history.history(store, job.id)]
    assert sum("fit " in act for act in acts) == 1


def test_what_was_typed_is_there_again_after_a_look_at_another_part(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "bearing cap", BOLTS, asks=(END_FLOAT,))
    panel = open_panel(bench_card, desk, settle, ref)
    panel.fields.figures[0].line.setText("0.07")
    panel.fields.note.line.setText("shimmed")
    bench_card.show_removal(job.parts["shift drum"])
    settle(desk)
    assert not panel.isVisible()
    panel = open_panel(bench_card, desk, settle, ref)
    assert panel.fields.figures[0].line.text() == "0.07"
    assert panel.fields.note.line.text() == "shimmed"
    qtbot.keyClick(panel.fields.note.line, Qt.Key.Key_Escape)
    panel = open_panel(bench_card, desk, settle, ref)
    assert panel.fields.note.line.text() == ""


def test_what_was_typed_stays_when_the_job_changes_under_it(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "bearing cap", BOLTS)
    panel = open_panel(bench_card, desk, settle, ref)
    panel.fields.counts[0].line.setText("5")
    panel.fields.reason.line.setText("one is lost")
    panel.fields.note.line.setFocus()
    desk.act(services.tasks.ask_at_sign_off, ref.id, (END_FLOAT, Asked("depth", "mm")))
    settle(desk)
    assert [row.asked.name for row in panel.fields.figures][:2] == ["end float", "depth"]
    assert panel.fields.counts[0].line.text() == "5"
    assert panel.fields.reason.line.text() == "one is lost"
    assert panel.fields.note.line.hasFocus()


def test_one_signed_elsewhere_is_not_asked_any_more(bench_card, desk, settle, store, job) -> None:
    ref = log(store, job, "bearing cap", BOLTS)
    panel = open_panel(bench_card, desk, settle, ref)
    desk.act(services.signing.sign, ref)
    settle(desk)
    assert not panel.isVisible()
    assert bench_card.acts.take_back.isVisible()


def test_without_a_name_at_the_bench_it_is_asked_who_signs(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    ref = log(store, job, "needle roller")
    desk.who = ""
    panel = open_panel(bench_card, desk, settle, ref)
    assert panel.fields.who.line.hasFocus()
    enter(qtbot, panel.fields.who.line)
    settle(desk)
    assert "Say who fitted it" in panel.fields.who.wrong.text()
    enter(qtbot, panel.fields.who.line, "Ben")
    settle(desk)
    assert signed(store, job, ref).who == "Ben"
    assert desk.who == ""


def test_run_in_by_hand_says_when_the_torque_comes(bench_card, desk, settle, store, job) -> None:
    ref = log(store, job, "bearing cap", BOLTS)
    other = log(store, job, "bearing shell")
    services.tasks.tighten_later(store, ref.id, other)
    panel = open_panel(bench_card, desk, settle, ref)
    assert panel.fields.figures == []
    number = services.strip.get_removal(store, other.id).number
    said = f"Final torque after {number} bearing shell"
    assert said in sentence_of(panel)
    panel.drop()
    assert f"{said}: M6x30 bolt: 10\u00a0N·m." in bench_card.run_in.text
    assert "N·m" not in bench_card.facts.texts()["Held by"]


def test_names_and_sizes_in_light_and_dark(bench_card, desk, settle, store, job, qapp) -> None:
    held = tuple(HeldBy(4, "bolt", f"M{size}", 40) for size in (6, 8, 10, 12))
    ref = log(store, job, "bearing cap", BOLTS, *held, asks=(END_FLOAT,))
    panel = open_panel(bench_card, desk, settle, ref)
    assert nameless(panel) == []
    for size in ((560, 400), (900, 600)):
        bench_card.resize(*size)
        qapp.processEvents()
        assert panel.sign.height() >= theme.TOUCH
        assert panel.rect().contains(panel.sign.mapTo(panel, panel.sign.rect().center()))
        for row in panel.fields.asked:
            assert row.line.height() >= theme.TOUCH
            assert row.line.geometry().right() <= row.width()
