"""The strip: rows when they are shown, whatever their number, and the keys that act on them."""

import gc
import weakref

import pytest
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtTest import QAbstractItemModelTester, QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import part
from bagtag.domain.model import Origin
from bagtag.domain.standing import Standing
from bagtag.domain.which_way import Hand
from bagtag.services.strip import Extras
from bagtag.ui.strip.strip_delegate import second_line
from bagtag.ui.strip.strip_model import PAGE, ROW_ROLE, StripModel
from bagtag.ui.strip.strip_view import StripView
from bagtag.ui.theme import current
from tests.bench.big_store import fill
from tests.ui.shell_kit import NAMES, log


@pytest.fixture
def ids(store, job_id):
    return log(store, job_id, *NAMES)


@pytest.fixture
def strip(qtbot, desk, ids, job_id, settle):
    view = StripView(desk)
    qtbot.addWidget(view)
    view.resize(480, 700)
    view.show()
    view.show_job(job_id)
    settle(desk)
    return view


def names(strip):
    rows = strip.rows
    return [rows.row_at(place).removal.name for place in range(rows.count)]


def test_the_log_is_shown_in_the_order_off(strip):
    assert names(strip) == list(NAMES)
    assert strip.rows.next_number == "6"
    assert strip.rows.whole


def test_the_model_keeps_qts_rules(strip, desk, store, job_id, ids, settle):
    tester = QAbstractItemModelTester(
        strip.rows, QAbstractItemModelTester.FailureReportingMode.Warning
    )
    strip.set_building(False)
    desk.act(services.strip.log_removal, job_id, Entry("post"), services.strip.Extras(ids[1]))
    settle(desk)
    desk.changed.connect(strip.rows.hear)
    desk.act(services.strip.delete_removal, ids[0])
    settle(desk)
    strip.set_building(True)
    assert tester.model() is strip.rows


def test_a_screen_reader_hears_number_name_and_state(strip):
    assert strip.rows.data(strip.rows.index(3)) == "4 shift fork L, off"


def test_the_line_to_be_logged_next_stands_at_the_end(strip):
    strip.set_building(False)
    assert strip.rows.rowCount() == 6
    assert strip.rows.is_now(5)
    assert strip.rows.data(strip.rows.index(5)) == "6, the next one to log"
    strip.set_building(True)
    assert strip.rows.rowCount() == 5


def test_new_lines_come_in_where_they_belong_and_the_choice_stays(strip, desk, job_id, ids, settle):
    desk.changed.connect(strip.rows.hear)
    strip.choose(ids[3])
    extras = services.strip.Extras(before=ids[2])
    desk.act(services.strip.log_removal, job_id, Entry("detent spring"), extras)
    settle(desk)
    assert names(strip)[2] == "detent spring"
    assert strip.chosen_id == ids[3]


def test_a_corrected_line_is_shown_afresh(strip, desk, ids, settle):
    desk.changed.connect(strip.rows.hear)
    desk.act(services.strip.correct_removal, ids[4], Entry("shift fork, right"))
    settle(desk)
    assert names(strip)[4] == "shift fork, right"


def test_a_deleted_line_goes_and_comes_back_with_undo(strip, desk, job_id, ids, settle):
    desk.changed.connect(strip.rows.hear)
    desk.act(services.strip.delete_removal, ids[1])
    settle(desk)
    assert names(strip) == [n for n in NAMES if n != "shift shaft"]
    desk.act(services.history.undo, job_id)
    settle(desk)
    assert names(strip) == list(NAMES)


def test_changes_of_another_job_ask_for_nothing(strip, desk, store, settle, qtbot):
    desk.changed.connect(strip.rows.hear)
    other = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    desk.act(services.strip.log_removal, other, Entry("impeller"))
    settle(desk)
    assert strip.rows.count == len(NAMES)


def test_a_hundred_thousand_lines_are_shown_by_the_page(qtbot, tmp_path, settle):
    from bagtag.store.work import Store
    from bagtag.ui.desk import Desk

    job_id = fill(tmp_path, 100_000)
    store = Store.in_folder(tmp_path)
    desk = Desk("Ada")
    with qtbot.waitSignal(desk.ready):
        desk.open(lambda: store)
    view = StripView(desk)
    qtbot.addWidget(view)
    view.resize(480, 700)
    view.show_job(job_id)
    view.show()
    qtbot.waitUntil(lambda: view.rows.whole, timeout=20_000)
    settle(desk)
    assert view.rows.count == 100_000
    assert view.rows.next_number == "100001"
    assert view.verticalScrollBar().value() == view.verticalScrollBar().maximum()
    assert len(view.rows._rows) < 5 * PAGE
    view.scrollTo(view.rows.index(50_000))
    qtbot.wait(20)
    settle(desk)
    assert view.rows.row_at(50_000).removal.number == "50001"
    assert len(view.rows._rows) < 5 * PAGE
    view.close()
    desk.close()


def test_a_row_that_is_not_here_yet_is_a_blank_tape(qtbot, desk, job_id, ids, settle):
    model = StripModel(desk)
    assert model.data(QModelIndex(), ROW_ROLE) is None
    assert model.data(model.index(7), ROW_ROLE) is None
    model.show_job(job_id)
    settle(desk)
    model._rows.clear()
    assert model.row_at(2) is None
    qtbot.wait(10)
    settle(desk)
    assert model.row_at(2).removal.name == "shift drum"


KEYS = (
    (Qt.Key.Key_Return, Qt.KeyboardModifier.NoModifier, "opened", lambda id_: [id_]),
    (Qt.Key.Key_Insert, Qt.KeyboardModifier.NoModifier, "insert_wanted", lambda id_: [id_]),
    (Qt.Key.Key_Delete, Qt.KeyboardModifier.NoModifier, "delete_wanted", lambda id_: [id_]),
    (Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier, "moved", lambda id_: [id_, -1]),
    (Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier, "moved", lambda id_: [id_, 1]),
)


