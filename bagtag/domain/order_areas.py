"""Openers: what lies in an area and below it goes in before what closes it.

A large area would mean a tie from each part in it to each opener over it. They are never all
written out: what holds an opener back is the last in its area alone, and the rest are looked up
when a step moves.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from bagtag.domain.fitting import Ref, part
from bagtag.domain.model import Area
from bagtag.domain.order_sets import Sets

NONE = (-1, -1)


class Opened:
    """The areas that a step opens, the rest folded into the nearest such area above, numbered from
    the outside inwards. `opener` is the rank of what opens each, `up` the area above, or -1."""

    def __init__(
        self, ranks: Mapping[Ref, int], areas: Sequence[Area], area_of: Sequence[int | None]
    ) -> None:
        self.area_of = area_of
        self.ids: list[int] = []
        self.opener: list[int] = []
        self.up: list[int] = []
        self.near: dict[int | None, int] = {}
        for area in _outside_in(areas):
            self._add(area, ranks)
        self._inside: dict[int, list[int]] = {}
        self._below: dict[int, list[int]] = {}

    def _add(self, area: Area, ranks: Mapping[Ref, int]) -> None:
        above = self.near.get(area.parent_id, -1)
        rank = None if area.opener_id is None else ranks.get(part(area.opener_id))
        self.near[area.id] = above if rank is None else len(self.ids)
        if rank is not None:
            self.ids.append(area.id)
            self.opener.append(rank)
            self.up.append(above)

    def over(self, rank: int) -> Iterator[int]:
        """The opened areas that a step lies in, the nearest first."""
        area = self.near.get(self.area_of[rank], -1)
        while area >= 0:
            yield area
            area = self.up[area]

    def inside(self, area: int) -> Iterator[int]:
        """The ranks of all that lies in an opened area and below it."""
        if not self._inside:
            self._sort_in()
        open_ = [area]
        while open_:
            area = open_.pop()
            yield from self._inside.get(area, ())
            open_ += self._below.get(area, ())

    def _sort_in(self) -> None:
        """Once, and only when a step moves that opens something."""
        inside, below = defaultdict[int, list[int]](list), defaultdict[int, list[int]](list)
        for rank, area_id in enumerate(self.area_of):
            inside[self.near.get(area_id, -1)].append(rank)
        for area, up in enumerate(self.up):
            below[up].append(area)
        self._inside, self._below = inside, below

    def last(self, sets: Sets) -> list[tuple[int, int]]:
        """For each opened area the latest step in it and below that is not its opener's own, as
        (node, rank), or (-1, -1)."""
        apart = {*self.opener, *sets.rows_of}
        plain = list(self.area_of)
        for rank in apart:
            plain[rank] = None
        last = [NONE] * len(self.ids)
        for area_id, rank in dict(zip(plain, range(len(plain)), strict=True)).items():
            area = self.near.get(area_id, -1)
            if area >= 0:
                last[area] = max(last[area], (rank, rank))
        for area in range(len(last) - 1, -1, -1):
            if self.up[area] >= 0:
                last[self.up[area]] = max(last[self.up[area]], last[area])
        self._add_apart(last, sets, apart)
        return last

    def _add_apart(self, last: list[tuple[int, int]], sets: Sets, apart: set[int]) -> None:
        for rank in apart:
            node = sets.node_of[rank]
            for area in self.over(rank):
                if sets.node_of[self.opener[area]] != node:
                    last[area] = max(last[area], (node, rank))


def _outside_in(areas: Sequence[Area]) -> Iterator[Area]:
    """Each area after the one it lies in; where areas lie in one another in a ring, each of them
    as if it lay in none."""
    below: dict[int, list[Area]] = defaultdict(list)
    known = {area.id: area for area in areas}
    open_ = []
    for area in known.values():
        if area.parent_id is None or area.parent_id not in known:
            open_.append(area)
        else:
            below[area.parent_id].append(area)
    for area in open_:
        yield area
        del known[area.id]
        open_ += below[area.id]
    for area in known.values():
        yield Area(area.id, area.job_id, area.name, None, area.opener_id)
