"""Hole maps and hardware that the tests of holes and passes share."""

from hypothesis import strategies as st

from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.hole_places import grid, numbered, ring
from bagtag.domain.holes import Hole, HoleMap, OrderKind


def ring_of(n, *, clockwise=True, **more):
    points = ring(n, (100, 75), 60, clockwise=clockwise)
    return numbered(HoleMap(**more), points, "A")


def head_of(columns=5, rows=2, **more):
    """A head, numbered row by row from the top left."""
    empty = HoleMap(width=500, height=250, order=OrderKind.CENTRE, **more)
    return numbered(empty, grid(columns, rows, (50, 50), 90, 100), "A")


def bolts(count=6, thread="M8", value=None, **more):
    torque = None if value is None else Torque(value)
    return HeldBy(count, "bolt", thread, 35, torque=torque, **more)


PLACES = st.tuples(st.integers(0, 40), st.integers(0, 30)).map(lambda at: (at[0] * 5, at[1] * 5))
MARKS = st.sampled_from(["", "A", "A", "B", "C"])


@st.composite
def maps(draw, most=24, orders=tuple(OrderKind)):
    """Any holes on a coarse raster, no two in one place."""
    points = draw(st.lists(PLACES, min_size=1, max_size=most, unique=True))
    holes = tuple(
        Hole(i, x, y, draw(MARKS), draw(st.sampled_from(["", "", "inner"])))
        for i, (x, y) in enumerate(points, 1)
    )
    given = draw(st.permutations([hole.number for hole in holes]))
    return HoleMap(
        holes, order=draw(st.sampled_from(orders)), given=tuple(given[: len(given) // 2])
    )
