"""What cannot be true together: within one removal's facts, and between removals of a job."""

from collections import defaultdict
from collections.abc import Sequence
from itertools import combinations, permutations

from bagtag.domain.contradictions_between import between
from bagtag.domain.contradictions_common import Contradiction, fold, named, only
from bagtag.domain.datum import Datum, Side
from bagtag.domain.names import stem
from bagtag.domain.phrases import capital, listed
from bagtag.domain.resolve import resolved, side_by_hand
from bagtag.domain.sentence import place_words, seat_words, short, subject, the_side, tidy
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)

__all__ = ["Contradiction", "between", "stem", "within"]

_Found = list[tuple[str, str]]
_SMALL_WORDS = {"the", "a", "stamped", "marked", "face", "side", "mark"}
_OUT, _IN = {"out", "outside", "outer"}, {"in", "inside", "inner"}
_STOPS = {SeatKind.BOTTOMED, SeatKind.SHOULDER}
_TRUE = "keep the one that is true."
_AGAIN = "look at the part again, it was logged wrong or fitted wrong."
_DENIED: dict[str, type] = {
    "hand": Hand,
    "place": Place,
    "seat": Seat,
    "match mark": MatchMark,
    "mark": MatchMark,
    "same way": SameWay,
}


def within(
    facts: Sequence[Fact], datum: Datum, side: Side | None = None
) -> tuple[Contradiction, ...]:
    """What one removal's facts say against each other, whatever their order. `side` is the side of
    the machine it sat on; where none is given, its hand by position says it."""
    facts = sorted(set(facts), key=repr)
    faces, side = only(facts, Faces), side or side_by_hand(facts)
    found: _Found = []
    found += _two_ways(faces, datum)
    found += _two_ways_here(faces, datum, side)
    found += _wrong_way_out(faces)
    found += _wrong_side_out(faces, datum, side)
    found += _two_hands(only(facts, Hand))
    found += _outside_the_row(only(facts, Place))
    found += _off_the_clock(only(facts, Clocking))
    found += _two_seats(only(facts, Seat))
    found += _same_and_opposite(only(facts, SameWay))
    found += _there_and_not(facts, datum)
    return tuple(Contradiction(sentence, (), kind) for sentence, kind in found)


def _two_ways(facts: list[Faces], datum: Datum) -> _Found:
    ways: dict[tuple[str, type], list[Faces]] = defaultdict(list)
    for fact in facts:
        ways[fold(fact.feature), type(fact.toward)].append(fact)
    return [
        (
            f"{named(same[0].feature)} cannot face {listed(_ways(same, datum))} at once: {_TRUE}",
            "two ways",
        )
        for same in ways.values()
        if len(_ways(same, datum)) > 1
    ]


def _ways(facts: list[Faces], datum: Datum) -> list[str]:
    """The different directions, in the order of the sides."""
    sides = [side for side in Side if any(f.toward is side for f in facts)]
    inward_out = [way.value for way in Outness if any(f.toward is way for f in facts)]
    parts = [f.toward for f in facts if isinstance(f.toward, OtherPart)]
    by_key = {part.uid or fold(part.name): tidy(part.name) for part in parts}
    return [*(the_side(side, datum) for side in sides), *inward_out, *sorted(by_key.values())]


def _two_ways_here(facts: list[Faces], datum: Datum, side: Side | None) -> _Found:
    """Outward is one side here, and another fact names another."""
    if side is None:
        return []
    found = []
    for out, fact in permutations(facts, 2):
        if not isinstance(out.toward, Outness) or not isinstance(fact.toward, Side):
            continue
        here = resolved(out.toward, side)
        if fold(fact.feature) == fold(out.feature) and fact.toward is not here:
            there, elsewhere = the_side(here, datum), the_side(fact.toward, datum)
            said = f"{named(out.feature)} faces {out.toward}, which is {there} here"
            found.append((f"{said}, and {elsewhere} at once: {_TRUE}", "two ways"))
    return found


