"""The shortest circle of ties that cannot all hold."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from bagtag.domain.order_build import Build
from bagtag.domain.order_net import Edge
from bagtag.domain.order_problem import Because, Circle, Tie

Hop = tuple[int, int, int]
"""From one member of a set to another, by a rule: rank, rank, the rule's id."""


@dataclass(frozen=True, slots=True)
class _Ways:
    """The ways on from a rank: by ties, and to those that go in together with it."""

    ties: Callable[[int], Iterable[Edge]]
    hops: Callable[[int], Iterable[Hop]]


def smallest(build: Build) -> Circle:
    """The circle of the fewest steps; of several the first by the order of the ties.

    Every circle has a tie that stands against the log, so it is enough to look from the steps that
    such ties lead to, and no further than the best found.
    """
    best: list[Edge | Hop] = []
    for start, ways in _starts(build):
        found = _round_trip(start, ways, len(best) - 1 if best else None)
        best = found or best
        if len(best) == 2:
            break
    return Circle(tuple(_tie(build, way) for way in best))


def _starts(build: Build) -> Iterator[tuple[int, _Ways]]:
    between = _Ways(lambda rank: _out_of(build, rank), lambda rank: _hops(build, rank))
    within = _Ways(lambda rank: _inside(build, rank), lambda _: ())
    inner = [edge for edges in build.inner.values() for edge in edges if edge[3] > edge[4]]
    against = [(edge, between) for edge in build.net.against]
    both = sorted([*against, *((edge, within) for edge in inner)], key=_turn)
    starts = [(edge[4], ways) for edge, ways in both]
    starts += [(edge[4], between) for edge in build.net.late_openers]
    yield from dict.fromkeys(starts)


def _turn(row: tuple[Edge, _Ways]) -> tuple[bool, int]:
    """The order of the ties, those of openers last."""
    mark = row[0][5]
    return mark < 0, abs(mark)


def _out_of(build: Build, rank: int) -> list[Edge]:
    node = build.sets.node_of[rank]
    return [edge for edge in build.net.out_of(node) if edge[3] == rank]


def _inside(build: Build, rank: int) -> list[Edge]:
    edges = build.inner.get(build.sets.node_of[rank], ())
    return [edge for edge in edges if edge[3] == rank]


def _hops(build: Build, rank: int) -> Iterator[Hop]:
    for row in build.sets.rows_of.get(rank, ()):
        source, members = build.sets.rows[row]
        for other in members:
            yield rank, other, source


def _round_trip(start: int, ways: _Ways, most: int | None) -> list[Edge | Hop]:
    """The shortest way by ties and hops from a step that comes back to it by a tie; none longer
    than `most`."""
    came: dict[int, Edge | Hop | None] = {start: None}
    open_, length = [start], 0
    while open_ and (most is None or length < most):
        length += 1
        following: list[int] = []
        for rank in open_:
            for edge in ways.ties(rank):
                if edge[4] == start:
                    return [*_way(came, rank), edge]
                _reach(came, following, edge[4], edge)
            for hop in ways.hops(rank):
                _reach(came, following, hop[1], hop)
        open_ = following
    return []


def _reach(
    came: dict[int, Edge | Hop | None], following: list[int], rank: int, way: Edge | Hop
) -> None:
    if rank not in came:
        came[rank] = way
        following.append(rank)


def _way(came: dict[int, Edge | Hop | None], rank: int) -> Sequence[Edge | Hop]:
    back: list[Edge | Hop] = []
    while (way := came[rank]) is not None:
        back.append(way)
        rank = way[3] if len(way) == 6 else way[0]
    return back[::-1]


def _tie(build: Build, way: Edge | Hop) -> Tie:
    if len(way) == 6:
        return build.tie(way)
    before, after = build.ground.refs[way[0]], build.ground.refs[way[1]]
    return Tie(before, after, is_wait=True, because=Because.TOGETHER, source=way[2])
