"""The masking-tape line: kinds, what a person says is only words, hazards, sides and full stops."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.datum import Side
from bagtag.domain.kinds import NO_KIND
from bagtag.domain.model import Hazard
from bagtag.domain.which_way import (
    Clocking,
)
from bagtag.scan.tape import read
from tests.scan.tape_table import (
    DATUM,
    KINDS,
    read_known,
)
from tests.scan.test_tape import LINES

# --- the kind, and what a person says is only words


def kinds_shown(line, **how):
    return [(chip.text, chip.kind) for chip in read_known(line, **how).chips]


def test_the_words_that_say_the_kind_are_a_chip_inside_the_names():
    line = "3 gearbox cover gaskets, oil"
    assert all(kind != "kind" for _, kind in kinds_shown(line))
    tape = read_known("2 rear shift forks L, bag 12")
    assert tape.kind is KINDS.named("shift fork")
    (kind,) = (chip for chip in tape.chips if chip.kind == "kind")
    (name,) = (chip for chip in tape.chips if chip.kind == "name")
    assert (kind.text, name.text) == ("shift forks", "rear shift forks L")
    assert name.start <= kind.start
    assert kind.end <= name.end
    assert tape.entry.kind == ""


def test_a_size_without_a_kind_that_has_one_stays_words():
    for line in ("gear, 1.95 mm", "gear 20x4", "rotor 6204", "O-shaped thing 32x2.5"):
        entry = read_known(line).entry
        assert entry.size == ""
        assert line.replace(", ", "").split(" ")[-1] in f"{entry.name} {entry.note}"


@pytest.mark.parametrize(
    ("line", "words", "field"),
    [
        ("shim, 1.55 mm, bag 12", "1.55 mm", "note"),
        ("oil seal 25x42x7", "25x42x7", "name"),
        ("cover, hot", "hot", "note"),
        ("cover, lip inward", "lip inward", "note"),
        ("3 springs, oil", "3", "name"),
        ("shift fork R, oil", "R", "name"),
        ("cover, 7 x M6x25, blue", "blue", "note"),
        ("cover, no mark", "no mark", "note"),
        ("cover, one, two; three", "one, two; three", "note"),
    ],
)
def test_what_a_person_says_is_only_words_is_read_as_nothing_else(line, words, field):
    start = line.index(words)
    tape = read_known(line, as_words=[(start, start + len(words))])
    assert words in getattr(tape.entry, field)
    for chip in tape.chips:
        within = start <= chip.start and chip.end <= start + len(words)
        assert not within or chip.kind == "note", chip


def test_a_kind_that_is_denied_is_none():
    tape = read_known("cooking ring, oil", as_words=[(8, 12)])
    assert (tape.kind, tape.entry.kind, tape.entry.name) == (None, NO_KIND, "cooking ring")
    assert read_known("cooking ring, oil").kind is KINDS.named("piston ring")


@given(LINES, st.lists(st.tuples(st.integers(-5, 130), st.integers(-5, 130)), max_size=3))
def test_nothing_is_lost_whatever_is_said_to_be_words(line, as_words):
    tape = read_known(line, as_words=as_words)
    shown = {i for chip in tape.chips for i in range(chip.start, chip.end)}
    lost = [i for i, c in enumerate(line) if i not in shown and not c.isspace()]
    ends = [i for i in lost if line[i] == "." and line[i + 1 : i + 2].isspace()]
    assert {line[i] for i in lost if i not in ends} <= set(",;|-–—")
    for chip in tape.chips:
        if chip.kind in ("name", "note"):
            assert chip.text in getattr(tape.entry, chip.kind)


# --- hazards, sides, full stops


def test_hazards_stand_in_their_own_order():
    entry = read("tank, under pressure, heavy, fuel", DATUM).entry
    assert entry.hazards == (Hazard.HEAVY, Hazard.FUEL, Hazard.PRESSURE)


@pytest.mark.parametrize(
    "line",
    ["spring", "fuel, bag 12", "hot plug", "spring 3", "fuel tap", "pressure plate",
     "heavy flywheel", "cover, not hot", "sharp edge", "fuel?"],
)  # fmt: skip
def test_a_word_for_a_hazard_that_is_a_name_or_denied_is_none(line):
    entry = read_known(line).entry
    assert entry.hazards == ()
    assert line.split(",")[0].rstrip("?") in f"{entry.name} {entry.note}"


def test_two_sides_that_differ_are_no_side():
    entry = read("bracket, flywheel side, front", DATUM).entry
    assert (entry.name, entry.side) == ("bracket, flywheel side, front", None)


@pytest.mark.parametrize(
    ("line", "name", "note"),
    [
        ("cover no. 3 thing, oil", "cover no. 3 thing", ""),
        ("cover, see fig. 3 Later", "cover", "see fig. 3 Later"),
        ("cover. Loose wire behind", "cover", "Loose wire behind"),
        ("cover, approx. 3 left", "cover", "approx. 3 left"),
        ("pipe 2.5 thing. oil", "pipe 2.5 thing. oil", ""),
        ("cover... Maybe", "cover... Maybe", ""),
    ],
)
def test_a_full_stop_before_a_capital_ends_a_piece(line, name, note):
    entry = read(line, DATUM).entry
    assert (entry.name, entry.note) == (name, note)


def test_a_side_of_a_view_goes_to_the_clockings_of_its_sentence():
    line = "ring. Gap at 4 o'clock. Tab at 6 o'clock, seen from the top"
    assert set(read(line, DATUM).entry.which_way) == {
        Clocking("gap", 4.0),
        Clocking("tab", 6.0, seen_from=Side.TOP),
    }
    line = "ring, gap at 4 o'clock, tab at 6 o'clock, seen from the top"
    sides = [fact.seen_from for fact in read(line, DATUM).entry.which_way]
    assert sides == [Side.TOP, Side.TOP]