def _wrong_way_out(facts: list[Faces]) -> _Found:
    return [
        (f"{tidy(fact.feature)} faces {fact.toward}: {_AGAIN}", "turned over")
        for fact in facts
        if isinstance(fact.toward, Outness) and _means(fact.feature) not in (None, fact.toward)
    ]


def _wrong_side_out(facts: list[Faces], datum: Datum, side: Side | None) -> _Found:
    """OUT towards the middle of the machine, where its side is known."""
    found = []
    for fact in facts:
        meant = _means(fact.feature)
        if side is None or meant is None or not isinstance(fact.toward, Side):
            continue
        if fact.toward is resolved(meant, side).opposite:
            way = Outness.INWARD if meant is Outness.OUTWARD else Outness.OUTWARD
            said = f"{tidy(fact.feature)} faces {the_side(fact.toward, datum)}, which is {way} here"
            found.append((f"{said}: {_AGAIN}", "turned over"))
    return found


def _means(feature: str) -> Outness | None:
    """Where a face that says so itself belongs: OUT outward, "inside" inward."""
    words = set(fold(feature).split()) - _SMALL_WORDS
    if words and words <= _OUT:
        return Outness.OUTWARD
    return Outness.INWARD if words and words <= _IN else None


def _two_hands(facts: list[Hand]) -> _Found:
    if {"L", "R"} <= {fact.which.upper() for fact in facts}:
        return [("One part cannot be L and R: keep the hand that is true.", "two hands")]
    return []


def _outside_the_row(facts: list[Place]) -> _Found:
    found = []
    for fact in facts:
        if fact.index < 1:
            said = f"Place {fact.index} is none: the first in a row is 1."
            found.append((said, "below the first"))
        elif fact.of is not None and fact.index > fact.of:
            said = f"{place_words(fact)} is past the row's end: correct one of the two."
            found.append((capital(said), "past the end"))
    return found


def _off_the_clock(facts: list[Clocking]) -> _Found:
    return [
        (f"There is no {fact.hour:g} on a clock face: give an hour from 1 to 12.", "off the clock")
        for fact in facts
        if fact.hour is not None and not 0 < fact.hour <= 12
    ]


def _two_seats(facts: list[Seat]) -> _Found:
    """A part may sit flush and on its shoulder; but it has one level, and one thing stops it."""
    for first, second in combinations(facts, 2):
        if (first.kind in _STOPS) == (second.kind in _STOPS):
            said = sorted([seat_words(first), seat_words(second)])
            return [(f"A part cannot sit {listed(said)} at once: keep the one that is true.",
                     "two seats")]  # fmt: skip
    return []


def _same_and_opposite(facts: list[SameWay]) -> _Found:
    found = []
    for one, other in combinations(facts, 2):
        if one.opposite != other.opposite and _is_one(one.other, other.other):
            name = tidy(one.other.name)
            said = f"A part cannot sit the same way as {name} and opposite to it at once: {_TRUE}"
            found.append((said, "same and opposite"))
    return found


def _is_one(part: OtherPart, other: OtherPart) -> bool:
    if part.uid and other.uid:
        return part.uid == other.uid
    return fold(part.name) == fold(other.name)


def _there_and_not(facts: Sequence[Fact], datum: Datum) -> _Found:
    found = []
    for none in only(facts, Without):
        against = [fact for fact in facts if _has(fact, none)]
        if not against:
            continue
        if none.feature:
            said = f"Both {subject(none.feature)} and no {tidy(none.feature)} are logged: {_TRUE}"
        else:
            way = short(against[:1], datum)
            said = f"It goes either way round, and yet it is logged as {way}: {_TRUE}"
        found.append((said, "there and not"))
    return found


def _has(fact: Fact, none: Without) -> bool:
    """Whether a fact says of a part what it is logged to be without."""
    if not tidy(none.feature):
        return isinstance(fact, Faces | Clocking)
    denied = fold(none.feature)
    if isinstance(fact, _DENIED.get(denied, ())):
        return True
    if isinstance(fact, MatchMark):
        return fold(fact.mark) == denied
    return isinstance(fact, Faces | Clocking) and fold(fact.feature) == denied
