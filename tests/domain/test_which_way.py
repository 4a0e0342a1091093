"""The facts of which way keep through the store's form."""

import json

import pytest
from fact_cases import FACTS, FORK_R, untold
from hypothesis import given

from bagtag.domain.datum import Side
from bagtag.domain.errors import BadInput
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Place,
    Seat,
    SeatKind,
    from_data,
    to_data,
)


@given(FACTS)
def test_facts_come_back_as_they_were(facts):
    """And without what is computed, which is never stored."""
    assert from_data(json.loads(json.dumps(to_data(facts)))) == tuple(map(untold, facts))


def test_data_is_plain_and_short():
    assert to_data(FORK_R) == [
        {"fact": "hand", "which": "R", "stamped": True},
        {"fact": "faces", "feature": "C", "toward": "right"},
        {"fact": "place", "index": 2, "of": 3, "counted_from": "left"},
    ]


def test_fields_that_were_left_out_are_empty():
    data = [
        {"fact": "hand", "which": "L"},
        {"fact": "faces", "feature": "lip", "toward": {"part": "gear"}},
        {"fact": "place", "index": 14, "what": "hole"},
        {"fact": "clocking", "feature": "tab"},
        {"fact": "seat", "kind": "flush"},
        {"fact": "match mark", "mark": "paint line"},
    ]
    assert from_data(data) == (
        Hand("L"),
        Faces("lip", OtherPart("gear")),
        Place(14, what="hole"),
        Clocking("tab"),
        Seat(SeatKind.FLUSH),
        MatchMark("paint line"),
    )


@pytest.mark.parametrize(
    "data",
    [
        {},
        {"fact": "colour", "of": "wire"},
        {"fact": "faces", "feature": "C"},
        {"fact": "faces", "feature": "C", "toward": "sideways"},
        {"fact": "place", "index": "second"},
        {"fact": "seat", "kind": "loose"},
        {"fact": "place", "index": 1, "counted_from": "below"},
    ],
)
def test_what_is_no_fact_is_named(data):
    with pytest.raises(BadInput, match="This is no which-way fact") as refused:
        from_data([data])
    assert refused.value.field == "which_way"


def test_sides_are_stored_by_their_plain_names():
    stored = to_data([Faces("dot", side) for side in Side])
    assert [item["toward"] for item in stored] == [
        "left",
        "right",
        "front",
        "rear",
        "top",
        "bottom",
    ]
