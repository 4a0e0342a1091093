"""What cannot be true together is found, and nothing else, whatever the order."""

import pytest
from fact_cases import DATUMS, FACTS, FORK_L, FORK_R, SIDES, TRACTOR
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.contradictions import between, stem, within
from bagtag.domain.datum import Side
from bagtag.domain.model import Removal
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)


def removal(position, name, *facts, area=1):
    return Removal(
        id=position,
        uid=f"u{position}",
        job_id=1,
        number=str(position),
        position=position,
        name=name,
        area_id=area,
        which_way=facts,
    )


def kinds(facts):
    return [found.kind for found in within(facts, TRACTOR)]


WRONG = [
    ([Faces("C", Side.LEFT), Faces("c", Side.RIGHT)], "two ways",
     "The C cannot face the flywheel side and the clutch side at once: "
     "keep the one that is true."),
    ([Faces("lip", Outness.INWARD), Faces("lip", Outness.OUTWARD)], "two ways",
     "The lip cannot face outward and inward at once: keep the one that is true."),
    ([Faces("OUT", Outness.INWARD)], "turned over",
     "OUT faces inward: look at the part again, it was logged wrong or fitted wrong."),
    ([Faces("stamped OUT face", Outness.INWARD)], "turned over",
     "stamped OUT face faces inward: look at the part again, it was logged wrong or fitted "
     "wrong."),
    ([Faces("inside", Outness.OUTWARD)], "turned over",
     "inside faces outward: look at the part again, it was logged wrong or fitted wrong."),
    ([Place(4, 3, Side.LEFT)], "past the end",
     "4th of 3 is past the row's end: correct one of the two."),
    ([Place(0, 3)], "below the first", "Place 0 is none: the first in a row is 1."),
    ([Clocking("gap", 13)], "off the clock",
     "There is no 13 on a clock face: give an hour from 1 to 12."),
    ([Clocking("gap", 0)], "off the clock",
     "There is no 0 on a clock face: give an hour from 1 to 12."),
    ([Hand("L"), Hand("R", stamped=True)], "two hands",
     "One part cannot be L and R: keep the hand that is true."),
    ([Seat(SeatKind.PROUD, 0.5), Seat(SeatKind.BELOW, 1.2)], "two seats",
     "A part cannot sit 0.5 mm proud and 1.2 mm below at once: keep the one that is true."),
    ([Seat(SeatKind.FLUSH), Seat(SeatKind.PROUD)], "two seats",
     "A part cannot sit flush and proud at once: keep the one that is true."),
    ([Seat(SeatKind.BOTTOMED), Seat(SeatKind.SHOULDER)], "two seats",
     "A part cannot sit against the shoulder and bottomed at once: keep the one that is true."),
    ([SameWay(OtherPart("shift fork L")), SameWay(OtherPart("the shift fork L"), opposite=True)],
     "same and opposite",
     "A part cannot sit the same way as shift fork L and opposite to it at once: "
     "keep the one that is true."),
    ([SameWay(OtherPart("fork", "u1")), SameWay(OtherPart("shift fork", "u1"), opposite=True)],
     "same and opposite",
     "A part cannot sit the same way as fork and opposite to it at once: "
     "keep the one that is true."),
    ([Without("match mark"), MatchMark("paint line")], "there and not",
     "Both the match mark and no match mark are logged: keep the one that is true."),
    ([Without("Lip"), Faces("lip", Outness.INWARD)], "there and not",
     "Both the Lip and no Lip are logged: keep the one that is true."),
    ([Without("gap"), Clocking("gap", 4)], "there and not",
     "Both the gap and no gap are logged: keep the one that is true."),
    ([Without("hand"), Hand("R")], "there and not",
     "Both the hand and no hand are logged: keep the one that is true."),
    ([Without("dots"), MatchMark("dots")], "there and not",
     "Both the dots and no dots are logged: keep the one that is true."),
    ([Without(), Faces("C", Side.RIGHT)], "there and not",
     "It goes either way round, and yet it is logged as C to the clutch side: "
     "keep the one that is true."),
    ([Without(), Clocking("gap", 4)], "there and not",
     "It goes either way round, and yet it is logged as gap at 4 o'clock: "
     "keep the one that is true."),
]  # fmt: skip


