"""What cannot be true together: within one removal's facts, and between removals of a job."""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TypeVar

from bagtag.domain.datum import Datum, Side
from bagtag.domain.model import Removal
from bagtag.domain.sentence import place_words, seat_words, subject, the_side, tidy
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    Seat,
    SeatKind,
)

_F = TypeVar("_F", bound=Fact)
_SMALL_WORDS = {"the", "a", "stamped", "marked", "face", "side", "mark"}
_OUT, _IN = {"out", "outside", "outer"}, {"in", "inside", "inner"}
_HANDS = {"l": "L", "lh": "L", "left": "L", "r": "R", "rh": "R", "right": "R"}
_STOPS = {SeatKind.BOTTOMED, SeatKind.SHOULDER}
_FAR_ENDS = {Side.RIGHT: Side.LEFT, Side.REAR: Side.FRONT, Side.BOTTOM: Side.TOP}


@dataclass(frozen=True, slots=True)
class Contradiction:
    """One plain sentence with what to do; `uids` are the removals it is about, none when it is
    all inside the one that was asked about; `kind` is a short name for it."""

    sentence: str
    uids: tuple[str, ...]
    kind: str


def within(facts: Sequence[Fact], datum: Datum) -> tuple[Contradiction, ...]:
    """What one removal's facts say against each other, whatever their order."""
    found: list[tuple[str, str]] = []
    facts = sorted(set(facts), key=repr)
    found += _two_ways(_only(facts, Faces), datum)
    found += _wrong_way_out(_only(facts, Faces))
    found += _two_hands(_only(facts, Hand))
    found += _outside_the_row(_only(facts, Place))
    found += _off_the_clock(_only(facts, Clocking))
    found += _two_seats(_only(facts, Seat))
    return tuple(Contradiction(sentence, (), kind) for sentence, kind in found)


def between(removals: Sequence[Removal], datum: Datum) -> tuple[Contradiction, ...]:
    """What removals of one job say against each other, whatever their order."""
    logged = sorted(removals, key=lambda removal: (removal.position, removal.uid))
    return (*_one_place(logged, datum), *_no_pair(logged), *_shared_mark(logged))


def stem(name: str) -> str:
    """What two hands of one part have in common: "shift fork L" and "left shift fork" are both
    "shift fork"."""
    words = name.casefold().replace(",", " ").split()
    if len(words) > 1 and words[-1].strip(".()") in _HANDS:
        words.pop()
    elif len(words) > 1 and words[0] in _HANDS:
        words.pop(0)
    return " ".join(words)


def _two_ways(facts: list[Faces], datum: Datum) -> list[tuple[str, str]]:
    ways: dict[tuple[str, type], list[Faces]] = defaultdict(list)
    for fact in facts:
        ways[_fold(fact.feature), type(fact.toward)].append(fact)
    return [
        (
            f"{_named(same[0].feature)} cannot face {_listed(_ways(same, datum))} at once: "
            "keep the one that is true.",
            "two ways",
        )
        for same in ways.values()
        if len(_ways(same, datum)) > 1
    ]


def _ways(facts: list[Faces], datum: Datum) -> list[str]:
    """The different directions, in the order of the sides."""
    sides = [side for side in Side if any(f.toward is side for f in facts)]
    inward_out = [way.value for way in Outness if any(f.toward is way for f in facts)]
    parts = {tidy(f.toward.name) for f in facts if isinstance(f.toward, OtherPart)}
    return [*(the_side(side, datum) for side in sides), *inward_out, *sorted(parts)]


def _wrong_way_out(facts: list[Faces]) -> list[tuple[str, str]]:
    found = []
    for fact in facts:
        words = set(_fold(fact.feature).split()) - _SMALL_WORDS
        if not words or not isinstance(fact.toward, Outness):
            continue
        if words <= (_OUT if fact.toward is Outness.INWARD else _IN):
            found.append(
                (
                    f"{tidy(fact.feature)} faces {fact.toward}: look at the part again, it was "
                    "logged wrong or fitted wrong.",
                    "turned over",
                )
            )
    return found


def _two_hands(facts: list[Hand]) -> list[tuple[str, str]]:
    if {"L", "R"} <= {fact.which.upper() for fact in facts}:
        return [("One part cannot be L and R: keep the hand that is true.", "two hands")]
    return []


def _outside_the_row(facts: list[Place]) -> list[tuple[str, str]]:
    found = []
    for fact in facts:
        if fact.index < 1:
            sentence = f"Place {fact.index} is none: the first in a row is 1."
            found.append((sentence, "below the first"))
        elif fact.of is not None and fact.index > fact.of:
            sentence = f"{place_words(fact)} is past the row's end: correct one of the two."
            found.append((sentence[0].upper() + sentence[1:], "past the end"))
    return found


