"""What parts of one job say against each other is found, and nothing else, whatever the order."""

from dataclasses import replace
from itertools import permutations

import pytest
from fact_cases import DATUMS, FACTS, FORK_L, FORK_R, SIDES, TRACTOR
from hypothesis import given, settings
from hypothesis import strategies as st

from bagtag.domain.contradictions import between
from bagtag.domain.datum import Side
from bagtag.domain.kinds import Kinds, Pair, PartKind
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
)
from bagtag.services.kinds import load

KINDS = Kinds([PartKind("shift fork", pair=Pair.ALIKE), PartKind("bracket", pair=Pair.MIRROR)])
LEFT, RIGHT = Side.LEFT, Side.RIGHT


def removal(position, name, *facts, area=1, side=None):
    return Removal(
        position, f"u{position}", 1, str(position), position, name,
        area_id=area, which_way=facts, side=side,
    )  # fmt: skip


def found(*removals):
    """What is found; the same for the removals in any order."""
    ways = {between(order, TRACTOR, KINDS) for order in permutations(removals)}
    assert len(ways) == 1
    return ways.pop()


def same(uid, *, opposite=False):
    return SameWay(OtherPart("fork", uid), opposite)


WRONG = [
    (
        [
            removal(27, "shift fork L", Place(2, 3, LEFT)),
            removal(28, "shift fork R", Place(3, 4, LEFT)),
        ],
        "two lengths",
        False,
        "One row cannot have 3 places by 27 shift fork L and 4 places by 28 shift fork R: count "
        "it, and correct the wrong one.",
    ),
    (
        [removal(1, "shift fork L", Place(2, 3, LEFT)), removal(2, "shift fork R", Place(4))],
        "past the end",
        False,
        "2 shift fork R is 4th, past the end of a row of 3 as 1 shift fork L has it: correct one "
        "of the two.",
    ),
    (
        [
            removal(1, "inlet valve", Place(2, what="cylinder")),
            removal(2, "inlet valve", Place(2, what="cylinder")),
        ],
        "one place",
        True,
        "1 inlet valve and 2 inlet valve cannot both be cylinder 2: correct the place of one.",
    ),
    (
        [
            removal(1, "shift fork L", Faces("C", LEFT)),
            removal(2, "shift fork R", Faces("the C", RIGHT)),
        ],
        "pair turned",
        False,
        "On 1 shift fork L the C faces the flywheel side and on 2 shift fork R the clutch side, "
        "and such a pair sits alike: look at both again.",
    ),
    (
        [
            removal(1, "shift fork", Hand("L"), Faces("dot", Outness.OUTWARD)),
            removal(2, "shift fork", Hand("R"), Faces("dot", Outness.INWARD)),
        ],
        "pair turned",
        False,
        "On 1 shift fork the dot faces outward and on 2 shift fork inward, and such a pair sits "
        "alike: look at both again.",
    ),
    (
        [removal(1, "bracket L", Faces("lug", LEFT)), removal(2, "bracket R", Faces("lug", LEFT))],
        "pair turned",
        False,
        "On 1 bracket L and 2 bracket R the lug faces the flywheel side, and such a pair sits as "
        "in a mirror: look at both again.",
    ),
    (
        [
            removal(1, "shift fork L", Faces("C", LEFT)),
            removal(2, "clutch fork", same("u1"), Faces("C", RIGHT)),
        ],
        "not the same way",
        False,
        "2 clutch fork is logged the same way round as 1 shift fork L, and yet the C faces the "
        "clutch side, and by that the flywheel side: correct one of the two.",
    ),
    (
        [
            removal(1, "shift fork L", Faces("C", LEFT)),
            removal(2, "clutch fork", same("u1", opposite=True), Faces("C", LEFT)),
        ],
        "not the same way",
        False,
        "2 clutch fork is logged the opposite way round to 1 shift fork L, and yet the C faces the "
        "flywheel side, and by that the clutch side: correct one of the two.",
    ),
    (
        [
            removal(1, "ring", Clocking("gap", 4)),
            removal(2, "top ring", same("u1"), Clocking("gap", 10)),
        ],
        "not the same way",
        False,
        "2 top ring is logged the same way round as 1 ring, and yet it has its gap at 10 o'clock, "
        "and by that its gap at 4 o'clock: correct one of the two.",
    ),
    (
        [removal(1, "fork", same("u2")), removal(2, "lever", same("u1", opposite=True))],
        "not the same way",
        False,
        "1 fork is logged the same way round as 2 lever, and that one opposite to it: correct one "
        "of the two.",
    ),
    (
        [removal(1, "shift fork", Hand("L", stamped=True), side=RIGHT)],
        "hand and side",
        True,
        "1 shift fork is L and came from the clutch side: look at the hand and at the side again.",
    ),
    (
        [removal(1, "rocker, right", side=LEFT)],
        "hand and side",
        True,
        "1 rocker, right is R and came from the flywheel side: look at the hand and at the side "
        "again.",
    ),
    (
        [
            removal(1, "drum", MatchMark("two punch dots", "hub")),
            removal(2, "hub", MatchMark("paint line")),
        ],
        "marks unlike",
        True,
        "1 drum is matched to 2 hub by two punch dots, and that one carries paint line: look at "
        "both marks again.",
    ),
    (
        [removal(i, "cap", MatchMark("dot")) for i in (1, 2, 3)],
        "shared mark",
        False,
        "3 parts carry the match mark dot: 1 cap, 2 cap and 3 cap. A mark joins two: mark the "
        "others differently.",
    ),
    (
        [
            removal(1, "shaft", MatchMark("dot")),
            removal(2, "hub", MatchMark("dot", "shaft")),
            removal(3, "flange", MatchMark("dot", "the shaft")),
        ],
        "shared mark",
        False,
        "3 parts carry the match mark dot: 1 shaft, 2 hub and 3 flange. A mark joins two: mark the "
        "others differently.",
    ),
]


