"""The shortest circle of ties that cannot all hold."""

from collections import defaultdict
from collections.abc import Iterable, Iterator

from bagtag.domain.order_build import Build
from bagtag.domain.order_net import Edge, Net
from bagtag.domain.order_problem import Because, Circle, Tie

Hop = tuple[int, int, int]
"""From one member of a set to another, by a rule: rank, rank, the rule's id."""

Way = list[Edge | Hop]


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
    """`best`, or a shorter way round; between the members of a set one may hop, given `build`."""
    against = [*net.against, *net.late_openers]
    core = _Core(net, build, against)
    for node, start in dict.fromkeys((edge[1], edge[4]) for edge in against):
        if len(best) == 2:
            break
        if node in core.live:
            best = core.round_trip(start, len(best) - 1 if best else None) or best
            core.done_with(node)
    return best


class _Core:
    """What can be reached from the steps that stand against the log, but for what leads nowhere
    and what nothing leads to. `live` are the nodes that are left."""

    def __init__(self, net: Net, build: Build | None, against: Iterable[Edge]) -> None:
        self._build = build
        self._out: dict[int, list[Edge]] = {}
        self._into: dict[int, list[Edge]] = defaultdict(list)
        self._ways: dict[int, list[Edge]] = defaultdict(list)
        self._reach(net, dict.fromkeys(edge[1] for edge in against))
        self.live = set(self._out)
        self._outward = {node: len(edges) for node, edges in self._out.items()}
        self._inward = {node: len(self._into[node]) for node in self._out}
        self._trim(self._out)

    def _reach(self, net: Net, starts: Iterable[int]) -> None:
        open_ = list(starts)
        seen = set(open_)
        for node in open_:
            self._out[node] = net.out_of(node)
            for edge in self._out[node]:
                self._ways[edge[3]].append(edge)
                self._into[edge[1]].append(edge)
                if edge[1] not in seen:
                    seen.add(edge[1])
                    open_.append(edge[1])

    def _trim(self, nodes: Iterable[int]) -> None:
        """Take out nodes that nothing leads to or that lead nowhere, and so on."""
        open_ = list(nodes)
        while open_:
            node = open_.pop()
            if node in self.live and not (self._outward[node] and self._inward[node]):
                open_ += self._take_out(node)

    def _take_out(self, node: int) -> Iterator[int]:
        self.live.discard(node)
        for edge in self._out[node]:
            self._inward[edge[1]] -= 1
            yield edge[1]
        for edge in self._into[node]:
            self._outward[edge[0]] -= 1
            yield edge[0]

    def done_with(self, node: int) -> None:
        """Every circle through a step has been looked at; not so where it is one of a set, which
        circles may enter by another member."""
        if self._build is None or node not in self._build.sets.members:
            self._trim(list(self._take_out(node)))

    def round_trip(self, start: int, most: int | None) -> Way:
        """The shortest way by ties and hops from a step that comes back to it by a tie; none
        longer than `most`."""
        came: dict[int, Edge | Hop | None] = {start: None}
        open_, length = [start], 0
        while open_ and (most is None or length < most):
            length += 1
            following: list[int] = []
            for rank in open_:
                for way in self._on_from(rank):
                    after = way[4] if len(way) == 6 else way[1]
                    if after == start and len(way) == 6:
                        return [*_back(came, rank), way]
                    if after not in came:
                        came[after] = way
                        following.append(after)
            open_ = following
        return []

    def _on_from(self, rank: int) -> Iterator[Edge | Hop]:
        for edge in self._ways.get(rank, ()):
            if edge[1] in self.live:
                yield edge
        for row in self._build.sets.rows_of.get(rank, ()) if self._build else ():
            source, members = self._build.sets.rows[row]
            for other in members:
                yield rank, other, source


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
