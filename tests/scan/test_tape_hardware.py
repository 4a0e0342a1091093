"""A line of hardware as it is said is read back as the same line; and the words of it on tape."""

import json

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from bagtag.domain.hardware import Adapter, HeldBy, Length, Stretch, Torque, TorqueUnit
from bagtag.domain.model import Fate
from bagtag.domain.torque_pairs import mismatch
from bagtag.scan.tape import read
from tests.scan.tape_table import BAGS, DATUM, HERE, PUBLISHED, read_known

THREADS = (*PUBLISHED["metric"]["pitches"], *PUBLISHED["inch"]["threads"], "M6", "M8", "M10", "")
TORQUES = st.builds(
    Torque,
    st.floats(0.05, 5000).map(lambda value: float(f"{value:.4g}")),
    st.sampled_from(TorqueUnit),
)


def some(*words):
    return st.sampled_from(words)


def lengths(low, high):
    return st.builds(
        Length, st.integers(low * 4, high * 4).map(lambda quarters: quarters / 4), some("mm", "in")
    )


@st.composite
def tightened(draw):
    """Torque, the manual's second figure, the angle and the drag: without a torque none of them."""
    torque = draw(st.none() | TORQUES)
    if torque is None:
        return {}
    unit = draw(st.sampled_from([unit for unit in TorqueUnit if unit is not torque.unit]))
    second = torque.to(unit)
    also = Torque(float(f"{second.value:.4g}"), unit)
    assume(0.05 <= also.value <= 5000)
    return {
        "torque": torque,
        "also": draw(st.none() | st.just(also)),
        "angle": draw(st.none() | st.integers(1, 360).map(float) | some(22.5, 7.5)),
        "drag": draw(st.none() | TORQUES),
    }


@st.composite
def lines(draw):
    """Lines of hardware with all that can be said of them, but free notes."""
    low = draw(st.integers(1, 30)) / 100
    thread = draw(some(*THREADS))
    length = draw(st.none() | some(25.0, 35.5, 120.0)) if thread else None
    washer = draw(some("", "copper", "plain", "spring", "hardened", "plain and spring"))
    return HeldBy(
        count=draw(st.none() | st.integers(1, 60)),
        kind=draw(some("bolt", "screw", "nut", "stud", "fastener", "flange bolt", "cap screw")),
        thread=thread,
        length=length,
        length_unit=draw(some("mm", "in")) if length else "mm",
        drive=draw(some("", "8 mm hex", "5 mm allen", "T30", "9/16 AF", "1/2 in hex", "slot")),
        grade=draw(some("", "8.8", "10.9", "grade 5", "A2-70")),
        locking=draw(some("", "staked", "lock wired", "tab washer bent over", "split pin")),
        threadlocker=draw(some("", "medium", "high", "blue", "grade not given")),
        head=draw(some("", "flange", "hex flange", "pan", "countersunk", "twelve-point")),
        washer=washer,
        washers=draw(some(1, *((2, 3) if "and" not in washer else ())) if washer else some(0, 2)),
        lubrication=draw(some("", "oil", "dry", "engine oil", "moly paste", "copper grease")),
        one_time=draw(st.booleans()),
        stretch=draw(st.none() | some(Stretch(low, round(low + 0.02, 2)), Stretch(low, low, "in"))),
        adapter=draw(st.none() | st.builds(Adapter, lengths(1, 10), some(0.0, 30.0, 90.0, 180.0))),
        tool=draw(some("", "pin spanner", "puller 12", "hub holder")),
        **draw(tightened()),
    )  # fmt: skip


@given(lines())
def test_a_line_as_it_is_said_is_read_back_as_that_line(line):
    tape = read(f"cover, {line}, bag 12", DATUM, BAGS)
    assert tape.entry.held_by == (line,)
    assert (tape.entry.name, tape.entry.note, tape.entry.goes_on) == ("cover", "", "")
    assert (tape.entry.fate, tape.entry.container_id) == (Fate.REFIT, BAGS["bag 12"])


# --- figures printed twice, in public manuals: check_values/torque.json names each

PAIRS = json.loads((HERE.parent / "check_values" / "torque.json").read_text("utf-8"))


def printed(row):
    first, second = (Torque(value, TorqueUnit(unit)) for value, unit in row.values())
    return first, second


