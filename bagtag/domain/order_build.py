"""A problem in numbers: each step its rank in the log order, each tie an edge between ranks."""

from collections.abc import Iterator, Sequence

from bagtag.domain.fitting import Ref
from bagtag.domain.order_areas import Nested, Opened, outside_in
from bagtag.domain.order_log import log_order
from bagtag.domain.order_net import Edge, Net, OpenerTies, Signed
from bagtag.domain.order_problem import Because, Problem, Tie
from bagtag.domain.order_sets import Sets


class Ground:
    """What holds for as long as log and areas do: the log order, each step's rank in it, and what
    opens what. Given the one before, areas that are the same are not sorted anew."""

    def __init__(self, problem: Problem, before: "Ground | None" = None) -> None:
        items = log_order(problem)
        self._of = (problem.log, problem.added, problem.areas)
        self.refs = [item.ref for item in items]
        self.ranks = dict(zip(self.refs, range(len(items)), strict=True))
        if before is not None and before._of[2] is problem.areas:
            self._areas: list[Nested] = before._areas
        else:
            self._areas = outside_in(problem.areas)
        self.opened = Opened(self.ranks, self._areas, [item.area_id for item in items])

    def is_under(self, problem: Problem) -> bool:
        """Whether log and areas are the very same objects."""
        now = (problem.log, problem.added, problem.areas)
        return all(one is other for one, other in zip(self._of, now, strict=True))


class Build:
    """`net` has the steps and the ties between them, `inner` the ties within each together set."""

    def __init__(self, problem: Problem, ground: Ground) -> None:
        self.problem, self.ground = problem, ground
        self.sets = Sets(ground.ranks, problem.together)
        self.signed = Signed([ground.ranks[ref] for ref in problem.signed if ref in ground.ranks])
        self.openers = OpenerTies(ground.opened, self.sets, self.signed)
        said, self.inner = self._sorted_out()
        gone = set(self.sets.rows_of).difference(self.sets.members)
        self.net = Net(len(ground.refs), said, gone, self.openers)

    def _sorted_out(self) -> tuple[list[Edge], dict[int, list[Edge]]]:
        """The ties between steps, and by node those within a set."""
        said: list[Edge] = []
        inner: dict[int, list[Edge]] = {}
        for edge in self._said():
            if edge[0] != edge[1]:
                said.append(edge)
            elif edge[3] != edge[4]:
                inner.setdefault(edge[0], []).append(edge)
        for edge in self.openers.inner():
            inner.setdefault(edge[0], []).append(edge)
        return said, inner

    def _said(self) -> Iterator[Edge]:
        ranks, nodes = self.ground.ranks, self.sets.node_of
        for number, tie in enumerate(self.problem.ties):
            before, after = ranks.get(tie.before), ranks.get(tie.after)
            if before is None or after is None or self.signed.drops(before, after):
                continue
            yield nodes[before], nodes[after], tie.is_wait, before, after, number

    def within(self, node: int) -> Net:
        """The ties within a set, its members numbered from 0 in log order."""
        number = {rank: n for n, rank in enumerate(self.sets.members[node])}
        ties = [(number[e[3]], number[e[4]], *e[2:]) for e in self.inner.get(node, ())]
        return Net(len(number), ties)

    def tie(self, edge: Edge) -> Tie:
        """The tie an edge stands for."""
        if edge[5] >= 0:
            return self.problem.ties[edge[5]]
        before, after = self.ground.refs[edge[3]], self.ground.refs[edge[4]]
        area = self.ground.opened.ids[-1 - edge[5]]
        return Tie(before, after, is_wait=True, because=Because.OPENER, source=area)

    def goes_with(self, member: int, other: int, *, is_wait: bool) -> Tie:
        """That a member is held back with another of its set, or brought forward with it."""
        ends = (other, member) if is_wait else (member, other)
        before, after = self.refs(ends)
        return Tie(before, after, is_wait, Because.TOGETHER, self.sets.source(member, other))

    def refs(self, ranks: Sequence[int]) -> tuple[Ref, ...]:
        return tuple(map(self.ground.refs.__getitem__, ranks))