@pytest.mark.parametrize(("facts", "kind", "said"), WRONG, ids=lambda value: str(value)[:30])
def test_one_removal_against_itself(facts, kind, said):
    for order in (facts, facts[::-1]):
        (found,) = within(order, TRACTOR)
        assert (found.kind, found.sentence, found.uids) == (kind, said, ())


@pytest.mark.parametrize(
    "facts",
    [
        [],
        FORK_R,
        [Faces("C", Side.LEFT), Faces("chamfer", Side.RIGHT)],
        [Faces("sealed side", Outness.OUTWARD), Faces("sealed side", Side.LEFT)],
        [Faces("lip", OtherPart("gear")), Faces("lip", Side.LEFT)],
        [Faces("OUT", Outness.OUTWARD), Faces("IN", Outness.INWARD)],
        [Faces("outer race", Outness.INWARD)],
        [Place(3, 3), Place(1)],
        [Clocking("gap", 12), Clocking("tab", 0.5), Clocking("dot", None, "line")],
        [Hand("L"), Hand("L", stamped=True)],
        [Seat(SeatKind.FLUSH), Seat(SeatKind.SHOULDER)],
        [Without(), Without("match mark"), Seat(SeatKind.FLUSH)],
        [Without("dot"), Faces("lip", Outness.INWARD), MatchMark("paint line")],
        [SameWay(OtherPart("fork L")), SameWay(OtherPart("fork M"), opposite=True)],
        [SameWay(OtherPart("fork", "u1")), SameWay(OtherPart("fork", "u2"), opposite=True)],
        [Faces("lip", OtherPart("gear", "u1")), Faces("lip", OtherPart("gear 3", "u1"))],
        [Hand("R"), Faces("OUT", Side.RIGHT), Faces("OUT", Outness.OUTWARD)],
    ],
    ids=str,
)
def test_what_goes_together_is_left_alone(facts):
    assert within(facts, TRACTOR) == ()


ON_A_SIDE = [
    ([Faces("OUT", Outness.OUTWARD), Faces("OUT", Side.LEFT)], Side.RIGHT,
     ["two ways", "turned over"],
     "OUT faces outward, which is the clutch side here, and the flywheel side at once: "
     "keep the one that is true."),
    ([Faces("lip", Outness.INWARD), Faces("the lip", Side.RIGHT)], Side.RIGHT, ["two ways"],
     "The lip faces inward, which is the flywheel side here, and the clutch side at once: "
     "keep the one that is true."),
    ([Faces("OUT", Side.LEFT)], Side.RIGHT, ["turned over"],
     "OUT faces the flywheel side, which is inward here: look at the part again, it was logged "
     "wrong or fitted wrong."),
    ([Faces("inside", Side.TOP)], Side.TOP, ["turned over"],
     "inside faces the top, which is outward here: look at the part again, it was logged wrong or "
     "fitted wrong."),
]  # fmt: skip


@pytest.mark.parametrize(("facts", "side", "found", "said"), ON_A_SIDE, ids=str)
def test_the_side_it_sat_on_shows_more(facts, side, found, said):
    for order in (facts, facts[::-1]):
        assert [one.kind for one in within(order, TRACTOR, side)] == found
        assert within(order, TRACTOR, side)[0].sentence == said
        assert within(order, TRACTOR) == within(order, TRACTOR, None) == ()


def test_a_hand_by_position_says_the_side_and_a_stamped_one_does_not():
    out = Faces("OUT", Side.LEFT)
    assert kinds([Hand("R"), out]) == ["turned over"]
    assert kinds([Hand("R", stamped=True), out]) == []
    assert within([Hand("R"), out], TRACTOR, Side.LEFT) == ()


