"""The card asks what the kind of a part needs: one question at a time, each answered with a key."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.asking import Answer, answers
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import Entry
from bagtag.domain.kinds import NO_KIND, Kinds, PartKind, Question, Renewal
from bagtag.domain.model import Fate, Hazard
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)
from bagtag.ui.entry.ask_round import AskRound
from bagtag.ui.entry.kind_line import knowledge
from bagtag.ui.entry.kind_picker import matching
from bagtag.ui.scanning.scanner import Scanner
from bagtag.ui.stages.stage_keys import QUIET
from tests.ui.forms_kit import ALT, CONTROL, ENTER, TAB, press, removals, settings, show, write
from tests.ui.shell_kit import scan

KINDS = """
["oil seal"]
also = ["lip seal"]
asks = [
  { fact = "faces", feature = "lip", ask = "Which way does the lip with the spring face?", \
    choices = ["inward", "outward"] },
  { fact = "seat", ask = "How deep does it sit?", choices = ["flush", "below", "shoulder"] },
]
goes_wrong = "Fitted back to front it leaks at once."
renew = "always"
why = "The lip has worn to its shaft."
home = "Flush with the housing all round."
together = ["shaft"]
size = "shaft x housing x width"

["piston"]
asks = [
  { fact = "faces", feature = "arrow", ask = "Which way does the arrow on the crown face?", \
    choices = ["front", "rear", "left", "right"] },
  { fact = "clocking", feature = "gap", ask = "Where does the gap of the top ring stand?" },
  { fact = "place", feature = "cylinder", ask = "Which cylinder is it from?" },
]
goes_wrong = "Turned about, the valves hit its pockets."
renew = "on condition"
why = "Scuffed or out of size it is done."
home = "The pin slides by hand."