def pairs(*kinds):
    rows = [row for kind in kinds for row in PAIRS[kind]]
    return [printed({key: row[key] for key in ("first", "second")}) for row in rows]


@pytest.mark.parametrize(
    ("first", "second"), pairs("pairs_right", "pairs_within_rounding"), ids=str
)
def test_a_printed_pair_that_agrees_is_one_torque_and_its_second_figure(first, second):
    for said in (f"{first} ({second})", f"{first} / {second}", f"{first} = {second}"):
        (line,) = read(f"flange, 4 x M10, {said}", DATUM).entry.held_by
        assert (line.torque, line.also, line.note) == (first, second, "")
        assert mismatch(first, second) == ""


@pytest.mark.parametrize(("first", "second"), pairs("pairs_wrong"), ids=str)
def test_a_misprinted_pair_is_kept_whole_and_never_passes_unseen(first, second):
    """Near enough to be one torque it is asked about; else no figure is taken and both stay."""
    entry = read(f"flange, 4 x M10, {first} ({second})", DATUM).entry
    (line,) = entry.held_by
    if line.torque is None:
        assert (line.also, line.note) == (None, f"torque {first}, {second}")
        figures = first.newton_metres(), second.newton_metres()
        assert max(figures) > 1.03 * min(figures)
    else:
        assert (line.torque, line.also) == (first, second)
        assert "do not agree" in mismatch(line.torque, line.also)


# --- as people write it: common practice, no source


