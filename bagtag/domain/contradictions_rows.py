"""Contradictions between parts of one row: one place for two, past the end, two lengths."""

from collections import defaultdict
from collections.abc import Hashable, Iterator, Sequence

from bagtag.domain.contradictions_common import (
    Contradiction,
    about,
    both,
    called,
    fold,
    names,
    only,
)
from bagtag.domain.datum import Datum
from bagtag.domain.model import Removal
from bagtag.domain.names import stem
from bagtag.domain.phrases import listed
from bagtag.domain.sentence import place_words, the_side
from bagtag.domain.which_way import Place

_Placed = list[tuple[Removal, Place]]


def in_rows(removals: Sequence[Removal], datum: Datum) -> Iterator[Contradiction]:
    """What the places of parts in one row say against each other. A row is parts of one name but
    for the hand, in one area, with the same thing counted."""
    rows: dict[Hashable, _Placed] = defaultdict(list)
    for removal in removals:
        for fact in dict.fromkeys(only(removal.which_way, Place)):
            rows[stem(removal.name), removal.area_id, fold(fact.what)].append((removal, fact))
    for row in rows.values():
        if len(row) > 1:
            yield from _one_place(row, datum)
            yield from _lengths(row)
            yield from _past_the_end(row)


def _one_place(row: _Placed, datum: Datum) -> Iterator[Contradiction]:
    """A warning for "cylinder 2": a cylinder may have two of a part."""
    taken: dict[Hashable, _Placed] = defaultdict(list)
    for removal, fact in row:
        taken[_spot(fact)].append((removal, fact))
    for shared in taken.values():
        parts = list(dict.fromkeys(removal for removal, _ in shared))
        if len(parts) > 1:
            place = shared[0][1]
            said = f"{listed(names(parts))} cannot {both(parts)} be {_said(place, datum)}"
            several = bool(place.what) and place.of is None
            sentence = f"{said}: correct the place of one."
            yield about(sentence, parts, "one place", is_warning=several)


def _spot(fact: Place) -> tuple[Hashable, ...]:
    """The same for the same spot: 1st of 3 from the left is 3rd of 3 from the right."""
    return fact.of, *fact.from_near_end()


def _said(fact: Place, datum: Datum) -> str:
    if fact.counted_from is None:
        return place_words(fact)
    return f"{place_words(fact)}, counted from {the_side(fact.counted_from, datum)}"


def _lengths(row: _Placed) -> Iterator[Contradiction]:
    lengths: dict[int, Removal] = {}
    for removal, fact in row:
        if fact.of is not None:
            lengths.setdefault(fact.of, removal)
    if len(lengths) > 1 and len(set(lengths.values())) > 1:
        said = listed([f"{of} places by {called(part)}" for of, part in sorted(lengths.items())])
        parts = [removal for removal, fact in row if fact.of is not None]
        sentence = f"One row cannot have {said}: count it, and correct the wrong one."
        yield about(sentence, dict.fromkeys(parts), "two lengths")


def _past_the_end(row: _Placed) -> Iterator[Contradiction]:
    """Of a place without its row's length, where another part of the row says it."""
    known = {fact.of: removal for removal, fact in reversed(row) if fact.of is not None}
    if len(known) != 1:
        return
    ((of, teller),) = known.items()
    for removal, fact in row:
        if fact.of is None and fact.index > of and removal is not teller:
            said = f"{called(removal)} is {place_words(fact)}, past the end of a row of {of}"
            sentence = f"{said} as {called(teller)} has it: correct one of the two."
            yield about(sentence, (removal, teller), "past the end")
