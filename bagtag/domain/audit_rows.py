"""Rows of parts by their places, and what is missing in them.

A row that says how long it is (2nd of 3) wants every place; one that does not (cylinder 4) wants
the numbers below its last, unless more would be missing than there are.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import count, islice

from bagtag.domain.audit_words import MOST, bare, like, listed
from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import fold
from bagtag.domain.model import Removal
from bagtag.domain.phrases import capital
from bagtag.domain.sentence import place_words, the_side
from bagtag.domain.which_way import Place

CYLINDER = "cylinder"

Shelf = tuple[str, int | None, int | None]
"""What is counted, in which area, how many there are: rows that could be one."""


@dataclass(slots=True)
class Row:
    """Like parts in a row: which places are taken, and by whom."""

    name: str
    what: str
    of: int | None
    side: Side | None
    taken: dict[int, Removal] = field(default_factory=dict)

    @property
    def parts(self) -> list[Removal]:
        return list(dict.fromkeys(self.taken.values()))

    @property
    def gaps(self) -> int:
        """How many places no part has; where its length is not said, a row of few has none. Parts
        logged as several fill a row with their number."""
        if self.of is not None:
            filled = sum(part.quantity for part in self.parts) if self.what != CYLINDER else 0
            return 0 if filled >= self.of else self.of - len(self.taken)
        left = max(self.taken) - len(self.taken)
        return left if left <= len(self.taken) else 0

    def sentence(self, datum: Datum) -> str:
        """ "2nd of 3, counted from the clutch side, is not logged: ..."."""
        free = (n for n in count(1) if n not in self.taken)
        numbers = islice(free, min(self.gaps, MOST))
        places = [place_words(Place(n, self.of, None, self.what)) for n in numbers]
        side = f", counted from {the_side(self.side, datum)}," if self.side else ""
        do = "is not logged: log it, or write in the note that it stays in."
        if self.gaps > 1:
            do = "are not logged: log them, or write in the note which stays in."
        return f"{capital(listed(places, self.gaps))}{side} {do}"


def broken(log: Sequence[Removal]) -> Iterator[Row]:
    """The rows with gaps. Parts of unlike names that fill one row between them are one row: inlet
    and exhaust valve; gear, spacer, gear on a shaft."""
    for shelf in _shelves(log).values():
        left: dict[str, list[Row]] = defaultdict(list)
        for row in shelf:
            if row.gaps:
                left[bare(row.name)].append(row)
        rest = [row for alike in left.values() if not _are_one(alike) for row in alike]
        if not _are_one(rest):
            yield from rest


def _shelves(log: Sequence[Removal]) -> dict[Shelf, list[Row]]:
    shelves: dict[Shelf, dict[tuple[str, Side | None], Row]] = defaultdict(dict)
    for removal, fact in _places(log):
        index, side = fact.from_near_end()
        what = fold(fact.what)
        area = None if what == CYLINDER else removal.area_id
        new = Row(removal.name, what, fact.of, side)
        row = shelves[what, area, fact.of].setdefault((like(removal.name), side), new)
        row.taken.setdefault(index, removal)
    return {shelf: list(rows.values()) for shelf, rows in shelves.items()}


def _places(log: Iterable[Removal]) -> Iterator[tuple[Removal, Place]]:
    """Every place that can be: those past a row's end are contradictions."""
    for removal in log:
        for fact in removal.which_way:
            if isinstance(fact, Place) and 1 <= fact.index <= (fact.of or fact.index):
                yield removal, fact


def _are_one(rows: Sequence[Row]) -> bool:
    """Whether rows with gaps fill each other's without meeting."""
    places = [place for row in rows for place in row.taken]
    last = (rows[0].of or max(places)) if rows else 0
    return bool(rows) and len(places) == len(set(places)) == last
