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

Nested = tuple[int, int | None, Ref]
"""An area's id, that of the area it lies in, and what opens it."""

NOTHING = Ref("nothing", 0)


class Opened:
    """The areas that a step opens, the rest folded into the nearest such area above, numbered from
    the outside inwards, as they are given. `opener` is the rank of what opens each, `up` the area
    above, or -1."""

    def __init__(
        self, ranks: Mapping[Ref, int], areas: Sequence[Nested], area_of: Sequence[int | None]
    ) -> None:
        self.area_of = area_of
        self.ids: list[int] = []
        self.opener: list[int] = []
        self.up: list[int] = []
        self.near: dict[int | None, int] = {}
        self._by: dict[int, list[int]] = {}
        self._inside: dict[int, list[int]] = {}
        self._below: dict[int, list[int]] = {}
        self._last: list[int] | None = None
        found = map(ranks.get, [opener for _, _, opener in areas])
        for (id_, parent_id, _), rank in zip(areas, found, strict=True):
            above = self.near.get(parent_id, -1)
            self.near[id_] = above if rank is None else len(self.ids)
            if rank is not None:
                self.ids.append(id_)
                self.opener.append(rank)
                self.up.append(above)

    def over(self, rank: int) -> Iterator[int]:
        """The opened areas that a step lies in, the nearest first."""
        area = self.near.get(self.area_of[rank], -1)
        while area >= 0:
            yield area
            area = self.up[area]

    def by(self, rank: int) -> Sequence[int]:
        """The areas that a step opens."""
        if not self._by:
            for area, opener in enumerate(self.opener):
                self._by.setdefault(opener, []).append(area)
        return self._by.get(rank, ())

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

    def last(self, sets: Sets) -> list[int]:
        """For each opened area the rank of the latest step in it and below that is not its opener's
        own, or -1."""
        if sets.rows_of:
            return self._last_with(sets)
        if self._last is None:
            self._last = self._last_with(sets)
        return self._last

    def _last_with(self, sets: Sets) -> list[int]:
        apart = {*self._out_of_place(), *sets.rows_of}
        plain = list(self.area_of)
        for rank in apart:
            plain[rank] = None
        last = self._last_of(plain)
        for rank in apart:
            self._count_in(rank, last, sets.node_of)
        return last

    def _out_of_place(self) -> Iterator[int]:
        """Openers that do not lie just outside what they open; they may lie in it."""
        for rank, up in zip(self.opener, self.up, strict=True):
            if self.near.get(self.area_of[rank], -1) != up:
                yield rank

    def _last_of(self, area_of: Sequence[int | None]) -> list[int]:
        last = [-1] * len(self.ids)
        for area_id, rank in dict(zip(area_of, range(len(area_of)), strict=True)).items():
            area = self.near.get(area_id, -1)
            if area >= 0 and rank > last[area]:
                last[area] = rank
        for area in range(len(last) - 1, -1, -1):
            up = self.up[area]
            if up >= 0 and last[area] > last[up]:
                last[up] = last[area]
        return last

    def _count_in(self, rank: int, last: list[int], node_of: Sequence[int]) -> None:
        """A step that may be the opener's own, or stand elsewhere than its rank, with its set."""
        node = node_of[rank]
        for area in self.over(rank):
            later = last[area] < 0 or (node, rank) > (node_of[last[area]], last[area])
            if later and node_of[self.opener[area]] != node:
                last[area] = rank


def outside_in(areas: Sequence[Area]) -> list[Nested]:
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
        del known[area.id]
        open_ += below.get(area.id, ())
    nested = [(area.id, area.parent_id, _opener(area)) for area in open_]
    return nested + [(area.id, None, _opener(area)) for area in known.values()]


def _opener(area: Area) -> Ref:
    return NOTHING if area.opener_id is None else part(area.opener_id)