@pytest.mark.parametrize(("key", "held", "signal", "told"), KEYS)
def test_keys_ask_for_acts_on_the_chosen_line(qtbot, strip, ids, key, held, signal, told):
    strip.choose(ids[2])
    with qtbot.waitSignal(getattr(strip, signal)) as asked:
        QTest.keyClick(strip, key, held)
    assert asked.args == told(ids[2])


def test_letters_typed_here_go_into_the_one_field(qtbot, strip):
    with qtbot.waitSignal(strip.typed) as typed:
        QTest.keyClick(strip, Qt.Key.Key_S)
    assert typed.args == ["s"]


def test_arrows_move_the_choice_and_the_card_is_asked_for_once_it_rests(qtbot, strip, ids):
    chosen = []
    strip.chosen.connect(chosen.append)
    strip.choose(ids[0])
    for _ in range(3):
        QTest.keyClick(strip, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: bool(chosen))
    qtbot.wait(80)
    assert chosen == [ids[3]]


@pytest.mark.parametrize(
    ("words", "place"),
    [
        ("off off off off off", -1),
        ("off off next in in", 3),
        ("off in off in in", 3),
        ("off off next in scrapped", 3),
        ("off off off off scrapped", -1),
        ("in in in in in", 0),
    ],
)
def test_the_line_stands_where_the_build_has_come_back_to(strip, ids, words, place):
    told = {id_: Standing(word) for id_, word in zip(ids, words.split(), strict=True)}
    strip.set_standings(told)
    assert strip.back_place == place


def test_without_a_board_the_rows_tell_where_the_build_is(strip, desk, store, ids, settle):
    desk.changed.connect(strip.rows.hear)
    assert strip.back_place == -1
    for removal_id in reversed(ids[3:]):
        desk.act(services.signing.sign, part(removal_id))
        settle(desk)
    assert strip.back_place == 3
    desk.act(services.signing.take_back, part(ids[3]))
    settle(desk)
    assert strip.back_place == 4


def test_a_fresh_row_counts_for_more_than_an_old_board(strip, desk, ids, settle):
    desk.changed.connect(strip.rows.hear)
    strip.set_standings(dict.fromkeys(ids, Standing.OFF) | {ids[4]: Standing.IN})
    assert strip.back_place == 4
    desk.act(
        services.signing.sign,
        part(ids[3]),
        services.signing.SignForm(reason="the board is older than this"),
    )
    settle(desk)
    assert strip.back_place == 3
    desk.act(services.strip.log_removal, strip.rows.job_id, Entry("post"))
    settle(desk)
    assert strip.back_place == -1


def test_the_line_stays_with_its_part_when_lines_come_before_it(strip, desk, job_id, ids, settle):
    desk.changed.connect(strip.rows.hear)
    words = dict.fromkeys(ids[:3], Standing.OFF) | dict.fromkeys(ids[3:], Standing.IN)
    strip.set_standings(words)
    extras = services.strip.Extras(before=ids[0])
    desk.act(services.strip.log_removal, job_id, Entry("guard"), extras)
    settle(desk)
    assert strip.back_place == 4


def test_the_line_is_painted_across_the_strip(strip, ids):
    strip.set_building(True)
    words = dict.fromkeys(ids[:3], Standing.OFF) | dict.fromkeys(ids[3:], Standing.IN)
    strip.set_standings(words)
    picture = strip.grab().toImage()
    y = strip.visualRect(strip.rows.index(3)).top()
    assert picture.pixelColor(20, y) == current().accent


def test_the_chosen_piece_of_tape_is_outlined_in_the_accent(strip, ids):
    strip.set_building(True)
    strip.choose(ids[1])
    picture = strip.grab().toImage()
    top = strip.visualRect(strip.rows.index(1)).top() + 5
    below = strip.visualRect(strip.rows.index(2)).top() + 5
    assert picture.pixelColor(200, top) == current().accent
    assert picture.pixelColor(200, below) != current().accent


def test_the_outline_is_heavier_while_the_keys_are_here(qtbot, strip, ids):
    strip.set_building(True)
    strip.choose(ids[1])
    strip.activateWindow()
    strip.setFocus()
    qtbot.waitUntil(strip.hasFocus)
    inside = strip.visualRect(strip.rows.index(1)).top() + 4 + 2
    assert strip.grab().toImage().pixelColor(200, inside) == current().accent
    strip.clearFocus()
    assert strip.grab().toImage().pixelColor(200, inside) != current().accent


def test_the_second_line_says_what_is_worth_saying(strip, store, job_id, desk, settle):
    removal = services.strip.log_removal(
        store, job_id, Entry("seal", which_way=(Hand("R"),), goes_on="engine oil")
    )
    row = services.views.strip_rows(store, job_id, [removal.new_id])[0]
    assert second_line(row) == f"{row.short}. engine oil"


def test_the_strip_dies_when_it_is_dropped(qtbot, desk, job_id, ids, settle):
    view = StripView(desk)
    view.show_job(job_id)
    view.show()
    settle(desk)
    QApplication.processEvents()
    view.close()
    gone = weakref.ref(view)
    del view
    gc.collect()
    assert gone() is None


def test_a_line_that_did_not_come_off_here_says_so(store, job_id):
    for origin, said in (
        (Origin.NEW, "new part"),
        (Origin.SHOP, "off at the shop"),
        (Origin.OFF, ""),
    ):
        made = services.strip.log_removal(store, job_id, Entry("plug"), Extras(origin=origin))
        (row,) = services.views.strip_rows(store, job_id, [made.new_id])
        assert second_line(row) == said