["shift fork"]
asks = [{ fact = "hand", ask = "Which hand is it?" }]
goes_wrong = "The wrong fork binds."
renew = "on condition"
why = "The pads wear."
home = "It slides freely."
"""


@pytest.fixture
def kinds(store):
    """Kinds of our own, before the card is made."""
    folder = services.kinds.own_folder(store)
    folder.mkdir(parents=True)
    (folder / "test.toml").write_text(KINDS, encoding="utf-8")


@pytest.fixture
def asking(kinds, card):
    return card


def lone(qtbot, key: str) -> None:
    """A key by itself, as a person presses it."""
    write(key)
    qtbot.wait(QUIET + 40)


def panel(card):
    return card.fields.asks.panel


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
    write("main shaft")
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
    asking.take_tape(reader.read("main shaft"))
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


def test_the_fate_of_a_kind_that_is_always_renewed(asking):
    write("oil seal")
    assert asking.draft.fate is Fate.RENEW
    assert "always" in asking.fields.fate_why.text()
    assert asking.fields.fate_why.isVisibleTo(asking.fields)
    asking.head.name.setText("main shaft")
    assert asking.draft.fate is Fate.REFIT
    assert not asking.fields.fate_why.isVisibleTo(asking.fields)


def test_a_fate_that_a_person_chose_is_never_changed(asking, desk, settle, ids):
    asking.fields.fate.choose(Fate.REFIT)
    write("oil seal")
    assert asking.draft.fate is Fate.REFIT
    asking.open(ids["shift drum"])
    settle(desk)
    asking.start_new()
    settle(desk)
    assert asking.draft.fate is Fate.REFIT


def test_the_fate_of_an_entry_that_is_corrected_stays(asking, desk, settle, ids):
    asking.open(ids["shift drum"])
    settle(desk)
    asking.head.name.setText("oil seal")
    assert asking.draft.fate is Fate.REFIT


def test_a_fate_on_the_tape_line_is_chosen(asking, store, job_id):
    asking.take_tape(services.tape.reader(store, job_id).read("oil seal, refit"))
    assert asking.draft.fate is Fate.REFIT


def test_another_kind_is_chosen_by_typing(qtbot, asking, desk, settle, store, job_id):
    write("bung")
    asking.fields.asks.line.other.click()
    write("lip")
    press(ENTER)
    assert asking.draft.kind == "oil seal"
    assert QApplication.focusWidget() is panel(asking)
    write("11")
    press(ENTER)
    settle(desk)
    last = removals(store, job_id)[-1]
    assert (last.name, last.kind, last.fate) == ("bung", "oil seal", Fate.RENEW)


def test_no_kind_asks_nothing(asking):
    write("oil seal")
    asking.fields.asks.line.other.click()
    picker = asking.fields.asks.line.picker
    picker.slips[-1].click()
    assert asking.draft.kind == NO_KIND
    assert not panel(asking).isVisible()
    assert asking.draft.fate is Fate.REFIT


def test_kinds_are_found_by_any_of_their_names():
    seal = PartKind("oil seal", also=("lip seal", "shaft seal"))
    ring, shaft = PartKind("O-ring"), PartKind("shaft")
    known = Kinds([seal, ring, shaft])
    assert matching(known, "shaft") == [shaft, seal]
    assert matching(known, "ring") == [ring]
    assert matching(known, "") == [ring, seal, shaft]
    assert matching(known, "gasket") == []


def test_what_is_known_of_a_kind_is_said_in_full():
    kind = PartKind(
        "gear",
        renew=Renewal.ALWAYS,
        why="OUT wears.",
        goes_wrong="It howls.",
        together=("its mate",),
    )
    assert knowledge(kind) == "Always renewed: OUT wears.\nIt howls.\nStays with: its mate."


def test_the_knowledge_stands_under_the_name_and_is_never_cut(qtbot, asking):
    asking.head.name.setText("oil seal")
    line = asking.fields.asks.line
    assert line.title.text() == "Oil seal"
    assert line.knowledge.text().startswith("Always renewed: the lip has worn to its shaft.")
    text = line.knowledge
    qtbot.waitUntil(lambda: text.height() >= text.heightForWidth(text.width()))


def test_side_size_and_hazards_go_round(asking, desk, settle, store, job_id):
    more = asking.fields.more
    write("oil seal")
    assert more.size.placeholderText() == "shaft x housing x width, in mm"
    assert not more.fold.isVisibleTo(asking.fields)
    more.press.click()
    more.side.choose(Side.LEFT)
    more.size.setText("35 x 52 x 7")
    more.hazards.chips[2].click()
    asking.acts.log.click()
    settle(desk)
    last = removals(store, job_id)[-1]
    assert (last.side, last.size, last.hazards) == (Side.LEFT, "35 x 52 x 7", (Hazard.SHARP,))
    assert not more.fold.isVisibleTo(asking.fields)
    asking.open(last.id)
    settle(desk)
    assert more.fold.isVisibleTo(asking.fields)
    assert asking.draft.hazards == (Hazard.SHARP,)
    asking.fields.condition.set_text("hard")
    asking.acts.log.click()
    settle(desk)
    now = services.strip.get_removal(store, last.id)
    assert (now.side, now.size, now.hazards) == (last.side, last.size, last.hazards)


def test_too_long_a_size_is_said_beside_it(asking, desk, settle):
    write("shim")
    asking.fields.more.size.setText("x" * 600)
    asking.acts.log.click()
    settle(desk)
    assert "600" in asking.fields.more.fields["size"].wrong.text()
    assert asking.fields.more.fold.isVisibleTo(asking.fields)


def test_the_side_says_which_side_outward_is(asking):
    asking.fields.more.side.choose(Side.RIGHT)
    write("oil seal")
    details = [choice.option.detail for choice in panel(asking).choices._choices]
    assert details[:2] == ["the flywheel side", "the clutch side"]


def test_as_the_last_one_copies_nothing_of_the_one_part(asking, desk, settle, store, job_id):
    entry = Entry(
        "oil seal", which_way=(Seat(SeatKind.FLUSH),), size="35 x 52 x 7", side=Side.LEFT,
        hazards=(Hazard.SHARP,), unanswered=("faces lip",), kind="oil seal", goes_on="grease",
    )  # fmt: skip
    services.strip.log_removal(store, job_id, entry, who="Ada")
    asking.acts.again.click()
    settle(desk)
    now = asking.draft
    assert now.goes_on == "grease"
    assert (now.which_way, now.size, now.side) == ((), "", None)
    assert (now.hazards, now.unanswered, now.kind) == ((), (), "")


def test_what_it_says_against_another_entry_is_said_as_typed(qtbot, asking, desk, settle, store,
                                                              job_id):  # fmt: skip
    taken = Entry("washer", which_way=(Place(1, 3, Side.LEFT),))
    services.strip.log_removal(store, job_id, taken, who="Ada")
    write("washer")
    asking.fields.which_way.set_facts((Place(1, 3, Side.LEFT),))
    asking.fields.which_way.changed.emit()
    wrong = asking.fields.which_way.view.wrong
    qtbot.waitUntil(lambda: "1st of 3" in wrong.text())
    asking.start_new()
    asking.head.name.clear()
    asking.start_new()
    settle(desk)
    assert asking.fields.which_way.view.wrong.text() == ""


def test_the_other_part_is_told_by_its_number_and_name(qtbot, asking, desk, settle, store, ids):
    write("shift fork R")
    form = asking.fields.which_way
    form.setFocus()
    press(Qt.Key.Key_W)
    write("3")
    press(ENTER)  # the line of the log with that number, which is still being looked up
    settle(desk)
    press(ENTER)
    uid = services.strip.get_removal(store, ids["shift fork L"]).uid
    assert form.facts == (SameWay(OtherPart("shift fork L", uid)),)
    qtbot.waitUntil(lambda: "3" in form.view.words.text())
    form.edit(0)
    assert form.editor.other.line.text() == "3 shift fork L"
    form.editor.way.choose(True)
    assert form.facts == (SameWay(OtherPart("shift fork L", uid), True),)


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
