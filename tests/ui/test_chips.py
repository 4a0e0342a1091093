"""Chips: all can be reached, each says what it was taken for, and each can be corrected."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag.domain.kind_choice import could_be
from bagtag.domain.kinds import NO_KIND, Kinds, PartKind, Renewal
from bagtag.domain.model import Fate
from bagtag.services.tape import TapeReader
from bagtag.ui.field import chip_menu
from bagtag.ui.field.chip_layout import GAP, MORE, lay
from bagtag.ui.field.chip_shown import NAME, Shown, of_tape
from bagtag.ui.field.chips import ChipRow
from bagtag.ui.field.corrections import Corrections, kind_of
from tests.scan.test_tape import DATUM

SEAL = PartKind("oil seal", "seals", renew=Renewal.ALWAYS)
BALL = PartKind("ball bearing", "bearings", also=("bearing",))
NEEDLE = PartKind("needle bearing", "bearings")
GASKET = PartKind("gasket", "seals", renew=Renewal.ALWAYS)
COVER = PartKind("cover", "cases")
DETENT = PartKind("detent ball", "small parts")
KINDS = Kinds([SEAL, BALL, NEEDLE, GASKET, COVER, DETENT])
READER = TapeReader(DATUM, {}, {}, KINDS)
WIDTHS = st.lists(st.floats(30, 300), min_size=1, max_size=20)


# Which are in sight


@given(short=WIDTHS, word=st.floats(0, 60), room=st.floats(340, 1200), data=st.data())
def test_the_chip_asked_for_is_in_sight_and_nothing_hangs_over(short, word, room, data):
    reach = data.draw(st.integers(0, len(short) - 1))
    laid = lay([width + word for width in short], short, room, reach)
    assert laid.first <= reach < laid.end
    shown = short[laid.first : laid.end]
    taken = laid.left + sum(shown) + GAP * len(shown)
    taken += word * len(shown) if laid.worded else 0
    taken += MORE if laid.end < len(short) else 0
    assert taken <= room + 0.001 or len(shown) == 1
    assert bool(laid.first) == bool(laid.left), "what is out of sight at the left is counted there"


def test_words_go_before_chips_do():
    assert lay([100, 100], [60, 60], 220, 1).worded
    laid = lay([100, 100], [60, 60], 150, 1)
    assert (laid.first, laid.end, laid.worded) == (0, 2, False)


@pytest.fixture
def row(qtbot):
    made = ChipRow(None)
    qtbot.addWidget(made)
    made.resize(520, 44)
    made.show()
    made.activateWindow()
    return made


def chips(*texts):
    return [Shown(text, "place", start=n * 10, end=n * 10 + 5) for n, text in enumerate(texts)]


MANY = (
    "shift fork R",
    "C faces clutch side",
    "2nd of 3",
    "11 x M6x30",
    "8mm head",
    "10 Nm",
    "blue",
)


def test_chips_out_of_sight_are_reached_by_the_same_keys(row):
    row.show_chips(chips(*MANY), reach=0)
    assert 0 < len(row.in_sight()) < len(MANY)
    assert row.walk_in()
    seen = set()
    for _ in MANY:
        seen.add(row.chips[row.walked].text)
        assert row.chips[row.walked] in row.in_sight()
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Right)
    assert seen == set(MANY)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Home)
    assert row.walked == 0


def test_a_press_on_what_is_out_of_sight_brings_it_in(row):
    row.show_chips(chips(*MANY))
    before = row.in_sight()
    assert row.chips[0] not in before
    QTest.mouseClick(row, Qt.MouseButton.LeftButton, pos=QPoint(16, 20))
    assert row.in_sight()[0].start < before[0].start


def test_a_chip_is_named_with_what_it_was_taken_for(row):
    row.show_chips([Shown("blue", "threadlocker")])
    names = [child.accessibleName() for child in row.children() if child.isWidgetType()]
    assert names == ["blue: threadlocker"]


def test_letters_typed_on_a_chip_belong_into_the_line(row, qtbot):
    row.show_chips(chips("dowel"))
    row.walk_in()
    with qtbot.waitSignal(row.typed) as typed:
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_X)
    assert typed.args == ["x"]


# What they say


def shown(line, corrections=None):
    told = corrections or Corrections()
    told.follow(line)
    tape = told.applied(READER.read(line), READER)
    return of_tape(tape, kind_of(tape, READER), fate_by_kind=READER.fate_is_by_kind(tape)), tape


def test_each_says_what_it_was_taken_for():
    found, _ = shown("bearing, 10 Nm, blue, bag 12")
    assert [(c.text, c.word) for c in found] == [
        ("bearing", "ball bearing"), ("10 Nm", "torque"), ("blue", "threadlocker"),
        ("bag 12", "lies in"),
    ]  # fmt: skip


def test_a_name_that_says_its_kind_does_not_say_it_twice():
    assert shown("oil seal R, bag 1")[0][0].word == "kind"
    assert shown("bolt thing")[0][0].word == "name"


def test_a_fate_that_comes_of_the_kind_stands_in_outline():
    found, tape = shown("oil seal")
    assert found[-1].text == "renew: always for an oil seal"
    assert not found[-1].understood
    assert tape.entry.fate is Fate.RENEW
    assert len(shown("oil seal, scrap")[0]) == 2, "a fate that was said is no one else's"


# What is told of them


def told_of(line, kept=()):
    told = Corrections()
    told.follow(line)
    for stretch in kept:
        told.keep(stretch)
    return told


@given(
    before=st.text("ab ,", max_size=6),
    after=st.text("ab ,", max_size=6),
    more=st.text("ab ,", max_size=5),
)
def test_a_kept_stretch_moves_with_its_words(before, after, more):
    """Whatever is typed before or behind it, the stretch is the same text still, or is no more."""
    line = f"{before},KEPT,{after}"
    start = line.index("KEPT")
    for edited in (more + line, line + more, f"{before}{more},KEPT,{after}"):
        told = told_of(line, [(start, start + 4)])
        told.follow(edited)
        assert [edited[a:b] for a, b in told.kept] == ["KEPT"]


@pytest.mark.parametrize(
    "edited", ["nut, 10 N", "nut, 10 Nmm", "nut, 110 Nm", "nut, 1 Nm", "nut,", "nut, 10.5 Nm"]
)
def test_a_stretch_whose_text_changes_is_read_again(edited):
    told = told_of("nut, 10 Nm", [(5, 10)])
    told.follow(edited)
    assert told.kept == ()


def test_an_empty_line_has_nothing_told():
    told = told_of("nut, 10 Nm", [(5, 10)])
    told.choose_kind("gasket", "")
    told.follow("")
    assert told.kept == ()
    assert told.kind_chosen("") == ""


def test_no_kind_takes_its_fate_along():
    told = told_of("oil seal")
    told.choose_kind(NO_KIND, "oil seal")
    found, tape = shown("oil seal", told)
    assert tape.entry.kind == NO_KIND
    assert tape.entry.fate is Fate.REFIT
    assert [chip.word for chip in found] == ["name"]


def test_another_kind_brings_its_fate():
    told = told_of("cover")
    told.choose_kind("gasket", "cover")
    assert shown("cover", told)[1].entry.fate is Fate.RENEW
    assert shown("cover, refit", told)[1].entry.kind == "gasket", "it holds while the line goes on"
    assert shown("bearing", told)[1].entry.kind == "", "it was said of a cover"


def test_a_fate_of_its_own_goes_before_the_kinds():
    told = told_of("oil seal")
    told.choose_fate(Fate.REFIT, "oil seal")
    found, tape = shown("oil seal, bag 1", told)
    assert tape.entry.fate is Fate.REFIT
    assert [(chip.text, chip.word) for chip in found][-1] == ("refit", "fate"), "and it is seen"
    told.choose_fate(None, "oil seal")
    assert shown("oil seal, bag 1", told)[1].entry.fate is Fate.RENEW


# What could be chosen


def test_what_a_name_could_be_beside_its_first():
    assert could_be(KINDS, "cover gasket") == (COVER, SEAL)
    assert could_be(KINDS, "bearing") == (NEEDLE,), "and no detent ball"
    assert could_be(KINDS, "widget") == ()


def items(chip, **more):
    given_ = {"is_kept": False, "kind": None, "others": (), "own": ""} | more
    return [item.text for item in chip_menu.items(chip, **given_)]


def test_the_menu_has_what_can_be_put_right():
    torque = Shown("10 Nm", "torque", start=5, end=10, what="torque")
    assert items(torque) == ["Change the words", "Keep it as words"]
    assert items(torque, is_kept=True) == ["Change the words", "Read it again"]
    name = Shown("bearing", "kind", start=0, end=7, what=NAME)
    assert items(name, kind=BALL, others=(NEEDLE,), own="ball bearing") == [
        "Change the words", "Kind: needle bearing", "No kind",
    ]  # fmt: skip
    assert items(name, kind=NEEDLE, others=(NEEDLE,), own="ball bearing") == [
        "Change the words", "Kind: ball bearing", "No kind",
    ]  # fmt: skip
