"""Steps that go in together: sets that share a member are one step, at its middle member's place.

Inside the engine a removal or task is its rank in the log order; a step is the rank of its middle
member, its *node*.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from bagtag.domain.fitting import Ref
from bagtag.domain.order_problem import Together


class Sets:
    """`node_of` gives each rank its node, `members` each node of more than one its ranks in log
    order, `rows` the sets as they were said, (source, ranks)."""

    def __init__(self, ranks: Mapping[Ref, int], together: Iterable[Together]) -> None:
        found = [(row.source, _known(ranks, row)) for row in together]
        self.rows = [(source, members) for source, members in found if len(members) > 1]
        self.rows_of: dict[int, list[int]] = defaultdict(list)
        for number, (_, members) in enumerate(self.rows):
            for rank in members:
                self.rows_of[rank].append(number)
        self.members = {group[(len(group) - 1) // 2]: group for group in self._merged()}
        self.node_of: Sequence[int] = self._nodes(len(ranks))

    def _merged(self) -> Iterable[tuple[int, ...]]:
        seen: set[int] = set()
        for rank in sorted(self.rows_of):
            if rank not in seen:
                group = self._reached(rank)
                seen |= group
                yield tuple(sorted(group))

    def _reached(self, rank: int) -> set[int]:
        group, rows, open_ = {rank}, set[int](), [rank]
        while open_:
            for row in self.rows_of[open_.pop()]:
                if row not in rows:
                    rows.add(row)
                    open_ += set(self.rows[row][1]) - group
                    group.update(self.rows[row][1])
        return group

    def _nodes(self, count: int) -> Sequence[int]:
        if not self.members:
            return range(count)
        nodes = list(range(count))
        for node, group in self.members.items():
            for rank in group:
                nodes[rank] = node
        return nodes

    def of(self, node: int) -> tuple[int, ...]:
        return self.members.get(node, (node,))

    def source(self, member: int, other: int) -> int:
        """The rule that ties a member to another; where only several together do, the member's
        own first."""
        rows = self.rows_of[member]
        both = [row for row in rows if other in self.rows[row][1]]
        return self.rows[(both or rows)[0]][0]


def _known(ranks: Mapping[Ref, int], row: Together) -> tuple[int, ...]:
    return tuple(dict.fromkeys(ranks[ref] for ref in row.members if ref in ranks))
