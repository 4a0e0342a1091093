"""The masking-tape line: what a mechanic writes becomes the entry meant, and no word is lost."""

import json
import re
from itertools import permutations
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain import hardware, which_way
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import checked
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import Torque
from bagtag.domain.kinds import NO_KIND, Kinds, PartKind
from bagtag.domain.model import Fate, Hazard
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

HERE = Path(__file__).parent
GIVEN = json.loads((HERE / "tape_lines.json").read_text(encoding="utf-8"))
MORE = json.loads((HERE / "tape_lines_more.json").read_text(encoding="utf-8"))
LINES_GIVEN = GIVEN["lines"] + MORE["lines"]
PUBLISHED = json.loads((HERE.parent / "check_values" / "tape_published.json").read_text("utf-8"))
DATUM = Datum(
    GIVEN["datum"]["viewpoint"],
    {Side(side): name for side, name in GIVEN["datum"]["names"].items()},
)
BAGS, AREAS = GIVEN["containers"], GIVEN["areas"]
KINDS = Kinds(
    PartKind(kind["name"], also=tuple(kind.get("also", ())), size=kind.get("size", ""))
    for kind in MORE["kinds"]
)


def told(tape):
    """A tape as the lines file writes it, defaults left out."""
    entry = tape.entry
    fields = {
        "name": entry.name,
        "quantity": entry.quantity if entry.quantity != 1 else None,
        "area_id": entry.area_id,
        "which_way": sorted(which_way.to_data(entry.which_way), key=str),
        "held_by": hardware.to_data(entry.held_by),
        "condition": entry.condition,
        "fate": entry.fate.value if entry.fate is not Fate.REFIT else None,
        "goes_on": entry.goes_on,
        "note": entry.note,
        "container_id": entry.container_id,
        "container_wanted": tape.container_wanted,
        "side": entry.side.value if entry.side else None,
        "size": entry.size,
        "hazards": [hazard.value for hazard in entry.hazards],
        "kind": tape.kind.name if tape.kind else None,
    }
    return {key: value for key, value in fields.items() if value}


@pytest.mark.parametrize("case", LINES_GIVEN, ids=lambda case: case["line"][:60])
def test_a_line_becomes_the_entry_it_means(case):
    meant = {key: value for key, value in case.items() if key != "line" and value}
    if "which_way" in meant:
        meant["which_way"] = sorted(meant["which_way"], key=str)
    got = told(read_known(case["line"]))
    if case in GIVEN["lines"]:
        got.pop("kind", None)
    assert got == meant


def read_known(line, **how):
    return read(line, DATUM, BAGS, AREAS, KINDS, **how)


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
    if re.search(r", (?:castle )?(?:bolt|nut|screw)s? (?:M|\d)", line):
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


# --- against the outside


@pytest.mark.parametrize("thread", PUBLISHED["metric"]["pitches"])
def test_a_published_pitch_is_no_length(thread):
    (line,) = read(f"cover, 4 x {thread}", DATUM).entry.held_by
    assert (line.count, line.thread, line.length) == (4, thread, None)
    (line,) = read(f"cover, 4 x {thread}x40", DATUM).entry.held_by
    assert (line.count, line.thread, line.length) == (4, thread, 40.0)


@pytest.mark.parametrize("thread", PUBLISHED["inch"]["threads"])
def test_a_published_inch_thread_is_read_whole(thread):
    (line,) = read(f"bracket, 3 x {thread} x 1-1/4", DATUM).entry.held_by
    assert (line.count, line.thread, line.length, line.length_unit) == (3, thread, 1.25, "in")
    (line,) = read(f"bracket, {thread}", DATUM).entry.held_by
    assert (line.count, line.thread, line.length) == (None, thread, None)


@pytest.mark.parametrize(("said", "newton_metres"), PUBLISHED["torques"]["pairs"])
def test_a_torque_printed_in_two_units_is_one_torque(said, newton_metres):
    """Printed figures are rounded to the last digit shown; half a per cent covers it."""
    (line,) = read(f"flange, 4 x M10, {said}", DATUM).entry.held_by
    assert line.torque.newton_metres() == pytest.approx(newton_metres, rel=0.005)


@pytest.mark.parametrize(("said", "newton_metres"), PUBLISHED["torques"]["one"])
def test_one_of_each_unit_by_the_published_factor(said, newton_metres):
    (line,) = read(f"flange, 4 x M10, {said}", DATUM).entry.held_by
    assert line.torque.newton_metres() == pytest.approx(newton_metres, rel=1e-6)


@pytest.mark.parametrize(("said", "newton_metres", "unit"), PUBLISHED["torques"]["units"])
def test_a_torque_keeps_the_unit_it_is_given_in(said, newton_metres, unit):
    (line,) = read(f"flange, 4 x M10, {said}", DATUM).entry.held_by
    assert line.torque.unit == unit
    assert line.torque.newton_metres() == pytest.approx(newton_metres, rel=1e-6)


@pytest.mark.parametrize("grade", PUBLISHED["grades"]["as_marked"])
def test_a_published_class_is_the_grade(grade):
    for said in (grade, f"class {grade}"):
        if said == grade or grade[0].isdigit():
            (line,) = read(f"flange, 4 x M10x40, {said}", DATUM).entry.held_by
            assert (line.grade, line.note) == (grade, "")