@pytest.mark.parametrize(("parts", "kind", "is_warning", "said"), WRONG, ids=lambda v: str(v)[:40])
def test_parts_against_each_other(parts, kind, is_warning, said):
    (one,) = found(*parts)
    assert (one.kind, one.is_warning, one.sentence) == (kind, is_warning, said)
    assert set(one.uids) == {part.uid for part in parts}


PAINT = MatchMark("paint line")
RIGHT_AS_THEY_ARE = {
    "alike": [
        removal(1, "shift fork L", Faces("C", LEFT)),
        removal(2, "shift fork R", Faces("C", LEFT)),
    ],
    "mirrored": [
        removal(1, "bracket L", Faces("lug", LEFT)),
        removal(2, "bracket R", Faces("lug", RIGHT)),
    ],
    "mirrored, both up": [
        removal(1, "bracket L", Faces("lug", Side.TOP)),
        removal(2, "bracket R", Faces("lug", Side.TOP)),
    ],
    "no kind": [removal(1, "lever L", Faces("C", LEFT)), removal(2, "lever R", Faces("C", RIGHT))],
    "two features": [
        removal(1, "shift fork L", Faces("C", LEFT)),
        removal(2, "shift fork R", Faces("dot", RIGHT)),
    ],
    "one row": [
        removal(1, "shift fork L", Place(2, 3, LEFT)),
        removal(2, "shift fork R", Place(1, 3, RIGHT)),
    ],
    "two rows": [removal(1, "bolt", Place(2, 3)), removal(2, "bolt", Place(3, 4), area=2)],
    "the same way": [
        removal(1, "ring", Faces("dot", LEFT)),
        removal(2, "ring 2", same("u1"), Faces("dot", LEFT)),
    ],
    "opposite": [
        removal(1, "ring", Faces("dot", LEFT)),
        removal(2, "ring 2", same("u1", opposite=True), Faces("dot", RIGHT)),
    ],
    "each the same way": [
        removal(1, "ring", same("u2"), Faces("dot", LEFT)),
        removal(2, "ring 2", same("u1")),
    ],
    "outward on two sides": [
        removal(1, "bearing L", Faces("sealed side", Outness.OUTWARD), side=LEFT),
        removal(2, "bearing R", same("u1"), Faces("sealed side", Outness.INWARD), side=RIGHT),
    ],
    "hand on its side": [
        removal(1, "fork", Hand("R"), side=RIGHT),
        removal(2, "fork", Hand("L"), side=Side.TOP),
    ],
    "two pairs": [
        removal(1, "rod 1", replace(PAINT, partner="cap 1")),
        removal(2, "cap 1", replace(PAINT, partner="rod 1")),
        removal(3, "rod 2", replace(PAINT, partner="cap 2")),
        removal(4, "cap 2", PAINT),
    ],
    "numbers": [removal(i, f"rod {i}", MatchMark("cylinder number")) for i in (1, 2, 3)],
    "partners without a mark": [
        removal(i, f"rod {i}", replace(PAINT, partner=f"cap {i}")) for i in (1, 2, 3)
    ],
    "marked for another": [
        removal(1, "drum", MatchMark("dot", "hub")),
        removal(2, "hub", MatchMark("dot", "drum"), MatchMark("paint line", "flange")),
        removal(3, "flange", MatchMark("paint line", "hub")),
    ],
}