@given(FACTS, DATUMS, st.none() | SIDES, st.randoms())
def test_found_whatever_the_order_of_the_facts(facts, datum, side, chance):
    shuffled = chance.sample(facts, len(facts))
    assert within(shuffled, datum, side) == within(facts, datum, side)


@given(FACTS)
def test_a_wrong_fact_is_found_among_any_others(facts):
    for wrong, kind, _ in WRONG:
        assert kind in kinds([*wrong, *facts])
        assert kind in kinds([*facts, *wrong])


def test_two_parts_in_one_place():
    forks = [removal(27, "shift fork L", *FORK_L), removal(28, "shift fork R", *FORK_R)]
    assert between(forks, TRACTOR) == ()
    moved = [forks[0], removal(28, "shift fork R", Hand("R"), Place(1, 3, Side.LEFT))]
    (found,) = between(moved, TRACTOR)
    assert found.kind == "one place"
    assert found.uids == ("u27", "u28")
    assert found.sentence == (
        "27 shift fork L and 28 shift fork R cannot both be 1st of 3, counted from the flywheel "
        "side: correct the place of one."
    )


def test_one_place_counted_from_both_ends():
    forks = [
        removal(1, "shift fork", Place(1, 3, Side.LEFT)),
        removal(2, "shift fork", Place(3, 3, Side.RIGHT)),
        removal(3, "shift fork", Place(1, 3, Side.RIGHT)),
    ]
    assert [found.uids for found in between(forks, TRACTOR)] == [("u1", "u2")]


@pytest.mark.parametrize(
    "other",
    [
        removal(2, "shift fork R", Place(1, 3, Side.LEFT), area=2),
        removal(2, "shift shaft", Place(1, 3, Side.LEFT)),
        removal(2, "shift fork R", Place(1, 3, Side.LEFT, "groove")),
    ],
    ids=["other area", "other part", "other kind of place"],
)
def test_places_of_different_rows_do_not_meet(other):
    assert between([removal(1, "shift fork L", Place(1, 3, Side.LEFT)), other], TRACTOR) == ()


def test_two_of_one_hand_and_none_of_the_other():
    forks = [removal(1, "shift fork", Hand("L")), removal(2, "shift fork L", Hand("L"))]
    (found,) = between(forks, TRACTOR)
    assert found.kind == "no pair"
    assert found.sentence == (
        "1 shift fork and 2 shift fork L are both L and there is no R: look at the stamps again."
    )
    assert between([*forks, removal(3, "shift fork R")], TRACTOR) == ()
    assert between([forks[0]], TRACTOR) == ()
    assert between([forks[0], removal(2, "shift fork L", Hand("L"), area=2)], TRACTOR) == ()


def test_the_hand_of_a_name_counts_where_no_fact_says_it():
    (found,) = between([removal(1, "rocker arm R"), removal(2, "rocker arm, right")], TRACTOR)
    assert found.kind == "no pair"


def test_a_match_mark_joins_two():
    dots = MatchMark("two punch dots", "drum")
    pair = [removal(1, "drum", MatchMark("Two punch dots")), removal(2, "hub", dots)]
    assert between(pair, TRACTOR) == ()
    (found,) = between([*pair, removal(3, "cap", dots)], TRACTOR)
    assert found.kind == "shared mark"
    assert found.uids == ("u1", "u2", "u3")
    assert found.sentence == (
        "3 parts carry the match mark two punch dots: 1 drum, 2 hub and 3 cap. "
        "A mark joins two: mark the others differently."
    )


@pytest.mark.parametrize(
    ("name", "common"),
    [
        ("shift fork L", "shift fork"),
        ("Shift fork, R", "shift fork"),
        ("left shift fork", "shift fork"),
        ("shift fork (RH)", "shift fork"),
        ("R", "r"),
        ("roller", "roller"),
    ],
)
def test_what_two_hands_have_in_common(name, common):
    assert stem(name) == common
