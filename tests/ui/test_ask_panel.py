"""The card asks what the kind of a part needs: one question at a time, each answered with a key."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.asking import Answer, answers
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import Entry
from bagtag.domain.kinds import PartKind, Question
from bagtag.domain.model import Fate
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    Outness,
    Place,
    Seat,
    SeatKind,
    Without,
)
from bagtag.ui.entry.ask_round import AskRound
from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.scanning.scanner import Scanner
from tests.ui.ask_kit import lone, panel
from tests.ui.forms_kit import ALT, CONTROL, ENTER, TAB, press, removals, settings, show, write
from tests.ui.shell_kit import scan


def test_a_seal_is_logged_with_both_facts_in_five_keys(asking, desk, settle, store, job_id):
    write("oil seal")
    press(TAB)
    assert QApplication.focusWidget() is panel(asking)
    write("12")  # pressed in one go, as by one who knows the form
    press(ENTER)
    settle(desk)
    last = removals(store, job_id)[-1]
    assert last.which_way == (Faces("lip", Outness.INWARD), Seat(SeatKind.BELOW))
    assert (last.name, last.fate, last.unanswered) == ("oil seal", Fate.RENEW, ())


def test_one_question_at_a_time_and_enter_logs_after_the_last(qtbot, asking):
    write("oil seal")
    press(TAB)
    assert panel(asking).caption.text() == "Oil seal, 1 of 2"
    assert panel(asking).question.text() == "Which way does the lip with the spring face?"
    qtbot.wait(1)
    below, high = asking.fields.which_way.y(), panel(asking).height()
    lone(qtbot, "2")
    assert panel(asking).caption.text() == "Oil seal, 2 of 2"
    assert asking.draft.which_way == (Faces("lip", Outness.OUTWARD),)
    assert (asking.fields.which_way.y(), panel(asking).height()) == (below, high)
    lone(qtbot, "1")
    assert not panel(asking).isVisible()
    assert QApplication.focusWidget() is asking.acts.log
    assert len(asking.fields.which_way.rows) == 2


def test_nothing_but_the_name_asks_nothing(asking):
    write("handlebar column")
    press(TAB)
    assert QApplication.focusWidget() is asking.head.quantity
    assert not panel(asking).isVisible()


@pytest.mark.parametrize("key", [" ", "s"])
def test_a_question_that_is_skipped_is_remembered(qtbot, asking, desk, settle, store, job_id, key):
    write("oil seal")
    press(TAB)
    lone(qtbot, key)
    assert asking.draft.unanswered == ("faces lip",)
    assert asking.fields.asks.left_words.text() == "Not answered: lip"
    lone(qtbot, "1")
    press(ENTER)
    settle(desk)
    last = removals(store, job_id)[-1]
    assert last.unanswered == ("faces lip",)
    assert last.which_way == (Seat(SeatKind.FLUSH),)


def test_there_is_none(qtbot, asking):
    write("oil seal")
    press(TAB)
    lone(qtbot, "0")
    assert asking.draft.which_way == (Without("lip"),)
    assert panel(asking).question.text() == "How deep does it sit?"


def test_backspace_goes_back_and_takes_the_answer_back(qtbot, asking):
    write("oil seal")
    press(TAB)
    lone(qtbot, "1")
    press(Qt.Key.Key_Backspace)
    assert asking.draft.which_way == ()
    assert panel(asking).caption.text() == "Oil seal, 1 of 2"
    lone(qtbot, "2")
    lone(qtbot, "1")
    press(Qt.Key.Key_Backspace)  # from the act, after the last one
    assert QApplication.focusWidget() is panel(asking)
    assert asking.draft.which_way == (Faces("lip", Outness.OUTWARD),)


def test_back_over_a_question_that_was_skipped(qtbot, asking):
    write("oil seal")
    press(TAB)
    panel(asking).skip.click()
    assert asking.draft.unanswered == ("faces lip",)
    panel(asking).back.click()
    assert asking.draft.unanswered == ()
    assert panel(asking).caption.text() == "Oil seal, 1 of 2"


@pytest.mark.parametrize("scan", ["A2C4ER", "1234567", "110", "1 2 1"])
def test_a_scan_presses_nothing(qtbot, asking, desk, settle, store, job_id, scan):
    write("oil seal")
    press(TAB)
    write(scan)
    press(ENTER)
    qtbot.wait(QUIET + 40)
    settle(desk)
    assert (asking.draft.which_way, asking.draft.unanswered) == ((), ())
    assert asking.head.name.text() == "oil seal"
    assert len(removals(store, job_id)) == 3


def test_a_scan_that_ends_without_enter_presses_nothing(qtbot, asking):
    write("oil seal")
    press(TAB)
    write("1201201")
    qtbot.wait(QUIET + 40)
    assert asking.draft.which_way == ()
    lone(qtbot, "1")
    assert asking.draft.which_way == (Faces("lip", Outness.INWARD),)


def test_a_code_that_is_scanned_is_heard_and_answers_nothing(qtbot, asking):
    scanner = Scanner(asking)
    heard = []
    scanner.scanned.connect(heard.append)
    write("oil seal")
    press(TAB)
    scan(asking.windowHandle(), "A2C4ER")
    qtbot.wait(QUIET + 40)
    scanner.stop()
    assert heard == ["A2C4ER"]
    assert QApplication.focusWidget() is panel(asking)
    assert (asking.draft.which_way, asking.draft.unanswered) == ((), ())


def test_arrows_point_and_enter_takes_what_they_point_at(asking):
    write("oil seal")
    press(TAB)
    press(Qt.Key.Key_Right)
    press(Qt.Key.Key_Right)
    assert asking.draft.which_way == ()
    press(ENTER)
    assert asking.draft.which_way == (Faces("lip", Outness.OUTWARD),)


def test_a_click_answers(asking):
    asking.head.name.setText("oil seal")
    choice = panel(asking).choices._choices[1]
    QTest.mouseClick(choice, Qt.MouseButton.LeftButton)
    assert asking.draft.which_way == (Faces("lip", Outness.OUTWARD),)


def test_keys_with_control_or_alt_are_the_cards(asking):
    write("oil seal")
    press(TAB)
    press(Qt.Key.Key_4, CONTROL)
    assert asking.draft.fate is Fate.SCRAP
    assert asking.draft.which_way == ()
    press(Qt.Key.Key_H, ALT)
    assert type(asking.fields.which_way.editor).__name__ == "HandEditor"


def test_the_hours_of_the_clock_and_ten_places_are_one_key_each(qtbot, asking):
    write("piston")
    press(TAB)
    lone(qtbot, "1")
    lone(qtbot, "b")
    lone(qtbot, "2")
    assert asking.draft.which_way == (
        Faces("arrow", Side.FRONT), Clocking("gap", 11.0), Place(2, what="cylinder"),
    )  # fmt: skip


def test_what_was_said_on_tape_is_not_asked(asking, store, job_id):
    reader = services.tape.reader(store, job_id)
    asking.start_new()
    asking.take_tape(reader.read("oil seal, lip faces inward"))
    assert QApplication.focusWidget() is panel(asking)
    assert panel(asking).question.text() == "How deep does it sit?"


def test_a_tape_line_with_nothing_to_ask_goes_on_at_the_name(asking, store, job_id):
    reader = services.tape.reader(store, job_id)
    asking.take_tape(reader.read("handlebar column"))
    assert QApplication.focusWidget() is asking.head.name


def test_a_tape_line_that_comes_before_the_kinds_are_known(qtbot, kinds, desk, ids, settle, store,
                                                           job_id, tmp_path):  # fmt: skip
    from bagtag.ui.entry.entry_card import EntryCard

    made = EntryCard(desk, settings=settings(tmp_path))
    show(qtbot, made)
    made.start_new()
    made.take_tape(services.tape.reader(store, job_id).read("oil seal, bag 12"))
    settle(desk)
    assert QApplication.focusWidget() is panel(made)


def test_a_correction_asks_what_was_skipped_and_a_jump_lands_on_it(
    qtbot, asking, desk, settle, store, job_id
):
    entry = Entry("oil seal", which_way=(Seat(SeatKind.FLUSH),), unanswered=("faces lip",))
    logged = services.strip.log_removal(store, job_id, entry, who="Ada").new_id
    asking.open(logged)
    asking.ask()
    settle(desk)
    assert QApplication.focusWidget() is panel(asking)
    assert panel(asking).caption.text() == "Oil seal, 1 of 1"
    lone(qtbot, "2")
    press(ENTER)
    settle(desk)
    now = services.strip.get_removal(store, logged)
    assert now.which_way == (Seat(SeatKind.FLUSH), Faces("lip", Outness.OUTWARD))
    assert now.unanswered == ()


def test_a_jump_to_an_entry_that_is_open_already(asking, desk, settle, store, job_id):
    logged = services.strip.log_removal(store, job_id, Entry("oil seal"), who="Ada").new_id
    asking.open(logged)
    settle(desk)
    assert QApplication.focusWidget() is asking.head.name
    asking.ask()
    assert QApplication.focusWidget() is panel(asking)


def test_ask_again(qtbot, asking):
    write("oil seal")
    press(TAB)
    lone(qtbot, "s")
    lone(qtbot, "s")
    assert not panel(asking).isVisible()
    assert asking.fields.asks.left_words.text() == "Not answered: lip, seat"
    asking.fields.asks.again.click()
    assert QApplication.focusWidget() is panel(asking)
    assert panel(asking).caption.text() == "Oil seal, 1 of 2"
    lone(qtbot, "1")
    assert asking.draft.unanswered == ("seat",)


def test_what_another_kind_would_have_asked_is_not_left_unanswered(
    qtbot, asking, desk, settle, store, job_id
):
    write("oil seal")
    press(TAB)
    lone(qtbot, "s")
    asking.head.name.setText("shift fork R")
    panel(asking).setFocus()
    lone(qtbot, "2")
    press(ENTER)
    settle(desk)
    last = removals(store, job_id)[-1]
    assert (last.which_way, last.unanswered) == ((Hand("R", True),), ())


def test_a_fact_filled_in_by_hand_answers_too(asking):
    write("oil seal")
    asking.fields.which_way.set_facts((Faces("lip", Side.LEFT),))
    asking.fields.which_way.changed.emit()
    assert panel(asking).question.text() == "How deep does it sit?"


def test_a_round_goes_back_step_by_step_to_where_it_began():
    kind = PartKind("x", asks=(Question("seat", "How deep?"), Question("hand", "Which hand?")))
    sitting, facts = AskRound(), (Place(1),)
    sitting.begin((), again=False)
    first, second = sitting.open(kind, facts)
    facts = sitting.answer(first, answers(first, Datum())[0], facts)
    sitting.skip(second, facts)
    assert (sitting.open(kind, facts), sitting.unanswered) == ((), ("hand",))
    facts = sitting.back(sitting.back(facts))
    assert (facts, sitting.unanswered) == ((Place(1),), ())
    assert sitting.open(kind, facts) == kind.asks


def test_a_step_back_leaves_what_was_filled_in_by_hand_since():
    question = Question("seat", "How deep?")
    sitting = AskRound()
    facts = sitting.answer(question, Answer("1", "flush", Seat(SeatKind.FLUSH)), ())
    assert sitting.back((*facts, Hand("L"))) == (Hand("L"),)
