"""The audit of what parts share: fasteners, containers, areas, and what they say together."""

from dataclasses import replace

import pytest
from audit_cases import BAGS, DATUM, job, part

from bagtag.domain.audit import Lack, audit, tally
from bagtag.domain.datum import Side
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import Area, Fate
from bagtag.domain.which_way import Faces, Hand, MatchMark, Without

TEN = Torque(10)


def lacks(parts, lack, **fields):
    return [one for one in audit(job(parts, **fields)) if one.lack is lack]


def held(*lines, name="gear", **fields):
    return [part(1, name, held_by=lines, **fields)]


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        (HeldBy(4, "bolt", "M6", 30), True),
        (HeldBy(4, "cap screws", "M6"), True),
        (HeldBy(4, "self-locking nut"), True),
        (HeldBy(4, "stud", "M8"), True),
        (HeldBy(1, "drain plug", "M14x1.5"), True),
        (HeldBy(1, "core plug"), False),
        (HeldBy(1, "", "M6"), True),
        (HeldBy(1, "fastener"), False),
        (HeldBy(1, "circlip"), False),
        (HeldBy(1, "split pin"), False),
        (HeldBy(4, "bolt", torque=TEN), False),
        (HeldBy(4, "bolt", note="hand tight"), False),
        (HeldBy(4, "nut", locking="Finger-tight, then staked"), False),
        (HeldBy(4, "bolt", note="no torque given"), False),
    ],
    ids=str,
)
def test_which_fasteners_need_a_torque(line, wanted):
    assert bool(lacks(held(line), Lack.TORQUE)) is wanted


def test_a_fastener_that_is_the_part_itself_needs_one_too():
    (one,) = lacks([part(1, "head bolt")], Lack.TORQUE)
    assert one.sentence.startswith("Look up the torque of this fastener in the maker's manual")
    assert not lacks(held(HeldBy(1, "", torque=TEN), name="head bolt"), Lack.TORQUE)
    assert not lacks(held(HeldBy(1, "washer", note="hand tight"), name="head bolt"), Lack.TORQUE)
    assert not lacks([part(1, "head bolt", note="Hand tight.")], Lack.TORQUE)


def test_a_part_is_named_once_whatever_number_of_its_lines_lack_something():
    lines = [HeldBy(None, "bolt", "M6", 30), HeldBy(None, "nut", "M8"), HeldBy(2, "stud", "M8")]
    (count,) = lacks(held(*lines), Lack.COUNT)
    (torque,) = lacks(held(*lines), Lack.TORQUE)
    assert count.sentence == "Count the bolts M6x30 and nuts M8."
    assert "bolts M6x30, nuts M8 and 2 studs M8 in the maker's manual" in torque.sentence


@pytest.mark.parametrize("fate", [Fate.RENEW, Fate.DECIDE, Fate.SCRAP])
def test_parts_to_renew_or_inspect_lie_apart_from_parts_that_go_back(fate):
    """ "Parts to be renewed" and "parts for further inspection" in "separate containers from parts
    for rebuild": a vehicle maker's workshop manual, General Fitting Instructions, Disassembly."""
    parts = [part(1, "gear", container_id=2), part(2, "widget", fate=fate, container_id=2)]
    (one,) = lacks(parts, Lack.MIXED, containers=BAGS)
    assert (one.container_id, one.others, one.removal_id) == (2, (2,), 0)
    assert one.sentence == f"Take out of bag 2 and keep apart: 2 widget ({fate.value})."
    apart = [parts[0], replace(parts[1], container_id=3)]
    assert not lacks(apart, Lack.MIXED, containers=BAGS)


def test_a_bag_of_one_part_or_of_parts_that_all_go_is_not_mixed():
    shim, gear = (part(n, "widget", fate=Fate.RENEW, container_id=1) for n in (1, 2))
    assert not lacks([shim], Lack.MIXED, containers=BAGS)
    assert not lacks([shim, gear], Lack.MIXED, containers=BAGS)
    loose = [replace(shim, container_id=None), part(3, "gear", container_id=None)]
    assert not lacks(loose, Lack.MIXED, containers=BAGS)


def test_a_bag_in_a_tray_is_its_own_container():
    bags = (BAGS[0], replace(BAGS[1], parent_id=1))
    parts = [part(1, "gear", container_id=1), part(2, "gear", fate=Fate.RENEW, container_id=2)]
    assert not lacks(parts, Lack.MIXED, containers=bags)


ENGINE = Area(1, 1, "engine")
CASE = Area(2, 1, "lower case", parent_id=1)
SHAFTS = Area(3, 1, "shafts", parent_id=2)


def shut(*areas, inside=3):
    found = lacks([part(9, "gear", area_id=inside)], Lack.OPENER, areas=areas)
    return [one.area_id for one in found]


def test_the_outermost_area_that_nothing_opens_is_named_once():
    assert shut(ENGINE, CASE, SHAFTS) == [1]
    assert shut(replace(ENGINE, opener_id=5), CASE, SHAFTS) == []
    assert shut(ENGINE, replace(CASE, opener_id=5), SHAFTS) == []
    assert shut(ENGINE, CASE, replace(SHAFTS, opener_id=5)) == []


def test_an_open_area_lets_at_its_own_parts_and_not_into_what_is_inside_it():
    outside = replace(ENGINE, is_open=True)
    assert shut(outside, CASE, SHAFTS, inside=1) == []
    assert shut(outside, CASE, SHAFTS) == [2]
    assert shut(outside, CASE, replace(SHAFTS, is_open=True)) == []


def test_an_empty_area_and_a_part_in_none_need_no_opener():
    assert shut(ENGINE, CASE, SHAFTS, inside=None) == []
    gone = part(9, "gear", area_id=3, fate=Fate.SCRAP)
    assert not lacks([gone], Lack.OPENER, areas=(ENGINE, CASE, SHAFTS))


def test_contradictions_stand_in_the_order_off_and_warnings_after_them():
    parts = [
        part(1, "shift fork L", Faces("chamfer", Side.TOP), side=Side.RIGHT),
        part(2, "gear", Faces("dot", Side.TOP), Faces("dot", Side.REAR)),
        part(3, "gear", Hand("L"), Hand("R")),
    ]
    found = lacks(parts, Lack.CONTRADICTION, datum=DATUM)
    assert [one.removal_id for one in found] == [2, 3, 1]
    assert found[-1].sentence.endswith('If it is so after all, write "looked at" in the note.')
    parts[0] = replace(parts[0], note="Looked at: it is stamped so.")
    parts[1] = replace(parts[1], note="looked at")
    found = lacks(parts, Lack.CONTRADICTION, datum=DATUM)
    assert [one.removal_id for one in found] == [2, 3]


def test_what_only_scrapped_parts_say_does_not_matter():
    parts = [part(n, "gear", MatchMark("dot"), fate=Fate.SCRAP) for n in (1, 2, 3)]
    assert not lacks(parts, Lack.CONTRADICTION)
    parts[0] = replace(parts[0], fate=Fate.REFIT)
    (one,) = lacks(parts, Lack.CONTRADICTION)
    assert (one.removal_id, one.others) == (1, (2, 3))


def test_the_tally():
    assert tally(14, 77) == "14 things to see to in 77 entries."
    assert tally(1, 1) == "1 thing to see to in 1 entry."
    assert tally(0, 77) == "Nothing is missing. 77 entries looked at."
    assert tally(0, 0) == "Nothing is logged yet."


def test_a_part_that_goes_either_way_is_whole():
    assert audit(job([part(1, "widget", Without())])) == ()
