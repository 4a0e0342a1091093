"""The masking-tape line: what a mechanic writes becomes the entry meant, and no word is lost."""

import re
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain import which_way
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import checked
from bagtag.domain.errors import BadInput
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    Outness,
    Place,
    SameWay,
    Seat,
    Without,
)
from bagtag.scan.tape import read
from tests.scan.tape_table import (
    AREAS,
    BAGS,
    DATUM,
    GIVEN,
    KINDS,
    LINES_GIVEN,
    read_known,
    told,
)


@pytest.mark.parametrize("case", LINES_GIVEN, ids=lambda case: case["line"][:60])
def test_a_line_becomes_the_entry_it_means(case):
    meant = {key: value for key, value in case.items() if key != "line" and value}
    if "which_way" in meant:
        meant["which_way"] = sorted(meant["which_way"], key=str)
    got = told(read_known(case["line"]))
    if case in GIVEN["lines"]:
        got.pop("kind", None)
    assert got == meant


@pytest.mark.parametrize("case", LINES_GIVEN, ids=lambda case: case["line"][:60])
def test_every_entry_read_is_sound(case):
    entry = read_known(case["line"]).entry
    if entry.name:
        assert checked(entry) == entry
    else:
        with pytest.raises(BadInput, match="name"):
            checked(entry)


def test_the_lines_are_many():
    assert len(LINES_GIVEN) >= 200


# --- nothing is dropped

FRAGMENTS = st.sampled_from(
    [piece.strip() for case in LINES_GIVEN for piece in re.split("[,;]", case["line"])]
    + list("?!()+-–/x3RL")
    + ["12", "10", "Nm", "M6", "OUT", "in", "out", "up", "and", "not", "no", "to the", "bag"]
    + [
        "same way as",
        "no mark",
        "no",
        "heavy",
        "6204",
        "20x2",
        "1.55 mm",
        "staked",
        ". Oil",
        "either way",
    ]
    + ["oiled", "+ 90°", "then 1/4 turn", "adapter 50 mm", "2 washers", "copper washer each"]
    + ["new each time", "one-time", "stretch 0.1 mm", "tool: puller", "drag 2 Nm", "threads oil"]
    + [
        "? bolts M6x20",
        "flange head",
        "(39 lbf ft)",
        "TTY",
        "4 one-time bolts",
        "do not reuse bolts",
    ]
    + ["left", "clutch", "blue", "4 o'clock", "faces", "toward", "0.5 mm", "1,5", "of", "from"]
)
LINES = st.one_of(
    st.text(),
    st.text(alphabet="abMNRLx×0123456789.,;:-/()\"'+ \n\t\0", max_size=60),
    st.lists(
        st.tuples(FRAGMENTS, st.sampled_from([", ", " ", " - ", ";", "", ","])), max_size=8
    ).map(lambda parts: "".join(text + joiner for text, joiner in parts)),
)
MEANT = {
    "count": lambda tape: tape.entry.quantity >= 1,
    "hand": lambda tape: facts(tape, Hand),
    "faces": lambda tape: facts(tape, Faces),
    "place": lambda tape: facts(tape, Place),
    "clocking": lambda tape: facts(tape, Clocking),
    "seat": lambda tape: facts(tape, Seat),
    "match mark": lambda tape: facts(tape, MatchMark),
    "same way": lambda tape: facts(tape, SameWay),
    "without": lambda tape: facts(tape, Without),
    "kind": lambda tape: tape.kind and KINDS.of(tape.entry.name) is tape.kind,
    "size": lambda tape: tape.entry.size,
    "hazard": lambda tape: tape.entry.hazards,
    "hardware": lambda tape: tape.entry.held_by or tape.entry.name,
    "torque": lambda tape: tape.entry.held_by,
    "threadlocker": lambda tape: tape.entry.held_by or tape.entry.goes_on,
    "fate": lambda tape: tape.entry.fate,
    "goes on": lambda tape: tape.entry.goes_on,
    "condition": lambda tape: tape.entry.condition,
    "container": lambda tape: tape.container_wanted or tape.entry.container_id,
    "area": lambda tape: tape.entry.area_id or tape.entry.name,
    "name": lambda tape: tape.entry.name,
    "note": lambda tape: tape.entry.note,
}


