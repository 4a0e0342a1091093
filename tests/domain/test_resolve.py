"""What is computed of which way: the side outward is, the other part meant, how that one sat."""

from dataclasses import replace

import pytest
from fact_cases import FACTS, SIDES, TRACTOR
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry
from bagtag.domain.model import Removal
from bagtag.domain.resolve import linked, loose, part_side, told
from bagtag.domain.sentence import sentence
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    SameWay,
    Seat,
    SeatKind,
    from_data,
    to_data,
)

OUT, IN = Faces("OUT", Outness.OUTWARD), Faces("lip", Outness.INWARD)
C_LEFT, C_RIGHT = Faces("C", Side.LEFT), Faces("C", Side.RIGHT)


def part(position, name, *facts, area=1, side=None):
    return Removal(
        position, f"u{position}", 1, str(position), position, name,
        area_id=area, which_way=facts, side=side,
    )  # fmt: skip


def like(position, *, opposite=False):
    return SameWay(OtherPart("other", f"u{position}"), opposite)


def by_uid(*parts):
    return {one.uid: one for one in parts}


@pytest.mark.parametrize(
    ("facts", "side", "found"),
    [
        ((), Side.TOP, Side.TOP),
        ((Hand("L"),), None, Side.LEFT),
        ((Hand("R"),), None, Side.RIGHT),
        ((Hand("R"),), Side.LEFT, Side.LEFT),
        ((Hand("L", stamped=True),), None, None),
        ((Hand("L"), Hand("R")), None, None),
        ((), None, None),
    ],
)
def test_the_side_of_a_part(facts, side, found):
    assert part_side(part(1, "fork", *facts, side=side)) is found
    assert part_side(Entry("fork", which_way=facts, side=side)) is found


@pytest.mark.parametrize("side", list(Side))
def test_outward_is_the_part_s_own_side_and_inward_the_opposite(side):
    out, lip, toward = told(part(1, "seal", OUT, IN, C_LEFT, side=side), {})
    assert (out.resolved, lip.resolved, toward) == (side, side.opposite, C_LEFT)
    assert told(part(1, "seal", OUT), {}) == (OUT,)


def test_another_part_gets_its_number_and_its_name_as_logged():
    gear = part(41, "crank gear")
    facing = Faces("chamfer", OtherPart("the gear", "u41"))
    (fact,) = told(part(2, "washer", facing), by_uid(gear))
    assert fact.toward == OtherPart("crank gear", "u41", "41")
    assert sentence([fact], TRACTOR) == "The chamfer faces the crank gear (41)."
    assert told(part(2, "washer", facing), {}) == (facing,)


def test_the_same_way_tells_how_the_other_one_sat():
    left = part(12, "shift fork L", Hand("L"), C_RIGHT, Clocking("gap", 4), MatchMark("dot"))
    left = replace(left, which_way=(*left.which_way, Seat(SeatKind.FLUSH)))
    (fact,) = told(part(13, "shift fork R", like(12)), by_uid(left))
    assert fact.facts == (C_RIGHT, Clocking("gap", 4), Seat(SeatKind.FLUSH))
    (turned,) = told(part(13, "shift fork R", like(12, opposite=True)), by_uid(left))
    assert turned.facts == (C_LEFT,)
    assert sentence([fact], TRACTOR) == (
        "Same way round as shift fork L (12): the C faces the clutch side; gap at 4 o'clock; "
        "sits flush."
    )


@pytest.mark.parametrize(
    ("own", "other", "opposite", "found"),
    [
        (Side.LEFT, Side.LEFT, False, replace(OUT, resolved=Side.LEFT)),
        (Side.LEFT, Side.LEFT, True, Faces("OUT", Outness.INWARD, Side.RIGHT)),
        (None, Side.LEFT, False, OUT),
        (Side.LEFT, None, True, Faces("OUT", Outness.INWARD)),
        (Side.LEFT, Side.RIGHT, False, None),
        (Side.LEFT, Side.RIGHT, True, None),
    ],
)
def test_another_part_s_outward_holds_on_one_side_only(own, other, opposite, found):
    """The same way as a bearing on the other side, its sealed side outward: outward too, or to the
    same side of the machine? Neither is told."""
    bearing = part(1, "bearing", OUT, side=other)
    (fact,) = told(part(2, "bearing", like(1, opposite=opposite), side=own), by_uid(bearing))
    assert fact.facts == (() if found is None else (found,))


def test_the_same_way_is_followed_from_part_to_part():
    first = part(1, "ring", C_LEFT, Faces("dot", Side.TOP))
    second = part(2, "ring", like(1, opposite=True), Faces("dot", Side.FRONT))
    (fact,) = told(part(3, "ring", like(2)), by_uid(first, second))
    assert fact.facts == (Faces("dot", Side.FRONT), C_RIGHT)


