"""The masking-tape line against published figures; and what it must never get wrong."""

import pytest

from bagtag.domain.hardware import Torque
from bagtag.domain.model import Fate
from bagtag.scan.tape import read
from tests.scan.tape_table import (
    BAGS,
    DATUM,
    PUBLISHED,
    read_known,
    told,
)

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
    assert (str(line.torque), str(line.also), line.note) == ("10 lbf·ft", "13.5 N·m", "")
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