def _off_the_clock(facts: list[Clocking]) -> list[tuple[str, str]]:
    return [
        (f"There is no {fact.hour:g} on a clock face: give an hour from 1 to 12.", "off the clock")
        for fact in facts
        if fact.hour is not None and not 0 < fact.hour <= 12
    ]


def _two_seats(facts: list[Seat]) -> list[tuple[str, str]]:
    """A part may sit flush and on its shoulder; but it has one level, and one thing stops it."""
    for first, second in combinations(facts, 2):
        if (first.kind in _STOPS) == (second.kind in _STOPS):
            said = sorted([seat_words(first), seat_words(second)])
            return [(f"A part cannot sit {_listed(said)} at once: keep the one that is true.",
                     "two seats")]  # fmt: skip
    return []


def _one_place(removals: Sequence[Removal], datum: Datum) -> list[Contradiction]:
    taken: dict[Hashable, list[tuple[Removal, Place]]] = defaultdict(list)
    for removal in removals:
        for fact in dict.fromkeys(_only(removal.which_way, Place)):
            taken[stem(removal.name), removal.area_id, *_spot(fact)].append((removal, fact))
    found = []
    for shared in taken.values():
        parts = list(dict.fromkeys(removal for removal, _ in shared))
        if len(parts) > 1:
            sentence = (
                f"{_listed(_names(parts))} cannot {_both(parts)} be {_said(shared[0][1], datum)}: "
                "correct the place of one."
            )
            found.append(Contradiction(sentence, _uids(parts), "one place"))
    return found


def _spot(fact: Place) -> tuple[Hashable, ...]:
    """The same for the same spot: 1st of 3 from the left is 3rd of 3 from the right."""
    what, index, side = _fold(fact.what), fact.index, fact.counted_from
    if fact.of is not None and side in _FAR_ENDS:
        index, side = fact.of + 1 - index, _FAR_ENDS[side]
    return what, fact.of, index, side


def _said(fact: Place, datum: Datum) -> str:
    if fact.counted_from is None:
        return place_words(fact)
    return f"{place_words(fact)}, counted from {the_side(fact.counted_from, datum)}"


def _no_pair(removals: Sequence[Removal]) -> list[Contradiction]:
    alike: dict[Hashable, dict[str, list[Removal]]] = defaultdict(lambda: defaultdict(list))
    for removal in removals:
        which = _hand_of(removal)
        if which:
            alike[stem(removal.name), removal.area_id][which].append(removal)
    found = []
    for hands in alike.values():
        if len(hands) == 1 and len(parts := next(iter(hands.values()))) > 1:
            which = next(iter(hands))
            other = "R" if which == "L" else "L"
            sentence = (
                f"{_listed(_names(parts))} are {'both' if len(parts) == 2 else 'all'} {which} and "
                f"there is no {other}: look at the stamps again."
            )
            found.append(Contradiction(sentence, _uids(parts), "no pair"))
    return found


def _hand_of(removal: Removal) -> str:
    """L or R by its fact, else by its name; empty for neither or for both."""
    said = {fact.which.upper() for fact in _only(removal.which_way, Hand)}
    if said:
        return said.pop() if len(said) == 1 and said <= {"L", "R"} else ""
    words = removal.name.casefold().replace(",", " ").split()
    ends = words[-1:] + words[:1] if len(words) > 1 else []
    return next((_HANDS[word.strip(".()")] for word in ends if word.strip(".()") in _HANDS), "")


def _shared_mark(removals: Sequence[Removal]) -> list[Contradiction]:
    carried: dict[str, list[Removal]] = defaultdict(list)
    for removal in removals:
        for mark in {_fold(fact.mark) for fact in _only(removal.which_way, MatchMark)}:
            carried[mark].append(removal)
    return [
        Contradiction(
            f"{len(parts)} parts carry the match mark {mark}: {_listed(_names(parts))}. "
            "A mark joins two: mark the others differently.",
            _uids(parts),
            "shared mark",
        )
        for mark, parts in sorted(carried.items())
        if mark and len(parts) > 2
    ]


def _only(facts: Iterable[Fact], kind: type[_F]) -> list[_F]:
    return [fact for fact in facts if isinstance(fact, kind)]


def _fold(text: str) -> str:
    return tidy(text).casefold().removeprefix("the ")


def _named(feature: str) -> str:
    said = subject(feature) or "one face"
    return said[0].upper() + said[1:]


def _listed(words: Sequence[str]) -> str:
    """a and b; a, b and c."""
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]


def _names(parts: Sequence[Removal]) -> list[str]:
    """Names as logged, each with the number on its label."""
    return [f"{part.number} {part.name}" for part in parts]


def _both(parts: Sequence[Removal]) -> str:
    return "both" if len(parts) == 2 else "all"


def _uids(parts: Sequence[Removal]) -> tuple[str, ...]:
    return tuple(part.uid for part in parts)
