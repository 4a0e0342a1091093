"""What is asked of a torque: never of published ones, always of the usual slips."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from torque_kit import LBFT, LBIN, THREADS, N, published, torque

from bagtag.domain.hardware import HeldBy, Torque, TorqueUnit
from bagtag.domain.sense import questions, sense, unknown_thread
from bagtag.domain.torque_pairs import mismatch

STRENGTH, PAIRS = published("strength"), published("torque")
TENSION = STRENGTH["torque_tension"]


def table_line(row, at=2, **more):
    value = Torque(row["expected"][at], TorqueUnit(row["unit"]))
    return HeldBy(4, "bolt", row["thread"], grade=row["grade"], torque=value, **more)


def ids(row):
    return f"{row.get('thread', '')} {row.get('grade', '')}".strip()


def asked(line):
    return questions(line, THREADS)


tension = pytest.mark.parametrize("row", TENSION, ids=ids)


@tension
@pytest.mark.parametrize(("at", "on"), [(0, ""), (1, "oil"), (2, "dry"), (2, ""), (0, "plated")])
def test_no_published_torque_is_asked_about(row, at, on):
    """SAE J429 torque and tension table, each at the friction its column is for."""
    line = table_line(row, at, lubrication=on)
    assert asked(line) == ()
    assert asked(replace(line, grade="")) == ()


@pytest.mark.parametrize("row", STRENGTH["aircraft_lbf_in"], ids=ids)
def test_no_torque_of_the_aircraft_table_is_asked_about(row):
    """AC 43.13-1B, Table 7-1, whose bolts have no grade there."""
    figures = row["expected"]
    values = [*figures["tension_nut"], *figures["shear_nut"], figures["max_tension"]]
    for value in values:
        line = HeldBy(4, "bolt", row["thread"], torque=Torque(value, LBIN))
        assert sense(line, THREADS) is not None
        assert asked(line) == ()


@tension
def test_a_lost_or_misplaced_decimal_point_is_asked_with_the_figure_meant(row):
    right = table_line(row, lubrication="dry")
    for by in (10, 0.1):
        value = round(right.torque.value * by, 6)
        (question,) = asked(replace(right, torque=Torque(value, right.torque.unit)))
        assert f"{right.torque} would be about 7" in question
        assert "decimal point" in question


@tension
def test_the_inches_figure_taken_for_feet_is_asked_as_such(row):
    """And the other way round; the torque is told in the unit it was typed in."""
    right = table_line(row, lubrication="dry").torque.to(LBIN)
    slip = Torque(round(right.value, 3), LBFT)
    (question,) = asked(replace(table_line(row, lubrication="dry"), torque=slip))
    assert "was lbf·in meant, not lbf·ft?" in question
    assert question.endswith("Keep it if the manual says so.")


@pytest.mark.parametrize("row", [row for row in TENSION if row["unit"] == "lbf·ft"], ids=ids)
def test_a_newton_metre_figure_typed_as_foot_pounds_is_asked(row):
    right = table_line(row, lubrication="dry")
    slip = Torque(round(right.torque.newton_metres()), LBFT)
    (question,) = asked(replace(right, torque=slip))
    assert "was N·m meant, not lbf·ft?" in question


def test_a_foot_pound_figure_typed_as_newton_metres_cannot_be_told_by_the_bolt_alone():
    """It is a quarter too low, within what manuals ask for; a second printed figure tells it."""
    line = table_line(TENSION[6], lubrication="dry")
    slip = replace(line, torque=Torque(line.torque.value, N))
    assert asked(slip) == ()
    (question,) = asked(replace(slip, also=line.torque))
    assert "do not agree" in question


def test_without_a_class_only_what_no_class_bears_is_asked():
    line = HeldBy(4, "bolt", "M8", torque=Torque(60))
    assert asked(line) == ()
    assert asked(replace(line, grade="8.8")) != ()
    (question,) = asked(replace(line, torque=Torque(250)))
    assert "more than even class 12.9 bears" in question
    (question,) = asked(replace(line, torque=Torque(0.25)))
    assert (
        "25 N·m would be about 74 % of the proof load, were it class 8.8: is the decimal"
        in question
    )


def test_where_two_printed_figures_agree_the_unit_is_not_doubted():
    line = HeldBy(4, "bolt", "M8", grade="8.8", torque=Torque(250), also=Torque(184, LBFT))
    (question,) = asked(line)
    assert "meant" not in question
    assert "the thread and the class" in question


def test_a_torque_before_an_angle_may_be_small():
    line = HeldBy(4, "bolt", "M10", grade="10.9", torque=Torque(5))
    assert asked(line) != ()
    assert asked(replace(line, angle=90)) == ()
    assert asked(replace(line, note="then 90°")) == ()


@pytest.mark.parametrize(
    "line",
    [
        HeldBy(1, "plug", "M18x1.5", grade="8.8", torque=Torque(30)),
        HeldBy(1, "spark plug", "M14x1.25", grade="8.8", torque=Torque(15)),
        HeldBy(1, "bolt", "M14x1.5", grade="8.8", torque=Torque(18), washer="copper", washers=2),
        HeldBy(1, "banjo bolt", "M16x1.5", grade="10.9", torque=Torque(25)),
        HeldBy(2, "set screw", "M10", grade="12.9", torque=Torque(10)),
    ],
    ids=lambda line: f"{line.kind} {line.thread}",
)
def test_what_seals_or_points_is_not_asked_to_clamp(line):
    """Common practice, no source; the same figure on a bolt that clamps is asked about, and so is
    one of a hundredth."""
    assert asked(line) == ()
    assert asked(replace(line, kind="bolt", washer="")) != ()
    assert asked(replace(line, torque=Torque(line.torque.value / 100))) != ()


def test_a_plug_without_a_class_is_asked_about_before_it_breaks():
    """Common practice, no source: an M14 spark plug takes about 25 N·m, a drain plug up to 80."""
    (question,) = asked(HeldBy(1, "spark plug", "M14x1.25", torque=Torque(250)))
    assert question.startswith("250 N·m is much for a spark plug M14x1.25, even of class 5.8.")
    assert "25 N·m would be about 1" in question
    assert asked(HeldBy(1, "drain plug", "M14x1.5", torque=Torque(400))) != ()
    for kind, thread, value in (
        ("spark plug", "M14x1.25", 40), ("drain plug", "M14x1.5", 80), ("banjo bolt", "M10x1", 40),
        ("plug", "M24x1.5", 120), ("oxygen sensor", "M18x1.5", 55),
    ):  # fmt: skip
        assert asked(HeldBy(1, kind, thread, torque=Torque(value))) == ()


@pytest.mark.parametrize(
    "line",
    [
        HeldBy(4, "stud", "M8", grade="8.8", torque=Torque(20)),
        HeldBy(4, "nut", "M10", grade="8", torque=Torque(45)),
        HeldBy(4, "wheel nut", "M12x1.5", grade="10", torque=Torque(110)),
        HeldBy(3, "screw", "M5", grade="A2-70", torque=Torque(4)),
        HeldBy(1, "plug", "M14x1.5", torque=Torque(25), washer="copper"),
        HeldBy(8, "bolt", "M6", grade="8.8", torque=Torque(7), note="into aluminium"),
        HeldBy(2, "bolt", "M8x1", grade="12.9", torque=Torque(25), angle=90, one_time=True),
        HeldBy(1, "nut", "M24x1.5", torque=Torque(180)),
        HeldBy(4, "screw", "#10-32", torque=Torque(25, LBIN)),
    ],
    ids=lambda line: f"{line.kind} {line.thread}",
)
def test_usual_torques_of_the_bench_are_not_asked_about(line):
    """Common practice, no source."""
    assert asked(line) == ()


def test_what_a_line_means_and_what_was_assumed():
    line = HeldBy(4, "bolt", "M8", grade="8.8", torque=Torque(25), lubrication="oil")
    found = sense(line, THREADS)
    assert found.assumed == ("class 8.8", "oiled threads: K from 0.14 to 0.22")
    assert found.clamp_low < found.clamp_usual < found.clamp_high
    bare = sense(HeldBy(thread="M8", torque=Torque(25)), THREADS)
    assert bare.strength is None
    assert bare.share_low < found.share_low < found.share_high < bare.share_high
    assert "proof" not in bare.said
    locked = sense(replace(line, lubrication="", threadlocker="medium"), THREADS)
    assert locked.friction is found.friction


@pytest.mark.parametrize(
    "line",
    [
        HeldBy(4, "bolt", "M8"),
        HeldBy(4, "bolt", "", torque=Torque(10)),
        HeldBy(4, "bolt", "M8", torque=Torque(0)),
    ],
)
def test_nothing_is_said_of_what_is_not_there(line):
    assert sense(line, THREADS) is None
    assert asked(line) == ()


def test_an_unknown_thread_says_what_to_write():
    assert unknown_thread("M8", THREADS) == unknown_thread(" ", THREADS) == ""
    assert unknown_thread("M8x1.5", THREADS) == (
        "M8x1.5 is no known thread; of that size there are M8, M8x1, M8x0.75."
    )
    assert "M8 or M8x1, inch ones 3/8-16" in unknown_thread("eight", THREADS)
    line = HeldBy(4, "bolt", "3/8-18", torque=Torque(30))
    (question,) = asked(line)
    assert "3/8-16 UNC, 3/8-24 UNF" in question


@pytest.mark.parametrize("thread", ["M30", "1/4 BSP", "G 1/4", "1/8-27 NPT", "1-1/8-12"])
def test_threads_of_other_kinds_are_no_slip(thread):
    assert asked(HeldBy(1, "plug", thread, torque=Torque(30))) == ()
    assert "cannot be checked" in unknown_thread(thread, THREADS)


def test_drag_above_the_torque_is_asked():
    line = HeldBy(4, "nut", "M8", torque=Torque(20), drag=Torque(30))
    (question,) = asked(line)
    assert question.startswith("The drag of 30 N·m is more than the torque of 20 N·m")
    assert asked(replace(line, drag=Torque(30, LBIN))) == ()


@pytest.mark.parametrize(
    "words", [{"note": "torque to yield"}, {"kind": "TTY bolt"}, {"kind": "stretch bolt"}]
)
def test_yield_bolts_that_are_not_new_each_time_are_asked_about(words):
    line = HeldBy(10, thread="M10", torque=Torque(40), **words)
    (question,) = asked(line)
    assert "not used again" in question
    assert asked(replace(line, one_time=True)) == ()


@given(
    st.sampled_from(THREADS.names()),
    st.floats(0.01, 1e5),
    st.sampled_from(TorqueUnit),
    st.sampled_from(["", "8.8", "grade 5", "brass"]),
    st.sampled_from(["", "oil", "dry"]),
)
def test_whatever_is_typed_is_answered_in_a_sentence_or_two(thread, value, unit, grade, on):
    line = HeldBy(4, "bolt", thread, torque=Torque(value, unit), grade=grade, lubrication=on)
    for question in asked(line):
        assert question[0] != " "
        assert question.endswith(".")
        assert "  " not in question
    assert sense(line, THREADS).share_low <= sense(line, THREADS).share_high


# --- pairs of printed figures


@pytest.mark.parametrize("row", PAIRS["pairs_wrong"], ids=lambda row: str(row["first"]))
def test_printed_pairs_that_do_not_convert_are_noticed(row):
    said = mismatch(torque(row["first"]), torque(row["second"]))
    assert said.startswith(f"{torque(row['first'])} and {torque(row['second'])} do not agree")
    assert ("taken as 10 N" in said) == row.get("ten_newtons", False)
    assert mismatch(torque(row["second"]), torque(row["first"])) != ""


@pytest.mark.parametrize("row", PAIRS["pairs_right"], ids=lambda row: str(row["first"]))
def test_printed_pairs_that_convert_are_left_alone(row):
    assert mismatch(torque(row["first"]), torque(row["second"])) == ""
    assert mismatch(torque(row["second"]), torque(row["first"])) == ""


@pytest.mark.parametrize("row", PAIRS["pairs_within_rounding"], ids=lambda row: str(row["first"]))
def test_pairs_that_one_way_round_are_only_rounded_are_left_alone(row):
    """21 lbf·ft are 28.47 N·m and not 29; but 29 N·m are 21.4 lbf·ft, printed as 21."""
    assert mismatch(torque(row["first"]), torque(row["second"])) == ""


@given(
    st.integers(1, 5000), st.sampled_from(TorqueUnit), st.sampled_from(TorqueUnit),
    st.integers(0, 2),
)  # fmt: skip
def test_a_figure_and_its_own_rounding_always_agree(value, unit, other, places):
    exact = Torque(value, unit).to(other)
    printed = Torque(round(exact.value, places), other)
    if printed.value > 0:
        assert mismatch(Torque(value, unit), printed) == ""
    assert mismatch(Torque(value, unit), None) == ""
