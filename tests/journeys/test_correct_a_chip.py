"""A line of tape put right by keys alone, before it is logged."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.kinds import NO_KIND
from bagtag.domain.model import Fate

# the platform without a screen cannot raise a menu's window, and says so
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")
KEYS, ALT = Qt.Key, Qt.KeyboardModifier.AltModifier
OWN = """
["packing ring"]
asks = [
  { fact = "faces", feature = "lip", ask = "Where is the lip?", choices = ["inward", "outward"] },
  { fact = "seat", ask = "How deep does it sit?", choices = ["flush", "below"] },
]
goes_wrong = "It leaks."
renew = "always"
why = "It has hardened."
home = "Flush."
source = "made for this test"
"""


@pytest.fixture
def bench(bench):
    folder = bench.folder / "kinds"
    folder.mkdir()
    (folder / "own.toml").write_text(OWN, encoding="utf-8")
    change = services.jobs.open_job(bench.desk.store, services.jobs.JobForm("Walking tractor"))
    bench.desk.changed.emit(change)
    bench.settle()
    bench.stage(2)
    return bench


def write(bench, text):
    bench.control(KEYS.Key_L)
    bench.type(text)
    bench.settle()


def chips(bench):
    return [(chip.text, chip.word) for chip in bench.window.field.chips.chips]


def menu(bench, *keys):
    """Open the menu of the chip that has the keys and press these in it."""
    bench.press(KEYS.Key_Return)
    for key in keys:
        QTest.keyClick(QApplication.activePopupWidget(), key)
    bench.settle()


def logged(bench):
    store = bench.desk.store
    return services.strip.get_removal(store, services.strip.log_ids(store, bench.desk.job_id)[-1])


def test_the_words_under_a_chip_are_chosen_and_written_anew(bench):
    write(bench, "dowel, bag 12, renew")
    bench.press(KEYS.Key_Down, ALT)
    bench.press(KEYS.Key_Left)
    menu(bench, KEYS.Key_Return)
    assert bench.window.field.frame.line.selectedText() == "bag 12"
    bench.type("bag 7")
    bench.press(KEYS.Key_Return)
    found = logged(bench)
    assert (found.name, found.fate) == ("dowel", Fate.RENEW)
    card = services.views.card(bench.desk.store, found.id)
    assert card.where == ("bag 7",)


def test_words_that_are_only_words_are_kept_as_such_while_the_line_goes_on(bench):
    write(bench, "packing ring, 10 Nm, bag 12")
    assert ("10 Nm", "torque") in chips(bench)
    bench.press(KEYS.Key_Down, ALT)
    bench.press(KEYS.Key_Home)
    bench.press(KEYS.Key_Right)
    menu(bench, KEYS.Key_Down, KEYS.Key_Return)
    assert ("10 Nm", "note") in chips(bench)
    bench.press(KEYS.Key_Escape)
    bench.press(KEYS.Key_Home)
    bench.type("2 ")
    bench.press(KEYS.Key_End)
    bench.type(", renew")
    bench.settle()
    assert ("10 Nm", "note") in chips(bench)
    bench.press(KEYS.Key_Return)
    found = logged(bench)
    assert (found.note, found.held_by, found.fate) == ("10 Nm", (), Fate.RENEW)
    assert (found.name, found.quantity) == ("packing ring", 2)


def test_words_kept_by_mistake_are_read_again(bench):
    write(bench, "dowel, 10 Nm")
    bench.press(KEYS.Key_Down, ALT)
    menu(bench, KEYS.Key_Down, KEYS.Key_Return)
    assert chips(bench)[1] == ("10 Nm", "note")
    menu(bench, KEYS.Key_Down, KEYS.Key_Return)
    assert chips(bench)[1] == ("10 Nm", "torque")


def test_escape_leads_back_to_the_line(bench):
    write(bench, "dowel, bag 12")
    bench.press(KEYS.Key_Down, ALT)
    assert bench.window.field.chips.walked == 1
    bench.press(KEYS.Key_Escape)
    assert bench.window.field.frame.line.hasFocus()
    bench.type(", renew")
    assert bench.window.field.text == "dowel, bag 12, renew"


def test_a_kind_that_is_not_meant_is_taken_away_and_its_fate_with_it(bench):
    write(bench, "packing ring, bag 12")
    assert chips(bench) == [
        ("packing ring", "kind"), ("bag 12", "lies in"), ("renew: always for a packing ring", ""),
    ]  # fmt: skip
    assert bench.window.field.chips.tails[0] == "Tab: 2 questions"
    bench.press(KEYS.Key_Down, ALT)
    bench.press(KEYS.Key_Home)
    menu(bench, KEYS.Key_Up, KEYS.Key_Return)
    assert chips(bench) == [("packing ring", "name"), ("bag 12", "lies in")]
    bench.press(KEYS.Key_Escape)
    bench.press(KEYS.Key_Return)
    found = logged(bench)
    assert (found.kind, found.fate, found.unanswered) == (NO_KIND, Fate.REFIT, ())


def test_a_part_that_is_always_renewed_may_be_refitted_all_the_same(bench):
    write(bench, "packing ring")
    bench.press(KEYS.Key_Down, ALT)
    bench.press(KEYS.Key_End)
    menu(bench, KEYS.Key_Return)
    assert chips(bench) == [("packing ring", "kind"), ("refit", "fate")]
    menu(bench, KEYS.Key_Return)
    assert chips(bench)[-1] == ("renew: always for a packing ring", "")
    menu(bench, KEYS.Key_Return)
    bench.press(KEYS.Key_Escape)
    bench.press(KEYS.Key_Return)
    assert logged(bench).fate is Fate.REFIT


def test_what_was_chosen_goes_on_to_the_card(bench):
    write(bench, "packing ring, lip inward")
    bench.press(KEYS.Key_Down, ALT)
    bench.press(KEYS.Key_End)
    menu(bench, KEYS.Key_Return)
    bench.press(KEYS.Key_Escape)
    bench.press(KEYS.Key_Tab)
    card = bench.window.work.bench.entry
    bench.qtbot.waitUntil(lambda: card.draft.name == "packing ring", timeout=5000)
    bench.settle()
    assert card.draft.fate is Fate.REFIT


def test_enter_logs_at_once_and_says_what_was_not_answered(bench):
    bench.line("packing ring")
    found = logged(bench)
    assert found.unanswered == ("faces lip", "seat")
    assert bench.window.message.text == (
        f"Logged as {found.number}. 2 questions not answered: F8 answers them."
    )
    assert bench.window.message.offers_undo
    bench.press(KEYS.Key_F8)
    entry = bench.window.work.bench.entry
    bench.qtbot.waitUntil(lambda: entry.removal_id == found.id and entry.fields.asks.is_asking)
    bench.press(KEYS.Key_1)
    bench.qtbot.wait(200)
    assert [fact.feature for fact in entry.draft.which_way] == ["lip"]


def test_what_contradicts_itself_is_said_as_it_is_typed_and_logged_all_the_same(bench):
    write(bench, "packing ring, lip inward, lip outward")
    said = bench.window.field.chips.said
    assert said.startswith("The lip cannot face")
    bench.press(KEYS.Key_Return)
    assert len(logged(bench).which_way) == 2


def test_a_scan_while_a_chip_has_the_keys_presses_nothing(bench):
    store = bench.desk.store
    first = services.tape.log_line(store, bench.desk.job_id, "dowel").new_id
    code = services.views.card(store, first).code
    write(bench, "packing ring, bag 12")
    bench.press(KEYS.Key_Down, ALT)
    bench.scan(code)
    bench.qtbot.waitUntil(lambda: bench.window.work.bench.card_id == first, timeout=5000)
    assert bench.window.field.text == "packing ring, bag 12"
    assert QApplication.activePopupWidget() is None
    assert services.strip.log_ids(store, bench.desk.job_id) == [first]


def test_a_scan_while_a_menu_is_open_chooses_nothing_in_it(bench):
    store = bench.desk.store
    first = services.tape.log_line(store, bench.desk.job_id, "dowel").new_id
    code = services.views.card(store, first).code
    write(bench, "packing ring, bag 12")
    before = chips(bench)
    bench.press(KEYS.Key_Down, ALT)
    bench.press(KEYS.Key_Return)
    assert QApplication.activePopupWidget() is not None
    bench.scan(code)
    bench.qtbot.waitUntil(lambda: bench.window.work.bench.card_id == first, timeout=5000)
    assert QApplication.activePopupWidget() is None
    assert bench.window.field.text == "packing ring, bag 12"
    assert chips(bench) == before


def test_a_refused_line_comes_back_with_what_was_corrected(bench):
    line = "large " * 40 + "packing ring"
    write(bench, line)
    bench.press(KEYS.Key_Down, ALT)
    bench.press(KEYS.Key_End)
    menu(bench, KEYS.Key_Return)
    bench.press(KEYS.Key_Escape)
    bench.press(KEYS.Key_Return)
    field = bench.window.field
    assert field.text == line
    assert "characters" in field.chips.sentence
    assert field.tape.entry.fate is Fate.REFIT