@pytest.mark.parametrize("grade", PUBLISHED["grades"]["sae"])
def test_a_published_grade_is_the_grade(grade):
    for said in (f"grade {grade}", f"gr {grade}", f"Gr. {grade}"):
        (line,) = read(f"flange, 4 x 3/8-16 x 1, {said}", DATUM).entry.held_by
        assert line.grade == f"grade {grade}"


@pytest.mark.parametrize(("number", "dimensions"), PUBLISHED["sizes"]["bearings"].items())
def test_a_bearing_is_sized_by_its_number_or_its_dimensions(number, dimensions):
    for said, size in (
        (number, number),
        (f"{number} 2RS", f"{number} 2RS"),
        (f"{number}-2Z C3", f"{number} 2Z C3"),
        (dimensions, dimensions),
        (dimensions.replace("x", " x "), dimensions),
    ):
        alone, with_kinds = read(f"bearing {said}, bag 12", DATUM), read_known(f"bearing, {said}")
        assert (alone.entry.name, alone.entry.size) == ("bearing", size)
        assert (with_kinds.entry.name, with_kinds.entry.size) == ("bearing", size)


@pytest.mark.parametrize("size", PUBLISHED["sizes"]["o_rings"])
def test_an_o_ring_is_sized_by_bore_and_section(size):
    assert read_known(f"O-ring {size}").entry.size == size
    assert read(f"O-ring {size}", DATUM).entry.name == f"O-ring {size}"


# --- what must never go wrong


@pytest.mark.parametrize(
    "said",
    [
        "10 Nm", "10Nm", "10 N·m", "10 N.m", "10 N m", "10 nm", "10,0 Nm", "torque 10 Nm",
        "at 10 Nm", "tighten to 10 Nm", "10 newton metres", "@ 10 Nm", "(10 Nm)",
    ],
)  # fmt: skip
def test_newton_metres_as_people_write_them(said):
    (line,) = read(f"cover, 7 x M6x25, {said}", DATUM).entry.held_by
    assert line.torque == Torque(10.0)


@pytest.mark.parametrize(
    "said",
    ["8-10 Nm", "8 to 10 Nm", "-10 Nm", "0 Nm", "10 kNm", "10 cNm", "not 10 Nm", "10 Nm?",
     "10 Nm or 12 Nm", "8/10 Nm", "10 Nm then 20 Nm", "10 Nmm", "1.000.000 Nm"],
)  # fmt: skip
def test_a_torque_that_is_not_plain_is_kept_as_words_and_never_as_a_figure(said):
    entry = read(f"cover, 7 x M6x25, {said}", DATUM).entry
    (line,) = entry.held_by
    assert line.torque is None
    assert said.split(" ")[0] in f"{line.note} {entry.note}"


def test_a_torque_in_two_units_is_one_where_they_agree():
    (line,) = read("nut, 10 lb-ft (13.5 Nm)", DATUM).entry.held_by
    assert (str(line.torque), line.note) == ("10 lbf·ft", "13.5 Nm")
    (line,) = read("nut, 10 lb-ft (31.5 Nm)", DATUM).entry.held_by
    assert (line.torque, line.note) == (None, "torque 10 lb-ft, 31.5 Nm")


def test_a_torque_never_goes_to_another_thread():
    """Common practice: the figure after a fastener is that fastener's."""
    entry = read("lid, 4 x M8x35, 2 x M6x20, 10 Nm", DATUM).entry
    assert [line.torque for line in entry.held_by] == [None, Torque(10.0)]
    entry = read("lid, 4 x M8x35 25 Nm, 2 x M6x20", DATUM).entry
    assert [line.torque for line in entry.held_by] == [Torque(25.0), None]


@pytest.mark.parametrize("said", ["do not renew", "never scrap", "renew or refit", "not worn"])
def test_a_word_denied_or_doubted_is_kept_and_not_obeyed(said):
    entry = read(f"selector rod, {said}", DATUM).entry
    assert (entry.fate, entry.condition, entry.note) == (Fate.REFIT, "", said)


@pytest.mark.parametrize(
    "name",
    ["oil pump", "oil seal", "grease nipple", "check valve", "front bearing", "top gear",
     "flush plug", "inspection cover", "blue spring", "renewable filter", "left cover",
     "second gear", "2-stroke oil tank", "M6 insert", "bag of shims", "no. 2 jet", "O-ring 20 x 2",
     "6203 bearing", "2 x 4 mm dowel", "19 tooth sprocket", "hot plug", "I", "Ё",
     "fuel line to tank"],
)  # fmt: skip
def test_the_trades_words_inside_a_name_stay_in_it(name):
    tape = read(f"{name}, bag 12", DATUM, BAGS)
    assert told(tape) == {"name": name, "container_id": 112}


def test_fates_that_differ_are_left_to_decide():
    for line in ("gear, renew, scrap", "gear, scrap, renew"):
        entry = read(line, DATUM).entry
        assert entry.fate is Fate.DECIDE
        assert set(entry.note.split(", ")) == {"renew", "scrap"}


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
