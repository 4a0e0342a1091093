"""The walk: the earliest step that waits for nothing, and first what it still needs.

A step's place is never earlier than those of what it waits for. So when a step goes in in its turn,
all that have an earlier place are in; and all but the held have their log place. The walk is thus
the log order itself, copied in runs, but for what is held (it goes in after the step whose place it
took) and what is brought forward. Only what moves costs time, and what no rule spans stays as it
is.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from heapq import heapify, heappop, heappush

from bagtag.domain.order_hold import held
from bagtag.domain.order_net import Circular, Edge, Net


class Walk:
    """`order` of the nodes; `places` of the held and the ties that hold them, `held`; `pulled`, the
    tie for which a node went in early. Circular when the ties cannot all hold."""

    def __init__(self, net: Net) -> None:
        self.net = net
        self.places, self.held = held(net)
        self.pulled: dict[int, Edge] = {}
        self.order: list[int] = []
        self._at = 0
        self._in: set[int] = set()
        self._moved = bytearray(net.size)
        for node in (*net.gone, *self.places):
            self._moved[node] = 1
        self._walk()

    def _walk(self) -> None:
        held_at: dict[int, list[int]] = defaultdict(list)
        for node, place in self.places.items():
            held_at[place].append(node)
        pullers = {edge[1] for edge in self.net.against if not edge[2]} - self.places.keys()
        for place in sorted(pullers | held_at.keys()):
            self._copy(place)
            if not self._moved[place]:
                self._put_in(place)
            self._at = place + 1
            self._put_in_held([node for node in held_at.get(place, ()) if node not in self._in])
        self._copy(self.net.size)

    def _copy(self, end: int) -> None:
        """The log order up to `end`, without what has moved."""
        start = self._at
        while start < end:
            stop = self._moved.find(1, start, end)
            stop = end if stop < 0 else stop
            self.order += range(start, stop)
            start = stop + 1
        self._at = end

    def _put_in_held(self, nodes: Collection[int]) -> None:
        """Those held until one place, the earliest of the log first as far as they can."""
        frees, waits = self._among(nodes)
        free = [node for node in nodes if not waits[node]]
        heapify(free)
        while free:
            node, start = heappop(free), len(self.order)
            if node not in self._in:
                self._put_in(node)
            for after in _freed(frees, self.order[start:], waits):
                heappush(free, after)
        if not self._in.issuperset(nodes):
            raise Circular

    def _among(self, nodes: Collection[int]) -> tuple[dict[int, list[int]], dict[int, int]]:
        frees: dict[int, list[int]] = {}
        waits = dict.fromkeys(nodes, 0)
        for node in nodes if len(nodes) > 1 else ():
            frees[node] = [edge[1] for edge in self.net.out_of(node) if edge[1] in waits]
            for after in frees[node]:
                waits[after] += 1
        return frees, waits

    def _put_in(self, root: int) -> None:
        """A step whose waits are all in, after what it still needs."""
        path = [(root, self._missing(self.net.said_into.get(root, ())))]
        open_ = {root}
        while path:
            node, needs = path[-1]
            edge = next((edge for edge in needs if not self._is_in(edge[0])), None)
            if edge is None:
                self._add(path.pop()[0])
                open_.discard(node)
            elif edge[0] in open_:
                raise Circular
            else:
                self._pull(edge)
                open_.add(edge[0])
                path.append((edge[0], self._missing(self.net.into(edge[0]))))

    def _missing(self, edges: Iterable[Edge]) -> Iterator[Edge]:
        missing = [edge for edge in edges if not self._is_in(edge[0])]
        return iter(sorted(missing, key=self._place))

    def _place(self, edge: Edge) -> tuple[int, int]:
        return self.places.get(edge[0], edge[0]), edge[0]

    def _is_in(self, node: int) -> bool:
        return node in self._in or (node < self._at and node not in self.places)

    def _pull(self, edge: Edge) -> None:
        self.pulled[edge[0]] = edge
        self._moved[edge[0]] = 1

    def _add(self, node: int) -> None:
        self.order.append(node)
        self._in.add(node)


def _freed(
    frees: Mapping[int, list[int]], nodes: Iterable[int], waits: dict[int, int]
) -> Iterator[int]:
    for node in nodes:
        for after in frees.get(node, ()):
            waits[after] -= 1
            if not waits[after]:
                yield after
