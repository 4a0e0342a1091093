"""The closing count: what came off equals what went back, was renewed or was scrapped.

That quantity out = quantity refitted + replaced + scrapped + held is how parts are closed out, and
that every item and every piece of it is accounted for before the machine runs is the rule of tool
control (NAVEDTRA 14018, chapter 3); that it holds for a strip log is common practice.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from bagtag.domain import closing_parts, closing_short, closing_tasks
from bagtag.domain.closing_bench import Bench, is_new
from bagtag.domain.closing_containers import by_container
from bagtag.domain.closing_fasteners import batches, by_size
from bagtag.domain.closing_rows import (
    Closing,
    ContainerLine,
    FastenerLine,
    ItemLine,
    Leftover,
    Likely,
    Outcome,
    Pieces,
)

__all__ = ["Closing", "ClosingCount", "Likely", "Outcome", "Pieces", "closing_count"]


@dataclass(frozen=True, slots=True)
class ClosingCount:
    """A job counted up three ways. `items` are in the order off, new parts among them;
    `leftovers` what does not add up, the most telling first; `away` how many parts are away."""

    items: tuple[ItemLine, ...] = ()
    fasteners: tuple[FastenerLine, ...] = ()
    containers: tuple[ContainerLine, ...] = ()
    leftovers: tuple[Leftover, ...] = ()
    away: int = 0

    @property
    def total(self) -> Pieces:
        """All parts that came off, in pieces; new ones are not among them."""
        return _sum(line.pieces for line in self.items)

    @property
    def of_fasteners(self) -> Pieces:
        """All counted fasteners that came off."""
        return _sum(line.pieces for line in self.fasteners)

    @property
    def new_in(self) -> int:
        """Pieces of new parts that are in."""
        return self._new(Outcome.BACK, Outcome.RENEWED)

    @property
    def new_left(self) -> int:
        """Pieces of new parts that are not in yet."""
        return self._new(Outcome.LEFT)

    @property
    def pieces(self) -> int:
        """Pieces still to account for: parts, and fasteners of parts that are in."""
        return sum(one.pieces for one in self.leftovers)

    @property
    def nothing_left(self) -> bool:
        """Whether every piece is accounted for, whatever is still to be signed."""
        return not self.pieces

    @property
    def emptied(self) -> bool:
        """Whether every container is emptied."""
        return all(line.emptied for line in self.containers)

    @property
    def adds_up(self) -> bool:
        """Whether the job can be closed."""
        return not self.leftovers

    def _new(self, *outcomes: Outcome) -> int:
        wanted = (line for line in self.items if line.is_new and line.outcome in outcomes)
        return sum(line.quantity for line in wanted)


def closing_count(closing: Closing) -> ClosingCount:
    """The count of a job as it stands; the same whatever the order of the rows given.
    O(n log n), and a product of the steps short of one thread and those with too many of it."""
    bench = Bench(closing)
    counted = batches(bench)
    rank = {likely: place for place, likely in enumerate(Likely)}
    leftovers = [
        *closing_parts.found(bench),
        *closing_tasks.found(bench),
        *closing_short.found(bench, counted),
    ]
    return ClosingCount(
        tuple(
            ItemLine(r.id, r.number, r.name, r.quantity, bench.outcome(r), is_new(r))
            for r in bench.log
        ),
        by_size(counted),
        by_container(bench),
        tuple(sorted(leftovers, key=lambda one: rank[one.likely])),
        len(closing.away),
    )


def _sum(lines: Iterable[Pieces]) -> Pieces:
    return sum(lines, start=Pieces())
