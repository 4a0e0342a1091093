"""The cheapest way to give each row a column of its own: the assignment problem, solved exactly.

The rows are matched one after another along cheapest augmenting paths, with a price for each row
and column that keeps every reduced cost at zero or above (H. W. Kuhn 1955, J. Munkres 1957).
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

Costs = Sequence[Sequence[int]]
FREE = -1


@dataclass(slots=True)
class _Search:
    """One search for a way to a free column: `least` is the reduced cost of reaching each column,
    `by` the column it is reached from, `done` those that are settled."""

    least: dict[int, int]
    by: dict[int, int] = field(default_factory=dict)
    done: list[int] = field(default_factory=list)


def cheapest(costs: Costs) -> tuple[int, ...]:
    """The column of each row, of least total cost. At least as many columns as rows; the costs
    are whole numbers, so that nothing is rounded."""
    if not costs:
        return ()
    solver = _Solver(costs)
    for row in range(len(costs)):
        solver.match(row)
    found = {row: column for column, row in enumerate(solver.row_of) if row != FREE}
    return tuple(found[row] for row in range(len(costs)))


class _Solver:
    def __init__(self, costs: Costs) -> None:
        self.costs = costs
        self.row_price = [0] * len(costs)
        self.column_price = [0] * len(costs[0])
        self.row_of = [FREE] * len(costs[0])

    def match(self, row: int) -> None:
        """Give a row a column; the others may change theirs."""
        search = _Search(self._reduced(row))
        search.by = dict.fromkeys(search.least, FREE)
        column = self._settle(search, row)
        while self.row_of[column] != FREE:
            self._reach(search, column)
            column = self._settle(search, row)
        self._hand_over(search, column, row)

    def _reduced(self, row: int) -> dict[int, int]:
        price, columns = self.row_price[row], self.column_price
        return {
            column: cost - price - columns[column] for column, cost in enumerate(self.costs[row])
        }

    def _settle(self, search: _Search, row: int) -> int:
        """The nearest column that is open; prices move so that it costs nothing to go there."""
        column = min(search.least, key=search.least.__getitem__)
        step = search.least.pop(column)
        self.row_price[row] += step
        for known in search.done:
            self.row_price[self.row_of[known]] += step
            self.column_price[known] -= step
        for other in search.least:
            search.least[other] -= step
        search.done.append(column)
        return column

    def _reach(self, search: _Search, column: int) -> None:
        """Where one can go on from the row that holds a settled column."""
        row = self.row_of[column]
        price, costs = self.row_price[row], self.costs[row]
        for other, known in search.least.items():
            reduced = costs[other] - price - self.column_price[other]
            if reduced < known:
                search.least[other], search.by[other] = reduced, column

    def _hand_over(self, search: _Search, column: int, row: int) -> None:
        """Each row along the way takes the column it reached, the new row the first of them."""
        while (before := search.by[column]) != FREE:
            self.row_of[column] = self.row_of[before]
            column = before
        self.row_of[column] = row