@pytest.mark.parametrize("parts", RIGHT_AS_THEY_ARE.values(), ids=RIGHT_AS_THEY_ARE)
def test_what_goes_together_is_left_alone(parts):
    assert found(*parts) == ()


def test_common_practice_forks_face_alike():
    """Common practice, no source: left and right shift forks sit side by side and face the same
    way, and a pair turned is found without being told."""
    left, right = FORK_L, (FORK_R[0], Faces("C", LEFT), FORK_R[2])
    forks = [removal(1, "shift fork", *left), removal(2, "shift fork", *right)]
    assert [one.kind for one in found(*forks)] == ["pair turned"]
    assert found(removal(1, "shift fork", *FORK_L), removal(2, "shift fork", *FORK_R)) == ()


def test_the_forks_that_come_with_the_program_sit_alike(tmp_path):
    forks = [
        removal(1, "selector fork L", Faces("C", LEFT)),
        removal(2, "selector fork R", Faces("C", RIGHT)),
    ]
    kinds = load(tmp_path).kinds
    assert [one.kind for one in between(forks, TRACTOR, kinds)] == ["pair turned"]


NAMES = st.sampled_from(
    [
        "shift fork L",
        "shift fork R",
        "hub",
        "shift fork",
        "bracket L",
        "bracket R",
        "rod 1",
        "cap 1",
    ]
)
MARKS = st.builds(
    MatchMark, st.sampled_from(["dot", "paint line"]), st.sampled_from(["", "hub", "cap 1", "rod"])
)
LINKS = st.builds(
    SameWay,
    st.builds(OtherPart, st.just("fork"), st.sampled_from(["u0", "u1", "u2"])),
    st.booleans(),
)
TURNED = st.builds(Faces, st.sampled_from(["C", "OUT"]), SIDES | st.sampled_from(list(Outness)))
WAYS = st.lists(MARKS | LINKS | TURNED | st.builds(Place, st.integers(1, 4), st.integers(3, 4)))
REMOVALS = st.lists(
    st.tuples(NAMES, st.tuples(FACTS, WAYS), st.sampled_from([1, 2]), st.none() | SIDES), max_size=6
).map(
    lambda rows: [
        removal(i, name, *any_facts, *ways, area=area, side=side)
        for i, (name, (any_facts, ways), area, side) in enumerate(rows)
    ]
)


@given(REMOVALS, DATUMS, st.randoms())
def test_found_whatever_the_order_of_the_removals(removals, datum, chance):
    shuffled = chance.sample(removals, len(removals))
    assert between(shuffled, datum, KINDS) == between(removals, datum, KINDS)


@settings(max_examples=50)
@given(REMOVALS, st.randoms())
def test_found_whatever_the_order_of_each_part_s_facts(removals, chance):
    shuffled = [
        replace(part, which_way=tuple(chance.sample(part.which_way, len(part.which_way))))
        for part in removals
    ]

    def said(parts):
        return sorted(between(parts, TRACTOR, KINDS), key=repr)

    assert said(shuffled) == said(removals)


@settings(max_examples=50)
@given(REMOVALS)
def test_a_wrong_pair_is_found_among_any_others(removals):
    for parts, kind, _, __ in WRONG[:-4]:
        apart = [
            replace(part, id=part.id + 50, area_id=9, position=part.position + 50) for part in parts
        ]
        others = [part for part in removals if part.uid not in {own.uid for own in parts}]
        kinds = [one.kind for one in between([*others, *apart], TRACTOR, KINDS)]
        assert kind in kinds


@given(REMOVALS, DATUMS)
def test_each_is_one_plain_sentence_about_parts_of_the_job(removals, datum):
    uids = {part.uid for part in removals}
    for one in between(removals, datum, KINDS):
        assert one.sentence.endswith(".")
        assert set(one.uids) <= uids
        assert one.uids
