"""The order of tightening against the published cross patterns, and what must hold for any."""

import json
from itertools import pairwise
from math import cos, hypot, pi, sin
from pathlib import Path

import pytest
from hole_kit import head_of, maps, ring_of
from hypothesis import assume, given
from hypothesis import strategies as st

from bagtag.domain.hole_order import from_centre, loosening, members, middle, order, star
from bagtag.domain.hole_places import numbered, row
from bagtag.domain.holes import Hole, HoleMap, OrderKind

PUBLISHED = json.loads(
    (Path(__file__).parents[1] / "check_values" / "cross_patterns.json").read_text("utf-8")
)
RINGS = pytest.mark.parametrize("ring", PUBLISHED["rings"], ids=lambda ring: f"{ring['bolts']}")


@RINGS
def test_a_ring_is_tightened_as_the_standard_lists_it(ring):
    """ASME PCC-1, legacy cross pattern; from memory, the one of 12 seen in print."""
    assert list(order(ring_of(ring["bolts"]))) == ring["sequence"]


@RINGS
def test_the_turns_painted_round_the_ring_are_those_of_the_plants_figure(ring):
    turns = {hole: turn for turn, hole in enumerate(order(ring_of(ring["bolts"])), 1)}
    assert [turns[hole] for hole in sorted(turns)] == ring["turns_clockwise"]


@RINGS
def test_a_ring_numbered_the_other_way_round_has_the_same_list(ring):
    assert list(order(ring_of(ring["bolts"], clockwise=False))) == ring["sequence"]


@RINGS
def test_it_does_not_matter_where_the_ring_starts(ring):
    turned = ring_of(ring["bolts"])
    shifted = [*turned.holes[3:], *turned.holes[:3]]
    holes = tuple(Hole(i, hole.x, hole.y) for i, hole in enumerate(shifted, 1))
    assert list(order(HoleMap(holes))) == ring["sequence"]


@pytest.mark.parametrize("n", range(1, 65))
def test_no_hole_is_left_out_and_from_six_up_no_neighbour_follows(n):
    """Our own rule for numbers that the standard does not list."""
    way = star(n)
    assert sorted(way) == list(range(n))
    if n >= 6:
        assert [(a, b) for a, b in pairwise(way) if (a - b) % n in (1, n - 1)] == []