ON_TAPE = {
    "8 bolts M8x30, 30 Nm 90 deg": "8 bolts M8x30, 30 N·m + 90°",
    "8 bolts M8x30 30 Nm + 90 deg oiled": "8 bolts M8x30, threads oil, 30 N·m + 90°",
    "8 bolts M8x30 30 Nm 90° one-time": "8 bolts M8x30, 30 N·m + 90°, new each time",
    "8 bolts M8x30, 30 Nm, then 90°": "8 bolts M8x30, 30 N·m + 90°",
    "8 bolts M8x30, 30 Nm + 1/4 turn": "8 bolts M8x30, 30 N·m + 90°",
    "8 bolts M8x30 30 Nm plus half a turn": "8 bolts M8x30, 30 N·m + 180°",
    "8 bolts M8x30, 30 N·m + 30° + 60°": "8 bolts M8x30, 30 N·m + 90°, in steps of 30° + 60°",
    "8 bolts M8x30, 30 Nm, +45°, +45°": "8 bolts M8x30, 30 N·m + 90°, in steps of 45° + 45°",
    "8 bolts M8x30, 39 lb-ft (53 Nm) + 90°": "8 bolts M8x30, 39 lbf·ft (53 N·m) + 90°",
    "8 bolts M8x30, 39 lb-ft / 53 Nm": "8 bolts M8x30, 39 lbf·ft (53 N·m)",
    "2 rod bolts M8x1, stretch .006 in": "2 rod bolts M8x1, stretch 0.006 in",
    "2 rod bolts M8x1, 0.13-0.15 mm stretch": "2 rod bolts M8x1, stretch 0.13 to 0.15 mm",
    "8 bolts M8x30 oiled, 25 Nm": "8 bolts M8x30, threads oil, 25 N·m",
    "8 bolts M8x30, oil on the threads": "8 bolts M8x30, threads oil",
    "8 bolts M8x30, bolts dry": "8 bolts M8x30, threads dry",
    "8 bolts M8x30, lightly oiled threads": "8 bolts M8x30, threads light oil",
    "4 nuts M8, 4 washers": "4 nuts M8, washer",
    "4 nuts M8 with 8 plain washers": "4 nuts M8, 2 plain washers each",
    "1 bolt M10x1, 2 copper washers, 20 Nm": "1 bolt M10x1, 2 copper washers, 20 N·m",
    "6 screws M6x16 + spring washers": "6 screws M6x16, spring washer",
    "6 screws M6x16, plain washer, spring washer": "6 screws M6x16, plain and spring washer",
    "4 one-time bolts M10x80, 40 Nm": "4 bolts M10x80, 40 N·m, new each time",
    "4 bolts M10x80 one-time, 40 Nm": "4 bolts M10x80, 40 N·m, new each time",
    "4 bolts M10x80, new bolts every time": "4 bolts M10x80, new each time",
    "4 bolts M10x80, do not reuse bolts": "4 bolts M10x80, new each time",
    "4 bolts M10x80, 40 Nm, TTY": "4 bolts M10x80, 40 N·m, torque to yield",
    "1 nut M20x1.5, 80 Nm, 50 mm crowfoot": "1 nut M20x1.5, 80 N·m, adapter 50 mm",
    "1 nut M20x1.5, 80 Nm, adapter: 2 in at 90 deg": "1 nut M20x1.5, 80 N·m, adapter 2 in at 90°",
    "1 nut M8, 12 Nm, prevailing torque 2 Nm": "1 nut M8, 12 N·m, drag 2 N·m",
    "1 nut M8, 12 Nm + 2 Nm drag": "1 nut M8, 12 N·m, drag 2 N·m",
    "1 nut M20x1.5, special tool hub holder": "1 nut M20x1.5, tool: hub holder",
    "8 bolts, M6x30, 8.8": "8 bolts M6x30, 8.8",
    "2 bolts M8 x 1.25 in": "2 bolts M8 x 1.25 in",
    "4 bolts 1/4-20 x 25 mm": "4 bolts 1/4-20 x 25 mm",
    "8 bolts M8-1.25 x 30 10.9, 25 Nm": "8 bolts M8x1.25x30, 10.9, 25 N·m",
    "4 bolts 5/16-18x3/4 Gr5 w/ lock washers": "4 bolts 5/16-18 x 0.75 in, grade 5, lock washer",
    "8 x No.10-24 x 5/8, 30 in lb": "8 fasteners No.10-24 x 0.625 in, 30 lbf·in",
    "4 capscrews M6x20": "4 capscrews M6x20",
    "3 csk M6x16 T30": "3 csk screws M6x16, T30",
    "5 x M6x20 stainless A2-70 socket head": "5 fasteners M6x20, A2-70, socket head",
    "pinch bolt M6x25 8.8 10 Nm": "1 pinch bolt M6x25, 8.8, 10 N·m",
    "banjo bolt M12x1.5, new copper washers": "1 banjo bolt M12x1.5, new copper washer",
    "1 nut M20x1.5 LH, 80 Nm": "1 nut M20x1.5, 80 N·m, left-hand thread",
    "1 castle nut M12x1.25, new split pin": "1 castle nut M12x1.25, new split pin",
    "2 bolts M8x85, 24 N.m (2.4 kgf.m, 18 lbf.ft)": (
        "2 bolts M8x85, 24 N·m (2.4 kgf·m), 18 lbf.ft"
    ),
    "4 bolts 3/8-16 x 1 G8, 44 lbf-ft": "4 bolts 3/8-16 x 1 in, grade 8, 44 lbf·ft",
    "3 bolts M8x25, 22 Nm with a 50 mm crowfoot": "3 bolts M8x25, 22 N·m, adapter 50 mm",
    "8 bolts 5/8-11 x 3, 150 lbf·ft lubricated": (
        "8 bolts 5/8-11 x 3 in, threads lubricated, 150 lbf·ft"
    ),
}  # fmt: skip


@pytest.mark.parametrize(("said", "meant"), ON_TAPE.items())
def test_hardware_as_people_write_it(said, meant):
    entry = read(f"cover, {said}", DATUM).entry
    assert [str(line) for line in entry.held_by] == [meant]
    assert (entry.name, entry.note, entry.goes_on, entry.fate) == ("cover", "", "", Fate.REFIT)


@pytest.mark.parametrize("said", ["M20x1.5 LH nut", "1 x M10 left hand bolt"])
def test_a_left_hand_thread_is_kept_whatever_is_said_behind_it(said):
    (line,) = read(f"blade, {said}, 45 Nm", DATUM).entry.held_by
    assert "left-hand thread" in str(line)


def test_a_comma_that_may_be_of_thousands_is_not_taken_for_a_torque():
    entry = read("cover, 4 x M8x30, 1,200 lbf·in", DATUM).entry
    assert entry.held_by[0].torque is None
    assert "1,200 lbf·in" in f"{entry.note}, {entry.held_by[0].note}"
    small = read("cover, 4 x M4x10, 0,125 kgf·m", DATUM).entry
    assert small.held_by[0].torque == Torque(0.125, TorqueUnit.KILOGRAM_METRE)


