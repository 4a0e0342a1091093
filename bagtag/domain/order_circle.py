"""The shortest circle of ties that cannot all hold."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from bagtag.domain.order_build import Build
from bagtag.domain.order_net import Edge, Net
from bagtag.domain.order_problem import Because, Circle, Tie
from bagtag.domain.order_sets import Sets

Hop = tuple[int, int, int]
"""From one member of a set to another, by a rule: rank, rank, the rule's id."""

Way = list[Edge | Hop]
Step = tuple[int, int]

NEAR = (2, 6)
"""Steps of the circles that are looked for from each start by itself."""


def smallest(build: Build) -> Circle:
    """The circle of the fewest steps; of several, one that is met first going by the ties in the
    order given, those of openers last, and then by those inside together sets.

    Every circle has a tie that stands against the log, so it is enough to look from the steps that
    such ties lead to, and no further than the best found.
    """
    best = _shortest_in(build.net, build, [])
    for node in build.inner:
        best = _shortest_in(build.within(node), None, best)
    return Circle(tuple(_tie(build, way) for way in best))


def _shortest_in(net: Net, build: Build | None, best: Way) -> Way:
    """`best`, or a shorter way round; between the members of a set one may hop, given `build`.

    Most circles are short, so it looks near first; only where there is none so near does it pay to
    take out all that no circle runs through.
    """
    ways = _Ways(net, build)
    starts = list(dict.fromkeys((e[1], e[4]) for e in (*net.against, *net.late_openers)))
    for most in NEAR:
        for start in starts:
            best = ways.round_trip(start, min(most, len(best) - 1) if best else most) or best
        if best and len(best) <= most:
            return best
    core = _Core(ways, (node for node, _ in starts))
    for start in starts:
        if start[0] in core.live:
            best = core.round_trip(start, len(best) - 1 if best else net.size) or best
            core.done_with(start[0])
    return best


class _Ways:
    """The ways on from each step, looked up once each. A step is (node, rank)."""

    def __init__(self, net: Net, build: Build | None) -> None:
        self.net, self.build = net, build
        self._out: dict[int, list[Edge]] = {}

    def out_of(self, node: int) -> list[Edge]:
        if node not in self._out:
            self._out[node] = self.net.out_of(node)
        return self._out[node]

    def round_trip(self, start: Step, most: int) -> Way:
        """The shortest way by ties and hops from a step that comes back to it by a tie; none
        longer than `most`."""
        came: dict[int, Edge | Hop | None] = {start[1]: None}
        open_, length = [start], 0
        while open_ and length < most:
            length += 1
            following: list[Step] = []
            for step in open_:
                for way, after in self._on_from(step):
                    if after == start and len(way) == 6:
                        return [*_back(came, step[1]), way]
                    if after[1] not in came:
                        came[after[1]] = way
                        following.append(after)
            open_ = following
        return []

    def _on_from(self, step: Step) -> Iterator[tuple[Edge | Hop, Step]]:
        node, rank = step
        for edge in self._ties(node):
            if edge[3] == rank:
                yield edge, (edge[1], edge[4])
        if self.build is not None:
            yield from _hops(self.build.sets, step)

    def _ties(self, node: int) -> Iterable[Edge]:
        return self.out_of(node)


class _Core(_Ways):
    """The same without what no circle through the starts can run through: what leads nowhere, and
    what nothing leads to. `live` are the nodes that are left."""

    def __init__(self, ways: _Ways, starts: Iterable[int]) -> None:
        super().__init__(ways.net, ways.build)
        open_ = list(dict.fromkeys(starts))
        self.live = set(open_)
        self._into: dict[int, list[int]] = defaultdict(list)
        for node in open_:
            for edge in self.out_of(node):
                self._into[edge[1]].append(node)
                if edge[1] not in self.live:
                    self.live.add(edge[1])
                    open_.append(edge[1])
        self._outward = {node: len(self.out_of(node)) for node in open_}
        self._inward = {node: len(self._into[node]) for node in open_}
        self._trim(open_)

    def _ties(self, node: int) -> Iterable[Edge]:
        return [edge for edge in self.out_of(node) if edge[1] in self.live]

    def _trim(self, nodes: Iterable[int]) -> None:
        open_ = list(nodes)
        while open_:
            node = open_.pop()
            if node in self.live and not (self._outward[node] and self._inward[node]):
                open_ += self._take_out(node)

    def _take_out(self, node: int) -> Iterator[int]:
        self.live.discard(node)
        for edge in self.out_of(node):
            self._inward[edge[1]] -= 1
            yield edge[1]
        for before in self._into[node]:
            self._outward[before] -= 1
            yield before

    def done_with(self, node: int) -> None:
        """Every circle through a step has been looked at; not so where it is one of a set, which
        circles may enter by another member."""
        if self.build is None or node not in self.build.sets.members:
            self._trim(list(self._take_out(node)))


def _hops(sets: Sets, step: Step) -> Iterator[tuple[Hop, Step]]:
    node, rank = step
    for row in sets.rows_of.get(rank, ()):
        source, members = sets.rows[row]
        for other in members:
            yield (rank, other, source), (node, other)


def _back(came: dict[int, Edge | Hop | None], rank: int) -> Way:
    back: Way = []
    while (way := came[rank]) is not None:
        back.append(way)
        rank = way[3] if len(way) == 6 else way[0]
    return back[::-1]


def _tie(build: Build, way: Edge | Hop) -> Tie:
    if len(way) == 6:
        return build.tie(way)
    before, after = build.ground.refs[way[0]], build.ground.refs[way[1]]
    return Tie(before, after, is_wait=True, because=Because.TOGETHER, source=way[2])
