"""What turns a fastener: by its drive as written, else by its thread and head."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.tools import ToolKind
from bagtag.domain.tools_turning import grip_of
from tests.domain.tools_kit import THREADS, names, told, work


def tool(*, torque=None, **line) -> str:
    """The one tool for a line of hardware."""
    found = told(work(1, HeldBy(torque=torque and Torque(torque), **line)))
    turning = [
        r.name for r in found.rows if r.kind in (ToolKind.SOCKET, ToolKind.KEY, ToolKind.OTHER)
    ]
    assert len(turning) <= 1
    return turning[0] if turning else ""


@pytest.mark.parametrize(
    ("drive", "name"),
    [
        ("10 mm hex", "10 mm socket or spanner"),
        ("10 mm hex head", "10 mm socket or spanner"),
        ("8mm head", "8 mm socket or spanner"),
        ("12 mm hex nut", "12 mm socket or spanner"),
        ("17 mm", "17 mm socket or spanner"),
        ("17 mm socket", "17 mm socket or spanner"),
        ("17 mm spanner", "17 mm spanner"),
        ("13 mm AF", "13 mm socket or spanner"),
        ("9/16 AF", "9/16 in socket or spanner"),
        ("1-1/8 in hex", "1-1/8 in socket or spanner"),
        ("5,5 mm hex", "5.5 mm socket or spanner"),
        ("12-point 14 mm", "14 mm 12-point socket or ring spanner"),
        ("5 mm allen", "5 mm hexagon key"),
        ("5 mm allen key", "5 mm hexagon key"),
        ("Allen 6", "6 mm hexagon key"),
        ("hex 6", "6 mm hexagon key"),
        ("8 mm hex key", "8 mm hexagon key"),
        ("8 mm hex socket", "8 mm hexagon key"),
        ("3/16 allen", "3/16 in hexagon key"),
        ("T30", "T30 bit"),
        ("TX 30", "T30 bit"),
        ("E10", "E10 socket"),
        ("PH2", "PH2 cross-head screwdriver"),
        ("PZ 1", "PZ1 cross-head screwdriver"),
        ("JIS 2", "JIS 2 cross-head screwdriver"),
        ("JIS no. 2", "JIS 2 cross-head screwdriver"),
        ("cross", "cross-head screwdriver"),
        ("cross-head 2", "no. 2 cross-head screwdriver"),
        ("slot", "slotted screwdriver"),
        ("slotted", "slotted screwdriver"),
        ("8 mm square", "8 mm square key"),
        ("slotted, 8 mm head", "8 mm socket or spanner"),
        ("pin spanner", "pin spanner"),
        ("two-pin nut tool", "two-pin nut tool"),
    ],
)
def test_the_drive_as_a_person_writes_it(drive, name):
    assert tool(kind="screw", drive=drive) == name


def test_a_torque_wants_a_tool_that_the_wrench_can_drive():
    assert tool(drive="10 mm hex", torque=10) == "10 mm socket"
    assert tool(drive="5 mm allen", torque=10) == "5 mm hexagon bit for the wrench"
    assert tool(drive="T30", torque=10) == "T30 bit for the wrench"


def test_hex_alone_is_the_outside_of_the_head_unless_the_thread_or_the_head_says_otherwise():
    assert tool(thread="M5", drive="8 mm hex") == "8 mm socket or spanner"
    assert tool(thread="M10", drive="8 mm hex") == "8 mm hexagon key"
    assert tool(thread="M6", head="socket", drive="6 mm hex") == "6 mm hexagon key"
    assert tool(thread="M6", kind="cap screw", drive="5 mm hex") == "5 mm hexagon key"
    assert tool(thread="M10", drive="8 mm hex head") == "8 mm socket or spanner"


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ({"thread": "M8"}, "13 mm socket or spanner"),
        ({"thread": "M8x1", "kind": "nut"}, "13 mm socket or spanner"),
        ({"thread": "M8", "drive": "hex"}, "13 mm socket or spanner"),
        ({"thread": "M8", "kind": "screw", "head": "hex"}, "13 mm socket or spanner"),
        ({"thread": "M8", "kind": "stud"}, "13 mm socket or spanner"),
        ({"thread": "3/8-16"}, "9/16 in socket or spanner"),
        ({"thread": "M8", "kind": "screw", "head": "socket"}, "6 mm hexagon key"),
        ({"thread": "M8", "kind": "cap screw"}, "6 mm hexagon key"),
        ({"thread": "M8", "kind": "screw", "drive": "allen"}, "6 mm hexagon key"),
        # ISO 10642 and ISO 4026, from memory
        ({"thread": "M8", "kind": "screw", "head": "countersunk socket"}, "5 mm hexagon key"),
        ({"thread": "M8", "kind": "grub screw"}, "4 mm hexagon key"),
        ({"thread": "M8", "kind": "screw"}, ""),
        ({"thread": "M8", "kind": "screw", "head": "countersunk"}, ""),
        ({"thread": "M8", "kind": "plug"}, ""),
        ({"thread": "M9.5"}, ""),
        ({}, ""),
    ],
)
def test_without_a_drive_the_usual_head_of_the_thread_is_likely(line, name):
    assert tool(**line) == name
    found = told(work(1, HeldBy(**line)))
    assert all(row.is_likely for row in found.rows)
    assert bool(found.unknown) is not bool(name)


def test_a_second_size_is_named_where_two_are_met():
    """M10: 16 mm as ISO 4014, 17 mm as DIN 931."""
    row = told(work(1, HeldBy(thread="M10"))).rows[0]
    assert (row.name, row.notes) == (
        "16 mm socket or spanner",
        ("Take 17 mm too: both are met on M10.",),
    )


def test_a_full_build_of_a_small_engine():
    """Sockets 8 to 19 mm and one large one (36 mm), hexagon keys 5, 6, 8, 10 mm and a T30 driver:
    common practice, no source. M12 nuts of 19 mm are written; the rest follows from the threads."""
    bolts = [HeldBy(thread=f"M{d}") for d in (5, 6, 8, 10, 24)]
    screws = [HeldBy(thread=f"M{d}", kind="screw", head="socket") for d in (6, 8, 10, 12)]
    other = [HeldBy(thread="M12", drive="19 mm hex"), HeldBy(kind="screw", drive="T30")]
    assert names(told(work(1, *bolts, *screws, *other))) == [
        "8 mm socket or spanner",
        "10 mm socket or spanner",
        "13 mm socket or spanner",
        "16 mm socket or spanner",
        "19 mm socket or spanner",
        "36 mm socket or spanner",
        "5 mm hexagon key",
        "6 mm hexagon key",
        "8 mm hexagon key",
        "10 mm hexagon key",
        "T30 bit",
    ]


def test_one_size_is_one_tool_with_every_step_that_needs_it():
    short, long_ = HeldBy(4, thread="M6", length=20), HeldBy(2, thread="M6", drive="10 mm hex")
    found = told(work(3, short), work(5, long_, short))
    (row,) = found.rows
    assert (row.name, row.places, row.is_likely) == ("10 mm socket or spanner", (3, 5), False)
    assert [step.what for step in row.steps] == ["4 bolts M6x20", "2 bolts M6", "4 bolts M6x20"]


def test_fasteners_that_nothing_tells_a_tool_for_are_named():
    found = told(work(2, HeldBy(3, "screw", "M5"), HeldBy(2, "dowel"), HeldBy(1, "circlip")))
    assert [step.what for step in found.unknown] == ["3 screws M5"]
    assert names(found) == ["circlip pliers"]


def test_fasteners_that_never_came_need_no_tool():
    assert told(work(1, HeldBy(0, thread="M8"))).rows == ()


words = st.text('abehlmnostx TEPHZ0123456789/,.-°"', max_size=18)


@given(words, st.sampled_from(["bolt", "screw", "nut", "stud", "cap screw", "plug"]), words)
def test_whatever_is_written_a_line_has_a_tool_or_is_named_as_unknown(drive, kind, thread):
    line = HeldBy(kind=kind, drive=drive, thread=thread)
    found = told(work(1, line))
    grip = grip_of(line, THREADS)
    assert (grip is None) == bool(found.unknown)
    assert all(row.name == row.name.strip() and row.name for row in found.rows)
