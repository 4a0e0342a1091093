"""Holes put by figures and by hand, and their numbers."""

from dataclasses import replace
from itertools import pairwise
from math import cos, hypot, pi, sin

import pytest
from hole_kit import maps, ring_of
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.hole_check import checked
from bagtag.domain.hole_places import (
    grid,
    moved,
    numbered,
    put,
    rectangle,
    renumbered,
    ring,
    round_outline,
    row,
    without,
)
from bagtag.domain.holes import Hole, HoleMap, Scale
from bagtag.domain.torque import Length


@given(st.integers(1, 64), st.floats(1, 500), st.floats(-180, 180), st.booleans())
def test_a_ring_lies_on_its_circle_at_even_angles(n, radius, start, clockwise):
    """Chord of a regular polygon: 2 r sin(180° / n)."""
    points = ring(n, (10, 20), radius, start, clockwise)
    assert len(points) == n
    assert all(hypot(x - 10, y - 20) == pytest.approx(radius) for x, y in points)
    for (x1, y1), (x2, y2) in pairwise(points):
        assert hypot(x2 - x1, y2 - y1) == pytest.approx(2 * radius * sin(pi / n))


def test_a_ring_starts_at_twelve_and_runs_clockwise():
    top, right, bottom, left = ring(4, (50, 50), 40)
    assert top == pytest.approx((50, 10))
    assert right == pytest.approx((90, 50))
    assert bottom == pytest.approx((50, 90))
    assert left == pytest.approx((10, 50))
    assert ring(4, (50, 50), 40, clockwise=False)[1] == pytest.approx(left)
    assert ring(2, (0, 0), 1, start_angle=0)[0] == pytest.approx((1, 0))
    assert ring(6, (0, 0), 1)[1] == pytest.approx((cos(-pi / 6), sin(-pi / 6)))


def test_a_grid_runs_in_rows_from_the_top_left():
    assert grid(3, 2, (10, 20), 5, 7) == (
        (10, 20),
        (15, 20),
        (20, 20),
        (10, 27),
        (15, 27),
        (20, 27),
    )


def test_a_row_has_both_its_ends():
    assert row(3, (0, 0), (10, 20)) == ((0, 0), (5, 10), (10, 20))
    assert row(1, (0, 0), (10, 20)) == ((5, 10),)


def test_outlines():
    assert rectangle(5, 10, 100, 50) == ((5, 10), (105, 10), (105, 60), (5, 60))
    assert all(hypot(x - 1, y - 2) == pytest.approx(3) for x, y in round_outline((1, 2), 3))
    assert len(round_outline((1, 2), 3, 24)) == 24


WRONG = [
    (lambda: ring(0, (0, 0), 5), "1 to 200 holes, not 0"),
    (lambda: ring(201, (0, 0), 5), "1 to 200 holes, not 201"),
    (lambda: ring(4, (0, 0), 0), "radius of a ring is above zero"),
    (lambda: ring(4, (0, 0), float("nan")), "radius of a ring is above zero"),
    (lambda: grid(0, 2, (0, 0), 5, 5), "1 to 200 columns, not 0"),
    (lambda: grid(20, 20, (0, 0), 5, 5), "1 to 200 holes, not 400"),
    (lambda: grid(2, 2, (0, 0), -5, 5), "step across is above zero"),
    (lambda: grid(2, 2, (0, 0), 5, 0), "step down is above zero"),
    (lambda: row(0, (0, 0), (1, 1)), "1 to 200 holes, not 0"),
    (lambda: row(2, (1, 1), (1, 1)), "an end apart"),
]


@pytest.mark.parametrize(("make", "words"), WRONG, ids=[words for _, words in WRONG])
def test_a_pattern_that_cannot_be_is_refused(make, words):
    with pytest.raises(BadInput) as refused:
        make()
    assert words in refused.value.sentence


def test_a_pattern_is_numbered_on_and_one_hole_takes_the_free_number():
    found = without(ring_of(6), 3)
    more = numbered(found, row(2, (0, 0), (9, 0)), "B", "outer")
    assert [hole.number for hole in more.holes] == [1, 2, 4, 5, 6, 7, 8]
    assert more.hole(8) == Hole(8, 9, 0, "B", "outer")
    one = put(more, (1, 1), "C")
    assert one.hole(3) == Hole(3, 1, 1, "C")
    assert put(ring_of(2), (1, 1)).hole(3) == Hole(3, 1, 1)
    assert put(HoleMap(), (1, 1)).holes == (Hole(1, 1, 1),)


def test_a_hole_is_moved_and_no_other():
    found = moved(ring_of(4), 2, (3, 4))
    assert found.hole(2) == Hole(2, 3, 4, "A")
    assert without(found, 2) == without(ring_of(4), 2)
    assert moved(found, 9, (0, 0)) == found


def whole():
    return replace(ring_of(6), scale=Scale(2, 5, Length(120)), given=(6, 5, 4))


def test_taking_a_hole_away_keeps_the_map_in_order():
    assert without(whole(), 4).given == (6, 5)
    assert without(whole(), 4).scale == whole().scale
    assert without(whole(), 5).scale is None
    assert checked(without(whole(), 2, 4, 6)).given == (5,)


def test_renumbering_goes_in_the_order_of_the_clicks():
    found = renumbered(whole(), (6, 1))
    old = {hole.number: (hole.x, hole.y) for hole in whole().holes}
    assert [(h.x, h.y) for h in found.holes] == [old[n] for n in (6, 1, 2, 3, 4, 5)]
    assert found.scale == Scale(3, 6, Length(120))
    assert found.given == (1, 6, 5)
    assert found.millimetres_per_unit() == whole().millimetres_per_unit()


@given(maps(), st.lists(st.integers(1, 30), max_size=30))
def test_renumbering_loses_no_hole_and_can_be_checked(found, turn):
    done = checked(renumbered(found, turn))
    assert [hole.number for hole in done.holes] == list(range(1, len(found.holes) + 1))
    assert {(h.x, h.y, h.mark, h.group) for h in done.holes} == {
        (h.x, h.y, h.mark, h.group) for h in found.holes
    }
    named = [number for number in dict.fromkeys(turn) if found.hole(number)]
    assert [(h.x, h.y) for h in done.holes[: len(named)]] == [
        (found.hole(number).x, found.hole(number).y) for number in named
    ]


@given(maps(), st.sets(st.integers(1, 24)))
def test_a_map_can_be_checked_after_any_hole_is_gone(found, gone):
    left = checked(without(found, *gone))
    assert {hole.number for hole in left.holes} == {h.number for h in found.holes} - gone
