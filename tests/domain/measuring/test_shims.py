"""Shims against published series and examples, an exhaustive search, and scipy."""

from collections import Counter
from decimal import Decimal
from functools import cache
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from measuring_kit import published

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring import shims
from bagtag.domain.measuring.assignment import cheapest
from bagtag.domain.measuring.shims import Source, ValvePlace, plan, series

PUBLISHED = published("shims")


def place(name: str, clearance: str, shim: str, low: str = "0.18", high: str = "0.22"):
    return ValvePlace(name, *map(Decimal, (clearance, shim, low, high)))


def sizes(*texts: str) -> tuple[Decimal, ...]:
    return tuple(map(Decimal, texts))


@pytest.mark.parametrize("row", PUBLISHED["series"], ids=lambda row: row["step"])
def test_a_series_has_the_sizes_that_are_published(row):
    made = series(*map(Decimal, (row["low"], row["high"], row["step"])))
    assert len(made) == row["count"]
    assert (made[0], made[-1]) == (Decimal(row["low"]), Decimal(row["high"]))


@pytest.mark.parametrize("row", PUBLISHED["worked"], ids=lambda row: row["shim"])
def test_the_shim_wanted_and_the_nearest_that_is_made(row):
    shim, clearance, target = (Decimal(row[key]) for key in ("shim", "clearance", "target"))
    found = shims.wanted(shim, clearance, target)
    assert found == Decimal(row["wanted"])
    made = series(*map(Decimal, (row["low"], row["high"], row["step"])))
    assert shims.nearest(made, found) == Decimal(row["expected"])


@pytest.mark.parametrize("row", PUBLISHED["middle"], ids=lambda row: row["expected"])
def test_the_middle_of_the_range_is_wanted(row):
    one = place("1 inlet", "0.30", "2.50", row["low"], row["high"])
    assert one.after(one.wanted) == Decimal(row["expected"])


def test_two_valves_that_want_each_others_shim_swap_and_buy_none():
    found = plan(
        [place("1 inlet", "0.30", "2.40"), place("1 exhaust", "0.10", "2.50")],
        series=series(*sizes("2.00", "2.98", "0.02")),
    )
    assert [(m.to_shim, m.clearance_after, m.said) for m in found.moves] == [
        (Decimal("2.50"), Decimal("0.20"), "swapped from 1 exhaust"),
        (Decimal("2.40"), Decimal("0.20"), "swapped from 1 inlet"),
    ]
    assert (found.to_buy, found.left_over, found.saved) == ((), (), 2)


def test_one_in_its_range_stays_unless_moving_it_saves_a_purchase():
    """1 inlet may have 2.48 to 2.52, and its own is in range; 2 inlet takes just that one, and what
    is at hand would do for 1 inlet."""
    places = [place("1 inlet", "0.19", "2.50"), place("2 inlet", "0.30", "2.40")]
    stays = plan(places, series=sizes("2.50"))
    assert [m.source for m in stays.moves] == [Source.STAYS, Source.BUY]
    moved = plan(places, at_hand=sizes("2.47"), series=sizes("2.50"))
    assert [m.source for m in moved.moves] == [Source.AT_HAND, Source.SWAPPED]
    assert (moved.to_buy, moved.saved) == ((), 1)


def test_what_no_shim_brings_into_range_is_said_and_keeps_its_shim_meanwhile():
    found = plan([place("1 exhaust", "0.90", "2.40"), place("2 exhaust", "0.20", "2.40")])
    assert [p.name for p in found.impossible] == ["1 exhaust"]
    assert [m.source for m in found.moves] == [Source.STAYS]
    assert found.left_over == ()


def test_of_two_sizes_as_near_the_looser_is_bought():
    found = plan([place("1 inlet", "0.30", "2.40")], series=sizes("2.49", "2.51"))
    assert found.to_buy == sizes("2.49")


def test_limits_are_in_the_range():
    found = plan([place("1 inlet", "0.18", "2.40"), place("2 inlet", "0.22", "2.40")])
    assert [m.source for m in found.moves] == [Source.STAYS, Source.STAYS]


@pytest.mark.parametrize(
    ("given_", "said"),
    [
        (("2.98", "2.00", "0.02"), "thinnest to its thickest"),
        (("2.00", "2.98", "0"), "thinnest to its thickest"),
        (("2.00", "298", "0.02"), "Is the point where it belongs"),
    ],
)
def test_a_series_that_cannot_be_is_refused_in_one_sentence(given_, said):
    with pytest.raises(BadInput, match=said):
        series(*map(Decimal, given_))


# The exhaustive search: every way of giving the places the shims that there are, or new ones.

HUNDREDTHS = st.integers(0, 14).map(lambda n: Decimal(n) / 100)
THICK = st.integers(240, 254).map(lambda n: Decimal(n) / 100)
PLACE = st.builds(
    lambda clearance, shim, low, wide: ValvePlace(
        "", clearance + Decimal("0.10"), shim, low, low + wide
    ),
    HUNDREDTHS,
    THICK,
    st.sampled_from(sizes("0.14", "0.17")),
    st.sampled_from(sizes("0.00", "0.03", "0.05")),
)
SERIES = st.sampled_from([(), series(*sizes("2.30", "2.60", "0.05")), sizes("2.46", "2.48")])


