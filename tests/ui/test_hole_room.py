"""Numbers on a crowded map: none on another, none on a hole, each beside its own."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from bagtag.ui.holes.hole_room import ABOVE, BELOW, Plate, beside, put

RADIUS, WIDE, HIGH, FAR = 12.0, 26.0, 19.0, 14.0
PLACE = st.tuples(st.floats(0, 600), st.floats(0, 400))


def plates(middles) -> list[Plate]:
    numbers = [
        Plate(("number", n), middle, WIDE, HIGH, FAR, n % 16, ABOVE)
        for n, middle in enumerate(middles)
    ]
    turns = [
        Plate(("turn", n), middle, WIDE, HIGH, FAR, (n + 8) % 16, BELOW)
        for n, middle in enumerate(middles)
    ]
    return [*turns, *numbers]


def meet(one, other) -> bool:
    return one[0] < other[2] and one[2] > other[0] and one[1] < other[3] and one[3] > other[1]


def around(x: float, y: float, wide: float, high: float):
    return x - wide / 2, y - high / 2, x + wide / 2, y + high / 2


@given(st.lists(PLACE, max_size=40))
def test_nothing_that_is_put_lies_on_anything(middles) -> None:
    wanted = {plate.key: plate for plate in plates(middles)}
    found = put(list(wanted.values()), middles, RADIUS)
    boxes = []
    for key, way in found.items():
        across, down = beside(FAR, WIDE, HIGH, way)
        x, y = wanted[key].middle
        boxes.append(around(x + across, y + down, WIDE, HIGH))
    assert not any(meet(one, other) for one, other in combinations(boxes, 2))
    holes = [(middle, around(*middle, 2 * RADIUS, 2 * RADIUS)) for middle in middles]
    for key, box in zip(found, boxes, strict=True):
        others = [hole for middle, hole in holes if middle != wanted[key].middle]
        assert not any(meet(box, hole) for hole in others)


def test_with_room_for_all_each_stands_where_it_is_best() -> None:
    middles = [(0.0, 0.0), (200.0, 0.0), (400.0, 0.0)]
    found = put(plates(middles), middles, RADIUS)
    assert found == {plate.key: plate.way for plate in plates(middles)}


def test_in_a_crowd_numbers_stand_above_and_turns_below_their_holes() -> None:
    """One side for all: a number between two rows must not be taken for the other row's."""
    middles = [(36.0 * x, 50.0 * y) for x in range(6) for y in range(4)]
    found = put(plates(middles), middles, RADIUS)
    assert {key[0] for key in found} == {"number", "turn"}
    assert all(way == (ABOVE if key[0] == "number" else BELOW) for key, way in found.items())
    assert sum(key[0] == "turn" for key in found) == len(middles)