def facts(tape, kind):
    return [fact for fact in tape.entry.which_way if isinstance(fact, kind)]


@given(LINES)
def test_any_text_is_read_and_every_sign_of_it_is_in_a_chip(line):
    tape = read_known(line)
    shown = {i for chip in tape.chips for i in range(chip.start, chip.end)}
    lost = [i for i, c in enumerate(line) if i not in shown and not c.isspace()]
    ends = [i for i in lost if line[i] == "." and line[i + 1 : i + 2].isspace()]
    assert {line[i] for i in lost if i not in ends} <= set(",;|-–—")


@given(LINES)
def test_a_chip_stands_for_something_in_the_entry(line):
    tape = read_known(line)
    for chip in tape.chips:
        assert 0 <= chip.start < chip.end <= len(line)
        assert chip.text in line
        assert MEANT[chip.kind](tape), chip
        if chip.kind in ("name", "note"):
            assert chip.text in getattr(tape.entry, chip.kind)


@given(LINES)
def test_an_entry_read_is_sound_or_lacks_only_its_name(line):
    entry = read_known(line).entry
    if any(c.isprintable() and not c.isspace() for c in entry.name) and len(line) < 200:
        assert checked(entry).quantity == entry.quantity
    elif not entry.name:
        with pytest.raises(BadInput, match="name"):
            checked(entry)


@given(LINES)
def test_reading_is_the_same_every_time(line):
    again = Datum(DATUM.viewpoint, dict(reversed(DATUM.names.items())))
    assert read(line, DATUM, BAGS, AREAS) == read(line, again, BAGS, AREAS)


@given(st.lists(st.text("abcdefgh", min_size=4, max_size=9), min_size=1, max_size=8))
def test_words_that_nobody_knows_stay_as_they_were(words):
    entry = read(", ".join(words), DATUM).entry
    assert (entry.name, entry.note) == (words[0], ", ".join(words[1:]))


# --- the order of the pieces

ORDERLESS = [
    "shift fork R",
    "C faces clutch side",
    "2nd of 3 from flywheel",
    "2 screws M6x12 T30",
    "10 Nm",
    "medium threadlocker",
    "gear oil",
    "0.5 mm proud",
    "tips worn",
    "gearbox",
    "inspect",
    "bag 12",
]


@given(st.permutations(ORDERLESS))
def test_the_order_of_the_pieces_does_not_matter(pieces):
    assert told(read(", ".join(pieces), DATUM, BAGS, AREAS)) == told(
        read(", ".join(ORDERLESS), DATUM, BAGS, AREAS)
    )


@given(st.data())
def test_the_lines_may_be_shuffled(data):
    """Lines with one fastener piece and one of unknown words, in any order of their pieces."""
    line = data.draw(st.sampled_from(_shufflable()))
    pieces = data.draw(st.permutations(line.split(", ")))
    assert told(read_known(", ".join(pieces))) == told(read_known(line))


def _shufflable():
    lines = (case["line"] for case in LINES_GIVEN if ". " not in case["line"])
    return [line for line in lines if _is_plain(line)]


def _is_plain(line):
    if re.search(r", [^\d,]*(?:bolt|nut|screw)s? (?:M|\d)", line):
        return False  # standing first, the bolt is itself the part
    tape = read_known(line)
    unknown = [chip for chip in tape.chips if chip.kind in ("name", "note")]
    return len(unknown) == 1 and len(tape.entry.held_by) < 2 and ", " in line


def test_enough_lines_may_be_shuffled():
    assert len(_shufflable()) > 110