def score(places, given_):
    """(impossible, bought, moved, off) of shims given: (size, own or not, bought or not)."""
    none = sum(one is None for one in given_)
    pairs = [(p, one) for p, one in zip(places, given_, strict=True) if one is not None]
    bought = sum(kind == "buy" for _, (_, kind) in pairs)
    moved = sum(kind != "own" for _, (_, kind) in pairs)
    off = sum((abs(p.after(size) - (p.low + p.high) / 2) for p, (size, _) in pairs), Decimal(0))
    return none, bought, moved, off


def best_by_search(places, at_hand, made):
    """The best score over all ways, by going through every set of shims already given."""
    stock = [*(p.shim for p in places), *at_hand]

    @cache
    def from_(n, used):
        if n == len(places):
            return (0, 0, 0, Decimal(0))
        ways = [(None, used)]
        ways += [((size, "buy"), used) for size in made]
        ways += [
            ((size, "own" if m == n else "other"), used | 1 << m)
            for m, size in enumerate(stock)
            if not used >> m & 1
        ]
        return min(
            tuple(map(sum, zip(score([places[n]], [one]), from_(n + 1, after), strict=True)))
            for one, after in ways
            if one is None or places[n].low <= places[n].after(one[0]) <= places[n].high
        )

    return from_(0, 0)


def score_of(found, places, at_hand):
    moves = {id(m.place): m for m in found.moves}
    given_ = []
    for one in places:
        move = moves.get(id(one))
        if move is None:
            given_.append(None)
            continue
        kind = {Source.STAYS: "own", Source.BUY: "buy"}.get(move.source, "other")
        given_.append((move.to_shim, kind))
    return score(places, given_)


@given(st.lists(PLACE, max_size=8), st.lists(THICK, max_size=3), SERIES)
def test_no_other_way_is_better(places, at_hand, made):
    found = plan(places, at_hand, made)
    assert score_of(found, places, at_hand) == best_by_search(places, at_hand, made)


@given(st.lists(PLACE, max_size=3), st.lists(THICK, max_size=2), SERIES)
def test_the_search_itself_is_that_over_plainly_every_way(places, at_hand, made):
    stock = [*(p.shim for p in places), *at_hand]
    options = [
        [None, *((size, "buy") for size in made), *enumerate(stock)] for _ in range(len(places))
    ]
    best = None
    for way in product(*options):
        used = [one[0] for one in way if one and one[1] != "buy"]
        if len(set(used)) != len(used):
            continue
        told = [
            None if one is None
            else one if one[1] == "buy"
            else (one[1], "own" if one[0] == n else "other")
            for n, one in enumerate(way)
        ]  # fmt: skip
        if all(one is None or places[n].takes(one[0]) for n, one in enumerate(told)):
            best = min(score(places, told), best or (99,))
    assert best_by_search(places, at_hand, made) == best


@given(st.lists(PLACE, max_size=8), st.lists(THICK, max_size=4), SERIES)
def test_every_shim_is_used_once_and_every_place_is_in_its_range(places, at_hand, made):
    found = plan(places, at_hand, made)
    assert len(found.moves) + len(found.impossible) == len(places)
    assert all(m.place.low <= m.clearance_after <= m.place.high for m in found.moves)
    assert all(
        m.clearance_after == m.place.clearance + m.from_shim - m.to_shim for m in found.moves
    )
    there = [p.shim for p in places]
    taken = [m.to_shim for m in found.moves if m.source in (Source.STAYS, Source.SWAPPED)]
    rest = Counter(there) - Counter(taken)
    kept = rest - Counter(found.left_over)
    assert Counter(found.left_over) <= rest
    assert kept <= Counter(place.shim for place in found.impossible)
    spare = list(at_hand)
    for move in found.moves:
        if move.source is Source.AT_HAND:
            spare.remove(move.to_shim)
    assert found.to_buy == tuple(sorted(m.to_shim for m in found.moves if m.source is Source.BUY))
    assert set(found.to_buy) <= set(made)


@given(st.data())
def test_the_assignment_costs_what_scipy_says(data):
    """scipy.optimize.linear_sum_assignment as a second opinion."""
    import numpy as np
    from scipy.optimize import linear_sum_assignment

    rows = data.draw(st.integers(1, 7))
    columns = rows + data.draw(st.integers(0, 5))
    line = st.lists(st.integers(0, 30), min_size=columns, max_size=columns)
    costs = data.draw(st.lists(line, min_size=rows, max_size=rows))
    found = cheapest(costs)
    assert len(set(found)) == rows
    table = np.array(costs)
    total = table[linear_sum_assignment(table)].sum()
    assert sum(costs[row][column] for row, column in enumerate(found)) == total
