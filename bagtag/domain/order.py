"""The order of the build: the strip log read backwards, and no cover on over something missing.

An opener waits for everything in its area and the areas below. A step's place is the latest of
its place in the reversed log and the places it waits for; the walk takes the earliest free step.
A log that already keeps this comes back unchanged, reversed.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from bagtag.domain.errors import BadInput
from bagtag.domain.model import Area


@dataclass(frozen=True, slots=True)
class Piece:
    """A removal as the order sees it."""

    id: int
    area_id: int | None = None


def build_order(log: Sequence[Piece], areas: Iterable[Area]) -> tuple[int, ...]:
    """Ids in the order they go back. `log` is in the order off, scrapped parts left out.

    BadInput when openers shut each other in, so that no order exists. O((V + E) log V).
    """
    ties = _Ties.between(log, areas)
    order = tuple(ties.walk())
    if len(order) < len(log):
        raise BadInput(
            "No order works: two areas are each opened from inside the other. "
            "Change what opens one of them.",
            field="opener",
        )
    return order


def blockers(
    order: Sequence[int],
    log: Sequence[Piece],
    areas: Iterable[Area],
    fitted: Collection[int],
) -> dict[int, tuple[int, ...]]:
    """What each unfitted step still waits for, nearest first.

    Inside an area the log's own order holds, so a step waits for the last step before it in its
    area that is not in; an opener waits for everything behind it that is not in.
    """
    rows = list(areas)
    area_of = {piece.id: piece.area_id for piece in log}
    missing = [step for step in order if step not in fitted]
    behind = _behind(missing, area_of, rows)
    waits: dict[int, tuple[int, ...]] = {}
    last_in_area: dict[int | None, int] = {}
    for step in missing:
        before = last_in_area.get(area_of[step])
        inside = behind.get(step, ())
        near = () if before is None or before in inside else (before,)
        waits[step] = near + tuple(inside)
        last_in_area[area_of[step]] = step
    return waits


def _behind(
    missing: Sequence[int], area_of: Mapping[int, int | None], areas: Sequence[Area]
) -> dict[int, tuple[int, ...]]:
    """For each opener, what is missing in the areas it shuts, the last to go in first."""
    known = {area.id: area for area in areas}
    shut: dict[int, list[int]] = defaultdict(list)
    for step in reversed(missing):
        for opener in _openers_over(known, area_of[step]):
            if opener != step:
                shut[opener].append(step)
    return {opener: tuple(dict.fromkeys(steps)) for opener, steps in shut.items()}


def _openers_over(areas: Mapping[int, Area], area_id: int | None) -> list[int]:
    openers: list[int] = []
    seen: set[int] = set()
    while area_id is not None and area_id in areas and area_id not in seen:
        seen.add(area_id)
        opener = areas[area_id].opener_id
        if opener is not None:
            openers.append(opener)
        area_id = areas[area_id].parent_id
    return openers


class _Ties:
    """Removals and areas as nodes: a removal fills its area, a full area frees its opener."""

    def __init__(self, ranks: Mapping[int, int]) -> None:
        self.ranks = ranks
        self.frees: dict[object, list[object]] = defaultdict(list)
        self.open_waits: dict[object, int] = defaultdict(int)
        self.places: dict[object, int] = defaultdict(int)

    @classmethod
    def between(cls, log: Sequence[Piece], areas: Iterable[Area]) -> "_Ties":
        ties = cls({piece.id: rank for rank, piece in enumerate(reversed(log))})
        rows = list(areas)
        known = {area.id for area in rows}
        for piece in log:
            if piece.area_id in known:
                ties.tie(piece.id, ("area", piece.area_id))
        for area in rows:
            if area.parent_id in known:
                ties.tie(("area", area.id), ("area", area.parent_id))
            if area.opener_id in ties.ranks:
                ties.tie(("area", area.id), area.opener_id)
        ties.start = [("area", area.id) for area in rows]
        return ties

    start: list[tuple[str, int]]

    def tie(self, before: object, after: object) -> None:
        self.frees[before].append(after)
        self.open_waits[after] += 1

    def walk(self) -> Iterable[int]:
        heap: list[tuple[int, int, int]] = []
        for node in [*self.ranks, *self.start]:
            if not self.open_waits[node]:
                self._free(node, heap)
        while heap:
            place, _, step = heappop(heap)
            yield step
            self._done(step, place, heap)

    def _free(self, node: object, heap: list[tuple[int, int, int]]) -> None:
        if isinstance(node, int):
            rank = self.ranks[node]
            heappush(heap, (max(rank, self.places[node]), rank, node))
        else:
            self._done(node, self.places[node], heap)

    def _done(self, node: object, place: int, heap: list[tuple[int, int, int]]) -> None:
        for after in self.frees[node]:
            self.places[after] = max(self.places[after], place)
            self.open_waits[after] -= 1
            if not self.open_waits[after]:
                self._free(after, heap)
