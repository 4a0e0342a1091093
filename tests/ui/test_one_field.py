"""The one field: it says what it understood and what Enter will do, and loses nothing typed."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain import codes
from bagtag.domain.sending import PackForm, Wanted
from bagtag.ui.field.one_field import ELSEWHERE, ON_STRIP, OneField
from bagtag.ui.scanning.code_reading import as_code, may_be_words, what_is_wrong
from tests.ui.shell_kit import NAMES, log


@pytest.fixture
def ids(store, job_id):
    return log(store, job_id, *NAMES)


@pytest.fixture
def field(qtbot, desk, store, job_id, ids, settle):
    window = QWidget()
    qtbot.addWidget(window)
    window.resize(1000, 500)
    made = OneField(desk, window)
    QVBoxLayout(window).addWidget(made, 0, Qt.AlignmentFlag.AlignTop)
    made.finish()
    made.set_reader(services.tape.reader(store, job_id))
    made.set_stage("Strip")
    made.set_next_number("6")
    window.show()
    window.activateWindow()
    made.setFocus()
    yield made
    settle(desk)


def typed(field, text, settle):
    field.frame.line.setFocus()
    QTest.keyClicks(field.frame.line, text)
    settle(field.desk)


def press(field, key):
    QTest.keyClick(field.frame.line, key)


def chips(field):
    return [chip.text for chip in field.chips.chips]


def code_of(store, removal_id):
    return services.views.card(store, removal_id).code


def test_empty_it_says_what_it_takes(field):
    assert field.frame.hint == ON_STRIP
    field.set_stage("Renew")
    assert field.frame.hint == ELSEWHERE


def test_a_line_of_tape_shows_as_chips_and_says_its_number(field, settle):
    typed(field, "thrust washer, renew, bag 12", settle)
    assert chips(field) == ["thrust washer", "renew", "bag 12"]
    assert field.frame.hint == "Enter: logged as 6"


def test_enter_hands_the_tape_on(field, settle, qtbot):
    typed(field, "2 dowels", settle)
    with qtbot.waitSignal(field.tape_entered) as entered:
        press(field, Qt.Key.Key_Return)
    assert entered.args[0].entry.quantity == 2


def test_tab_takes_the_tape_to_the_card(field, settle, qtbot):
    typed(field, "dowel", settle)
    with qtbot.waitSignal(field.tape_to_card) as entered:
        QTest.keyClick(field.frame.line, Qt.Key.Key_Tab)
    assert entered.args[0].entry.name == "dowel"


def test_a_code_shows_what_it_hangs_on(field, store, ids, settle, qtbot):
    code = code_of(store, ids[4])
    typed(field, codes.show(code).lower(), settle)
    assert chips(field) == [f"tag {codes.show(code)}", "5 shift fork R"]
    assert field.frame.hint == "Enter: open its card"
    with qtbot.waitSignal(field.code_entered) as entered:
        press(field, Qt.Key.Key_Return)
    assert entered.args == [code]


def test_a_blank_tag_says_so(field, store, settle):
    _, made = services.tags.make_blank(store, 1)
    typed(field, made[0], settle)
    assert chips(field)[1].startswith("blank")


def test_the_code_on_a_traveller_shows_its_send_out(field, store, job_id, ids, settle):
    form = PackForm("Mill Lane", date.today())
    sent = services.send_outs.send(store, job_id, form, [Wanted(ids[0])]).new_id
    code = services.send_outs.get_send_out(store, sent).code
    typed(field, code, settle)
    assert chips(field) == [f"tag {codes.show(code)}", "send-out 1, Mill Lane"]
    assert field.frame.hint == "Enter: show send-out 1, Mill Lane"


def wrong_code(code):
    """The code with its first two characters swapped, or one of them changed."""
    swapped = code[1] + code[0] + code[2:]
    return swapped if swapped != code else ("3" if code[0] == "2" else "2") + code[1:]


def test_a_wrong_code_is_said_and_stays_typed(field, store, ids, settle, qtbot):
    every = [code_of(store, removal_id) for removal_id in ids]
    code = next((one for one in every if any(symbol.isdigit() for symbol in one)), every[0])
    wrong = wrong_code(code)
    typed(field, wrong, settle)
    assert "no tag" in field.chips.sentence
    with qtbot.assertNotEmitted(field.tape_entered), qtbot.assertNotEmitted(field.code_entered):
        press(field, Qt.Key.Key_Return)
    assert field.text == wrong


def test_a_right_code_of_another_store_is_said(field, settle):
    strange = "A2C4E"
    code = strange + codes.check_character(strange)
    assert codes.is_valid(code)
    typed(field, code, settle)
    assert "no tag of this store" in field.chips.sentence
    assert field.text == code


@pytest.mark.parametrize("text", ["washer", "tie rod", "big end", "M10x1.25 nut", "piston"])
def test_words_are_not_taken_for_codes(text):
    assert as_code(text) == ""
    assert what_is_wrong(text) == ""


def test_six_characters_with_a_nought_say_which_is_never_used():
    assert what_is_wrong("K70-4M2") == (
        "Character 3 reads 0, and tags never use 0, 1, I, L or O. Look at the label again."
    )


def test_a_short_line_with_a_thread_may_be_logged_all_the_same(field, settle, qtbot):
    assert may_be_words("M10 nut")
    typed(field, "M10 nut", settle)
    assert "never use" in field.chips.sentence
    with qtbot.waitSignal(field.tape_entered):
        press(field, Qt.Key.Key_Return)


def test_away_from_strip_words_find_and_the_newest_comes_first(field, settle, ids, qtbot):
    field.set_stage("Build")
    typed(field, "shift fo", settle)
    assert [hit.name for hit in field.hits] == ["shift fork R", "shift fork L"]
    assert field.frame.hint == "Enter: open 5 shift fork R"
    press(field, Qt.Key.Key_Down)
    with qtbot.waitSignal(field.hit_chosen) as chosen:
        press(field, Qt.Key.Key_Return)
    assert chosen.args[0].removal_id == ids[3]


def test_enter_before_the_answer_waits_for_it(field, settle, ids, qtbot):
    field.set_stage("Build")
    QTest.keyClicks(field.frame.line, "cover")
    with qtbot.waitSignal(field.hit_chosen) as chosen:
        press(field, Qt.Key.Key_Return)
    assert chosen.args[0].removal_id == ids[0]


def test_what_is_not_there_is_said(field, settle):
    field.set_stage("Build")
    typed(field, "flywheel", settle)
    assert field.chips.sentence.startswith("Nothing in the log")
    assert field.text == "flywheel"


def test_on_strip_down_shows_what_is_like_it(field, settle, ids, qtbot):
    typed(field, "shift fork", settle)
    assert "Down: 2 like it" in field.chips.tails
    press(field, Qt.Key.Key_Down)
    with qtbot.waitSignal(field.hit_chosen) as chosen:
        press(field, Qt.Key.Key_Return)
    assert chosen.args[0].removal_id == ids[4]


def test_escape_clears_and_then_leaves(field, settle, qtbot):
    typed(field, "dowel", settle)
    press(field, Qt.Key.Key_Escape)
    assert field.text == ""
    with qtbot.waitSignal(field.left):
        press(field, Qt.Key.Key_Escape)


def test_a_line_that_was_refused_comes_back_before_what_was_typed_since(field, settle):
    typed(field, "dowel", settle)
    field.take_back("2000000 springs", "That is too many.")
    assert field.text == "2000000 springs, dowel"
    assert field.chips.sentence == "That is too many."


def test_markup_is_text(field, settle, store, job_id):
    log(store, job_id, "<b>bush</b> & pin")
    field.set_stage("Build")
    typed(field, "bush", settle)
    assert field.frame.label.textFormat() is Qt.TextFormat.PlainText
    assert "<b>bush</b> & pin" in field.frame.hint
