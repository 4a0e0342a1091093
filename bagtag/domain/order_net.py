"""The steps of a build and the ties between them, in numbers: what the order is computed on."""

from collections.abc import Collection, Iterator, Mapping, Sequence

from bagtag.domain.order_areas import Opened
from bagtag.domain.order_sets import Sets

Edge = tuple[int, int, bool, int, int, int]
"""A tie: node before, node after, whether it is a wait, rank of the step before and of the step
after, and where it comes from: its place among the problem's ties, or -1 less the opened area."""


class Circular(Exception):
    """The ties cannot all hold."""


class Signed:
    """What is signed off, as ranks in the order signed. A tie to a signed step holds only where
    what it needs was signed before it."""

    def __init__(self, ranks: Sequence[int]) -> None:
        self.ranks = tuple(dict.fromkeys(ranks))
        self.turn = {rank: turn for turn, rank in enumerate(self.ranks)}

    def drops(self, before: int, after: int) -> bool:
        turn = self.turn.get(after)
        return turn is not None and self.turn.get(before, turn) >= turn


class OpenerTies:
    """An opener waits for all that lies in its area, but for its own set."""

    def __init__(self, opened: Opened, sets: Sets, signed: Signed) -> None:
        self.opened, self.sets, self.signed = opened, sets, signed

    def out_of(self, node: int) -> Iterator[Edge]:
        for rank in self.sets.of(node):
            for area in self.opened.over(rank):
                edge = self._edge(rank, area)
                if edge[1] != node and not self.signed.drops(rank, edge[4]):
                    yield edge

    def into(self, node: int) -> Iterator[Edge]:
        for rank in self.sets.of(node):
            for area in self.opened.by(rank):
                yield from self._into(area)

    def _into(self, area: int) -> Iterator[Edge]:
        for rank in self.opened.inside(area):
            edge = self._edge(rank, area)
            if edge[0] != edge[1] and not self.signed.drops(rank, edge[4]):
                yield edge

    def _edge(self, rank: int, area: int) -> Edge:
        opener, nodes = self.opened.opener[area], self.sets.node_of
        return (nodes[rank], nodes[opener], True, rank, opener, -1 - area)

    def against(self) -> Iterator[Edge]:
        """Of each opener that stands before its contents, the tie from the last of them."""
        nodes, turn = self.sets.node_of, self.signed.turn
        for area, last in enumerate(self.opened.last(self.sets)):
            opener, rank = self.opened.opener[area], last
            if rank >= 0 and nodes[rank] > nodes[opener] and opener in turn:
                rank = self._last_kept(area)
            if rank >= 0 and nodes[rank] > nodes[opener]:
                yield self._edge(rank, area)

    def _last_kept(self, area: int) -> int:
        """Of a signed opener the last of what was signed before it."""
        opener, nodes, turn = self.opened.opener[area], self.sets.node_of, self.signed.turn
        before, own = turn[opener], nodes[opener]
        signed = (rank for rank in self.opened.inside(area) if turn.get(rank, before) < before)
        kept = ((nodes[rank], rank) for rank in signed if nodes[rank] != own)
        return max(kept, default=(-1, -1))[1]

    def inner(self) -> Iterator[Edge]:
        """The ties between members of one set."""
        for node, group in self.sets.members.items():
            for rank in group:
                for area in self.opened.over(rank):
                    edge = self._edge(rank, area)
                    inside = edge[1] == node and edge[4] != rank
                    if inside and not self.signed.drops(rank, edge[4]):
                        yield edge


class Net:
    """Nodes from 0 to `size`, but for those in `gone`; `said`, the ties but for openers', in the
    order given."""

    def __init__(
        self,
        size: int,
        said: Sequence[Edge],
        gone: Collection[int] = (),
        openers: OpenerTies | None = None,
    ) -> None:
        self.size, self.said, self.gone, self.openers = size, said, gone, openers
        self.said_into: Mapping[int, list[Edge]] = _by(said, 1)
        self._said_out: Mapping[int, list[Edge]] = _by(said, 0)
        self.against = [edge for edge in said if edge[0] > edge[1]]
        self.late_openers = list(openers.against()) if openers else []

    def out_of(self, node: int) -> list[Edge]:
        """The ties to what needs a node."""
        said = self._said_out.get(node, [])
        return [*said, *self.openers.out_of(node)] if self.openers else said

    def into(self, node: int) -> list[Edge]:
        """The ties to what a node needs."""
        said = self.said_into.get(node, [])
        return [*said, *self.openers.into(node)] if self.openers else said


def _by(edges: Sequence[Edge], end: int) -> Mapping[int, list[Edge]]:
    found: dict[int, list[Edge]] = {}
    for edge in edges:
        found.setdefault(edge[end], []).append(edge)
    return found