def test_the_first_unknown_piece_is_the_name():
    for pieces in permutations(["rocker", "twin tag on the place", "bag 12"]):
        entry = read(", ".join(pieces), DATUM, BAGS).entry
        unknown = [piece for piece in pieces if piece != "bag 12"]
        assert [entry.name, entry.note] == unknown
        assert entry.container_id == BAGS["bag 12"]


# --- the datum


def test_a_side_is_known_by_its_own_and_its_plain_name():
    said = ("clutch side", "the clutch side", "clutch", "right", "right side", "Clutch-side")
    for side in said:
        entry = read(f"bearing, arrow to {side}", DATUM).entry
        assert entry.which_way == (Faces("arrow", Side.RIGHT),), side


def test_a_side_of_another_machine_is_another_part():
    entry = read("bearing, arrow toward clutch side", Datum()).entry
    assert entry.which_way == (Faces("arrow", which_way.OtherPart("clutch side")),)


@given(st.text(max_size=30))
def test_any_name_of_a_side_can_be_used(name):
    datum = Datum("", {Side.LEFT: name})
    tape = read(f"bearing, lip outward, arrow to the {name}", datum)
    assert Faces("lip", Outness.OUTWARD) in tape.entry.which_way
    assert tape.entry.name


def test_a_part_that_a_side_is_named_after_is_still_a_part():
    entry = read("clutch, springs stay in, 6 x M6x25", DATUM).entry
    assert (entry.name, entry.note) == ("clutch", "springs stay in")


def test_american_and_british_words_say_the_same():
    for one, other in (
        ("clip, left-hand, 8mm wrench", "clip, LH, 8mm spanner"),
        ("pin, 2 punch marks, center punch dot", "pin, 2 punch marks, centre punch dot"),
        ("cap, 10 newton meters", "cap, 10 newton metres"),
        ("seal, lip rearward", "seal, lip rearwards"),
    ):
        american, british = (read(line, DATUM).entry for line in (one, other))
        assert not american.note
        assert len(american.which_way) == len(british.which_way)
        assert len(american.held_by) == len(british.held_by)


# --- containers and areas


def test_a_known_container_is_used_and_an_unknown_one_wanted():
    known = read("fork, BAG 12", DATUM, BAGS)
    assert (known.entry.container_id, known.container_wanted) == (112, None)
    new = read("fork, Bag no. 12a", DATUM, BAGS)
    assert (new.entry.container_id, new.container_wanted) == (None, "bag 12A")


def test_a_container_by_a_name_of_its_own():
    tape = read("fork, tray gearbox left", DATUM, {"tray gearbox left": 9})
    assert (tape.entry.container_id, tape.entry.note) == (9, "")


def test_a_bag_before_the_shelf_it_lies_on():
    for line in ("fork, bag 12, shelf B", "fork, shelf B, bag 12"):
        entry = read(line, DATUM, BAGS).entry
        assert (entry.container_id, entry.note) == (112, "shelf B")


def test_a_second_bag_is_never_lost_wherever_it_stands():
    for line in ("bag 12 bag 13 fork", "fork bag 12 bag 13", "bag 12, bag 13, fork"):
        entry = read(line, DATUM, BAGS).entry
        assert (entry.name, entry.container_id) == ("fork", 112)
        assert "bag 13" in entry.note


def test_an_area_by_its_name_or_its_path():
    for said in ("gearbox", "in the gearbox", "Engine > Gearbox"):
        assert read(f"fork, {said}", DATUM, areas=AREAS).entry.area_id == 2, said
    assert read("gearbox breather", DATUM, areas=AREAS).entry.area_id is None
    assert read("gearbox, bag 12", DATUM, BAGS, AREAS).entry.name == "gearbox"


def test_what_only_the_note_keeps_is_named():
    tape = read("rocker, twin tag on the place, oil", DATUM)
    assert tape.unread == ("twin tag on the place",)
