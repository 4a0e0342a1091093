"""The audit of rows, numbers, pairs and mated parts: a gap is found, and no gap is invented."""

import pytest
from audit_cases import DATUM, job, part
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.audit import Lack, audit
from bagtag.domain.datum import Side
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Hand, MatchMark, Place, Without


def row(name, *places, of=None, side=None, what="", first=1, **fields):
    """Parts of one name at these places."""
    return [
        part(n, name, Place(place, of, side, what), Without("chamfer"), **fields)
        for n, place in enumerate(places, first)
    ]


def said(parts, lack=Lack.SET):
    found = audit(job(parts, datum=DATUM))
    return [(one.removal_id, one.sentence.split(":")[0]) for one in found if one.lack is lack]


def test_the_places_of_a_row_that_nobody_has_are_named():
    assert said(row("gear", 1, 3, of=3)) == [(1, "2nd of 3 is not logged")]
    assert said(row("gear", 2, of=4)) == [(1, "1st of 4, 3rd of 4 and 4th of 4 are not logged")]
    assert said(row("gear", 1, 2, 3, of=3)) == []


def test_numbers_with_gaps():
    """Pistons go back to their own bores (an engine manual, "Separating Parts"), so that each
    must be there: cylinders 1, 2 and 4 leave the third open."""
    assert said(row("piston", 1, 2, 4, what="cylinder")) == [(1, "Cylinder 3 is not logged")]
    assert said(row("piston", 2, 3, 4, what="cylinder")) == [(1, "Cylinder 1 is not logged")]
    assert said(row("piston", 1, 2, 3, what="cylinder")) == []


def test_one_bolt_with_a_far_number_is_no_row():
    assert said(row("dowel", 14, what="hole")) == []
    assert said(row("dowel", 3, 14, what="hole")) == []


def test_a_row_counted_from_both_ends_is_one():
    left, right = row("gear", 1, 2, of=3, side=Side.LEFT), row("gear", 1, of=3, side=Side.RIGHT)
    assert said([*left, *[part(9, "gear", *right[0].which_way)]]) == []
    assert said(row("gear", 1, 2, of=3, side=Side.RIGHT)) == [
        (1, "1st of 3, counted from the flywheel side, is not logged")
    ]


def test_both_hands_and_the_numbers_in_a_name_are_one_row():
    forks = [
        part(n, name, Place(n, 3), Without("chamfer"))
        for n, name in enumerate(("shift fork L", "shift fork C", "right shift fork"), 1)
    ]
    assert said(forks) == []
    pistons = [part(n, f"piston {n}", Place(n, what="cylinder")) for n in (1, 2, 3)]
    assert said(pistons) == []


def test_unlike_parts_that_fill_one_row_are_one_row():
    """Inlet and exhaust valve of a head; gear, spacer, gear on a shaft."""
    valves = [part(1, "valve, inlet", Place(2, 2)), part(2, "valve, exhaust", Place(1, 2))]
    rockers = [part(3, "rocker, inlet", Place(1, 2)), part(4, "rocker, exhaust", Place(2, 2))]
    assert said([*valves, *rockers]) == []
    stack = [part(n, name, Place(n, 3)) for n, name in enumerate(("gear", "spacer", "washer"), 1)]
    assert said(stack) == []
    assert said(stack[:2]) == [(1, "2nd of 3 and 3rd of 3 are not logged"),
                               (2, "1st of 3 and 3rd of 3 are not logged")]  # fmt: skip


def test_an_exhaust_valve_that_is_missing_is_not_hidden_by_the_inlet_valves():
    inlet = row("valve, inlet", 1, 2, 3, what="cylinder")
    exhaust = row("valve, exhaust", 1, 3, what="cylinder", first=4)
    assert said([*inlet, *exhaust]) == [(4, "Cylinder 2 is not logged")]


def test_cylinders_are_those_of_the_engine_and_other_rows_those_of_their_area():
    banks = [part(n, "piston", Place(n, what="cylinder"), area_id=n % 2) for n in range(1, 7)]
    assert said(banks) == []
    shafts = [part(n, "gear", Place(n % 2 + 1, 3), area_id=n % 2) for n in (1, 2)]
    assert len(said(shafts)) == 2


def test_several_in_one_bag_fill_their_row():
    assert said(row("tappet", 1, of=2, what="tappet", quantity=2)) == []
    assert said(row("bucket", 1, of=4, what="cylinder", quantity=4)) != []


def test_a_scrapped_part_was_in_its_place_all_the_same():
    parts = row("gear", 1, 2, 3, of=3)
    parts[1] = row("gear", 2, of=3, first=2, fate=Fate.SCRAP)[0]
    assert said(parts) == []


@pytest.mark.parametrize("note", ["2nd stays in", "The middle one stayed in.", "there is none"])
def test_what_a_note_says_stays_in_is_not_asked_for(note):
    first, last = row("gear", 1, 3, of=3)
    assert said([first, last]) != []
    assert said([first, part(9, "gear", *last.which_way, note=note)]) == []


def test_a_left_without_a_right():
    left = part(1, "shift fork L", Without("chamfer"))
    right = part(2, "shift fork", Hand("R"), Without("chamfer"))
    assert said([left]) == [(1, "L is logged and R is not")]
    assert said([right]) == [(2, "R is logged and L is not")]
    assert said([left, right]) == []
    assert said([part(1, "gear L")]) == []


def test_two_of_one_hand_are_a_contradiction_and_named_once():
    forks = [part(n, "shift fork L", Without("chamfer")) for n in (1, 2)]
    assert said(forks) == []
    assert [one for one, _ in said(forks, Lack.CONTRADICTION)] == [1]


def test_what_a_match_mark_joins_is_logged_too():
    """ "Rod and cap numbers must equal": rod and cap stay together (a marine engine manual)."""
    rod = part(1, "connecting rod", MatchMark("two dots", "the rod cap"), area_id=None)
    found = "Its mark matches the rod cap, which is not logged"
    assert said([rod]) == [(1, found)]
    assert said([rod, part(2, "rod cap")]) == []
    assert said([part(1, "barrel", MatchMark("a line", "the crankcase"))]) == []
    assert said([part(1, "barrel", MatchMark("a line"))]) == []


@given(st.sets(st.integers(1, 30), min_size=1), st.integers(1, 30))
def test_gaps_are_exactly_the_places_that_nobody_has(places, of):
    inside = sorted(place for place in places if place <= of)
    found = said(row("gear", *inside, of=of))
    missing = [n for n in range(1, of + 1) if n not in inside]
    assert bool(found) == bool(missing and inside)
    if len(missing) == 1 and inside:
        assert f" of {of} is not logged" in found[0][1]
        assert found[0][1].startswith(str(missing[0]))
