"""Which tie holds a step back and which brought it forward, told of steps instead of numbers."""

from collections.abc import Mapping

from bagtag.domain.fitting import Ref
from bagtag.domain.order_build import Build
from bagtag.domain.order_problem import Tie
from bagtag.domain.order_walk import Walk


class Told:
    """`held` and `pulled`, as in `Plan`.

    A set that is held or brought forward is so because of one member, and the others go with that
    one. A set stands at its middle member's log place, so the others stand away from their own.
    """

    def __init__(self, build: Build, walk: Walk, within: Mapping[int, Walk]) -> None:
        self._build, self._walk = build, walk
        self._held = {edge[4]: build.tie(edge) for edge in walk.held.values()}
        self._pulled = {edge[3]: build.tie(edge) for edge in walk.pulled.values()}
        for node, members in build.sets.members.items():
            if node in within:
                self._add_within(members, within[node])
            self._add_set(node, members)
        self.held = self._by_ref(self._held)
        self.pulled = self._by_ref(self._pulled)

    def _add_within(self, members: tuple[int, ...], within: Walk) -> None:
        for number, edge in within.held.items():
            self._held.setdefault(members[number], self._build.tie(edge))
        for number, edge in within.pulled.items():
            self._pulled.setdefault(members[number], self._build.tie(edge))

    def _add_set(self, node: int, members: tuple[int, ...]) -> None:
        walk, tie = self._walk, self._build.goes_with
        place, early = walk.places.get(node, node), node in walk.pulled
        holds = walk.held[node][4] if node in walk.held else node
        pulls = walk.pulled[node][3] if early else node
        for rank in members:
            if rank < place and rank not in self._held:
                self._held[rank] = tie(rank, holds, is_wait=True)
            if (rank > place or early) and rank not in self._pulled:
                self._pulled[rank] = tie(rank, pulls, is_wait=False)

    def _by_ref(self, ties: Mapping[int, Tie]) -> dict[Ref, Tie]:
        return {self._build.ground.refs[rank]: tie for rank, tie in sorted(ties.items())}