@pytest.mark.parametrize("n", range(4, 65, 2))
def test_each_pair_of_turns_is_of_opposite_holes(n):
    way = star(n)
    assert all((b - a) % n == n // 2 for a, b in zip(way[::2], way[1::2], strict=True))


def lopsided(way):
    """How far the tightened bolts pull to one side at worst, in bolts."""
    n, x, y, worst = len(way), 0.0, 0.0, 0.0
    for place in way:
        x, y = x + cos(2 * pi * place / n), y + sin(2 * pi * place / n)
        worst = max(worst, hypot(x, y))
    return worst


@pytest.mark.parametrize("n", range(3, 65))
def test_the_pull_stays_in_the_middle(n):
    """Measured: never more than one bolt to one side on an even ring, 1.8 on an odd one, where
    going round in one direction pulls by 1 / sin(180° / n): ten bolts on a ring of 32."""
    assert lopsided(star(n)) <= (1.0 if n % 2 == 0 else 1.8) + 1e-9
    assert lopsided(range(n)) > (n - 1) / pi
    if n >= 6:
        assert lopsided(star(n)) < 0.6 * lopsided(range(n))


def test_a_head_is_tightened_from_its_centre_outwards_and_loosened_backwards():
    """Common practice, no source: printed only as drawings. Rows 1 to 5 and 6 to 10."""
    head = head_of()
    assert order(head) == (3, 8, 2, 9, 7, 4, 6, 5, 1, 10)
    assert loosening(head) == (10, 1, 5, 6, 4, 7, 9, 2, 8, 3)


@given(maps(orders=(OrderKind.CENTRE,)))
def test_from_the_centre_no_hole_waits_for_one_further_out(found):
    numbers = from_centre(found.holes)
    cx, cy = middle([(hole.x, hole.y) for hole in found.holes])
    far = [hypot(found.hole(n).x - cx, found.hole(n).y - cy) for n in numbers]
    assert sorted(numbers) == [hole.number for hole in found.holes]
    assert all(b >= max(far[: i + 1]) - 0.06 * max(far) - 1e-9 for i, b in enumerate(far))


@given(st.integers(2, 9), st.integers(2, 3))
def test_from_the_centre_the_ends_take_turns(columns, rows):
    """Along a head no two holes of the same side follow while the other side has one as near."""
    head = head_of(columns, rows)
    cx, cy = middle([(hole.x, hole.y) for hole in head.holes])
    assume((columns - 1) * 90 > (rows - 1) * 100)
    way = [head.hole(n) for n in order(head)]
    for i, (a, b) in enumerate(pairwise(way)):
        as_near = [
            hole
            for hole in way[i + 1 :]
            if hypot(hole.x - cx, hole.y - cy) < hypot(b.x - cx, b.y - cy) + 1e-6
            and (hole.x - cx) * (a.x - cx) < 0
        ]
        assert not ((a.x - cx) * (b.x - cx) > 0 and as_near)


def test_holes_clicked_on_a_photo_need_not_be_exact():
    """A click is off by a few pixels; the order is that of the true head."""
    head, off = head_of(), (3, -4, 2, -1, 4, -3, 1, -2, 3, -4)
    clicked = tuple(
        Hole(h.number, h.x + dx, h.y - dx / 2, h.mark)
        for h, dx in zip(head.holes, off, strict=True)
    )
    assert order(HoleMap(clicked, order=OrderKind.CENTRE)) == order(head)


def test_round_goes_from_neighbour_to_neighbour_whatever_the_order_is():
    assert order(ring_of(8), is_round=True) == (1, 2, 3, 4, 5, 6, 7, 8)
    assert order(head_of(), is_round=True) == (1, 2, 3, 4, 5, 10, 9, 8, 7, 6)
    by_hand = ring_of(4, order=OrderKind.GIVEN, given=(1, 3, 2, 4))
    assert order(by_hand, is_round=True, is_reversed=True) == (4, 3, 2, 1)


def test_by_hand_is_as_given_and_then_the_rest_by_number():
    assert order(ring_of(6, order=OrderKind.GIVEN, given=(5, 2))) == (5, 2, 1, 3, 4, 6)


def test_a_hole_in_the_middle_comes_first():
    ring = ring_of(4)
    boss = HoleMap((*ring.holes, Hole(5, 101, 75)))
    assert order(boss) == (5, 1, 3, 2, 4)
    assert order(boss, is_round=True) == (5, 1, 2, 3, 4)


def groups():
    """Ten in a head, four outside it."""
    head = head_of()
    grouped = tuple(Hole(h.number, h.x, h.y, "A", "head") for h in head.holes)
    empty = HoleMap(grouped, order=OrderKind.CENTRE)
    return numbered(empty, row(4, (50, 220), (410, 220)), "B")


def test_groups_come_one_after_the_other_and_by_name_alone():
    found = groups()
    assert order(found, group="head") == order(head_of())
    assert order(found, group="B") == (12, 13, 11, 14)
    assert order(found) == (*order(found, group="head"), *order(found, group="B"))
    assert order(found, is_reversed=True) == tuple(reversed(order(found)))


def test_a_group_is_taken_before_a_line_with_its_name():
    found = HoleMap((Hole(1, 0, 0, "A", "B"), Hole(2, 9, 0, "B"), Hole(3, 0, 9, "B")))
    assert [hole.number for hole in members(found, "B")] == [1]
    assert [hole.number for hole in members(found, "A")] == [1]
    assert members(found, "C") == ()


@given(maps(), st.booleans(), st.booleans())
def test_every_hole_has_one_turn(found, is_reversed, is_round):
    way = order(found, is_reversed=is_reversed, is_round=is_round)
    assert sorted(way) == [hole.number for hole in found.holes]
    assert order(found, is_reversed=not is_reversed, is_round=is_round) == tuple(reversed(way))


@given(maps(orders=(OrderKind.STAR, OrderKind.CENTRE)), st.floats(0.3, 20), st.randoms())
def test_the_order_depends_on_neither_scale_nor_the_row_the_holes_are_kept_in(found, scale, chance):
    holes = [Hole(h.number, h.x * scale, h.y * scale, h.mark, h.group) for h in found.holes]
    chance.shuffle(holes)
    assert order(HoleMap(tuple(holes), order=found.order)) == order(found)


@pytest.mark.parametrize("kind", OrderKind)
def test_no_holes_no_order(kind):
    assert order(HoleMap(order=kind)) == ()
    assert order(HoleMap((Hole(7, 1, 1),), order=kind)) == (7,)