@pytest.mark.parametrize("said", ["missing bolt M8x40", "sheared bolt M8x40", "held by nut M8x1"])
def test_what_is_wrong_with_a_fastener_is_not_swallowed_by_its_kind(said):
    entry = read(f"cover, {said}", DATUM).entry
    assert said in entry.note


@pytest.mark.parametrize(
    "said",
    ["30 Nm + 400°", "30 Nm, 3 plain washers", "30 Nm, stretch 0.15 to 0.13 mm",
     "30 Nm, stretch 0 mm",
     "30 Nm, adapter 5 m", "30 Nm, adapter 50 mm at 200°", "30 Nm, drag 0 Nm", "not oiled, 30 Nm",
     "30 Nm, threads not oiled", "30 Nm, adapter 50 mm, adapter 60 mm"],
)  # fmt: skip
def test_what_cannot_be_is_kept_as_words(said):
    entry = read(f"cover, 4 x M8x30, {said}", DATUM).entry
    (line,) = entry.held_by
    assert line.torque == Torque(30.0)
    assert (line.angle, line.stretch, line.adapter, line.drag) == (None,) * 4
    assert (line.washers, line.lubrication) == (0, "")
    kept = f"{line.note}, {entry.note}"
    words = [word.strip(",") for word in said.split()]
    assert [word for word in words if word not in ("30", "Nm", "+")][-1] in kept


@pytest.mark.parametrize(
    "name",
    ["copper washer", "2 copper washers", "adapter 50 mm", "one-time bolts", "special tool 12",
     "thrust washer", "elbow, 90°", "washer head", "oiled felt", "drag link", "stretch film"],
)  # fmt: skip
def test_the_words_of_hardware_are_a_name_where_there_is_no_fastener(name):
    entry = read(f"{name}, bag 12", DATUM, BAGS).entry
    assert entry.held_by == ()
    assert ", ".join(filter(None, (entry.name, entry.note))) in (name, name.removeprefix("2 "))


def test_a_washer_or_an_adapter_beside_a_fastener_may_still_be_the_part():
    for name in ("copper washer", "adapter 50 mm"):
        entry = read(f"{name}, 1 x M10x25, bag 12", DATUM, BAGS).entry
        assert (entry.name, [line.washers for line in entry.held_by]) == (name, [0])


def test_new_each_time_without_a_fastener_is_said_of_the_part():
    entry = read("cover gasket, new each time", DATUM).entry
    assert (entry.fate, entry.held_by, entry.note) == (Fate.RENEW, (), "")
    entry = read("cover, new bolts each time", DATUM).entry
    assert (entry.fate, [str(line) for line in entry.held_by]) == (
        Fate.REFIT,
        ["? fasteners, new each time"],
    )


def test_bolts_that_are_the_part_and_used_once_are_renewed_and_said_to_be_new():
    entry = read_known("head bolts M10x120, 10 off, one-time, 40 Nm").entry
    assert (entry.fate, entry.quantity) == (Fate.RENEW, 10)
    assert [line.one_time for line in entry.held_by] == [True]
    entry = read_known("cover gasket, one-time, 4 x M6x20").entry
    assert (entry.fate, [line.one_time for line in entry.held_by]) == (Fate.RENEW, [False])


def test_oil_on_the_threads_of_a_part_without_a_fastener_goes_on_it():
    entry = read("spark plug, anti-seize on the threads", DATUM).entry
    assert (entry.goes_on, entry.held_by) == ("anti-seize on the threads", ())


def test_what_is_said_of_one_fastener_is_not_said_of_another():
    entry = read("lid, 4 x M8x35 25 Nm + 90°, 2 x M6x20 10 Nm oiled", DATUM).entry
    assert [str(line) for line in entry.held_by] == [
        "4 fasteners M8x35, 25 N·m + 90°",
        "2 fasteners M6x20, threads oil, 10 N·m",
    ]


def test_a_word_said_over_and_over_is_still_read():
    """Each of them could once be read in two ways, and sixty in more than one lives to see."""
    entry = read(f"cover, 4 x M8, {'then ' * 60}10 Nm", DATUM).entry
    assert [line.torque for line in entry.held_by] == [Torque(10.0)]