def test_a_circle_is_cut():
    one, two = part(1, "ring", like(2), C_LEFT), part(2, "ring", like(1))
    others = by_uid(one, two)
    assert told(two, others)[0].facts == (C_LEFT,)
    assert told(one, others)[0].facts == ()
    assert told(part(3, "ring", like(3)), by_uid(part(3, "ring", like(3))))[0].facts == ()


def test_a_part_does_not_face_itself_by_way_of_another():
    washer = part(1, "washer", Faces("chamfer", OtherPart("gear", "u2")))
    (fact,) = told(part(2, "gear", like(1)), by_uid(washer))
    assert fact.facts == ()


PARTS = [
    part(1, "shift fork L"),
    part(2, "shift fork R"),
    part(3, "gear 3"),
    part(4, "5th gear"),
    part(5, "gasket for the gear case"),
    part(6, "crank gear", area=2),
    part(7, "clutch fork", area=2),
    part(8, "baffle", Hand("L", stamped=True)),
    part(9, "baffle", Hand("R", stamped=True)),
    part(10, "inner bushes"),
]


@pytest.mark.parametrize(
    ("name", "uid"),
    [
        ("the other fork", "u1"),
        ("the other one", "u1"),
        ("the other", "u1"),
        ("fork L", "u1"),
        ("left fork", "u1"),
        ("Shift fork, L", "u1"),
        ("clutch fork", "u7"),
        ("gear 3", "u3"),
        ("the gear 3", "u3"),
        ("crank gear", "u6"),
        ("the gear", ""),
        ("second gear", ""),
        ("gear case", ""),
        ("the gasket", "u5"),
        ("baffle R", "u9"),
        ("the baffle", ""),
        ("bush", "u10"),
        ("the drum", ""),
        ("one", ""),
        ("", ""),
    ],
)
def test_another_part_is_linked_to_the_only_one_it_can_mean(name, uid):
    facts = (Faces("lip", OtherPart(name)), SameWay(OtherPart(name)), Hand("R"))
    found = linked(facts, PARTS, PARTS[1])
    assert found == (
        Faces("lip", OtherPart(name, uid)), SameWay(OtherPart(name, uid)), Hand("R"),
    )  # fmt: skip
    assert loose(found) == ([] if uid else [OtherPart(name)] * 2)


def test_without_its_own_part_the_other_one_means_nothing():
    assert linked([SameWay(OtherPart("the other one"))], PARTS)[0].other.uid == ""


def test_its_own_area_goes_before_the_rest():
    gears = [part(1, "gear"), part(2, "gear", area=2)]
    facing = [Faces("chamfer", OtherPart("the gear"))]
    assert linked(facing, gears, part(9, "washer", area=2))[0].toward.uid == "u2"
    assert linked(facing, gears, part(9, "washer", area=3))[0].toward.uid == ""
    assert linked(facing, gears[:1], part(9, "washer", area=3))[0].toward.uid == "u1"


def test_an_entry_that_is_not_logged_yet_is_linked_too():
    facts = [SameWay(OtherPart("the other fork"))]
    forks = [PARTS[0], PARTS[4]]
    assert linked(facts, forks, Entry("shift fork R", area_id=1))[0].other.uid == "u1"


LINKS = st.builds(
    SameWay,
    st.builds(OtherPart, st.just("fork"), st.sampled_from(["", "u0", "u1", "u2", "u7"])),
    st.booleans(),
)
LOGS = st.lists(
    st.tuples(FACTS, st.lists(LINKS, max_size=2), st.none() | SIDES), min_size=1, max_size=4
).map(
    lambda rows: [
        part(i, "fork", *from_data(to_data(facts)), *links, side=side)
        for i, (facts, links, side) in enumerate(rows)
    ]
)


@given(LOGS)
def test_what_is_told_is_never_stored(log):
    for one in log:
        assert to_data(told(one, by_uid(*log))) == to_data(one.which_way)


@given(LOGS, st.randoms())
def test_a_link_that_is_there_stays(log, chance):
    facts = log[0].which_way
    found = linked(facts, chance.sample(log, len(log)), log[0])
    for before, after in zip(facts, found, strict=True):
        if not loose([before]):
            assert after == before


@given(LOGS, st.randoms())
def test_whatever_the_order_of_the_candidates(log, chance):
    facts = log[0].which_way
    assert linked(facts, chance.sample(log, len(log)), log[0]) == linked(facts, log, log[0])
