"""Which way a part sat, said in plain sentences."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from math import isfinite
from typing import Any

from bagtag.domain.datum import Datum, Side
from bagtag.domain.phrases import capital
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    MatchMark,
    OtherPart,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)

SPOKEN_ORDER = (Hand, Faces, SameWay, Place, Clocking, Seat, MatchMark, Without)
_ARTICLES = ("the ", "a ", "an ", "its ", "this ", "that ", "both ", "each ")
_PREPOSITIONS = (
    "above across against along at behind below beside between beyond by from in inside into "
    "level near next on onto opposite over past through to toward towards under up with"
)


def sentence(facts: Sequence[Fact], datum: Datum) -> str:
    """All facts as one group of plain sentences, hand first; empty for no facts.

    "Stamped R. The C faces the clutch side. 2nd of 3, counted from the flywheel side."
    What `resolve.told` adds is said with its fact: "OUT faces outward, to the clutch side."
    """
    said = (_SENTENCES[type(fact)](fact, datum) for fact in spoken(facts))
    return " ".join(f"{capital(words)}." for words in said if words)


def short(facts: Sequence[Fact], datum: Datum) -> str:
    """A few words for a row of the strip: "C to the clutch side, 2nd of 3"."""
    said = (_SHORT[type(fact)](fact, datum) for fact in spoken(facts))
    return ", ".join(words for words in said if words)


def spoken(facts: Sequence[Fact]) -> list[Fact]:
    """The facts in the order they are said, each once; of how another part sat only what no fact
    of the part's own says."""
    said = dict.fromkeys(facts)
    if any(isinstance(fact, SameWay) and fact.facts for fact in said):
        said = dict.fromkeys(_unsaid(said))
    return sorted(said, key=lambda fact: SPOKEN_ORDER.index(type(fact)))


def about(fact: Fact) -> tuple[type, str]:
    """The same for two facts that answer one question: where the C faces, how deep it sits."""
    feature = tidy(fact.feature) if isinstance(fact, Faces | Clocking) else ""
    return type(fact), _bare(feature).casefold()


def _unsaid(facts: Iterable[Fact]) -> list[Fact]:
    said = {about(fact) for fact in facts if not isinstance(fact, SameWay)}
    left: list[Fact] = []
    for fact in facts:
        news = tuple(told for told in _told(fact) if about(told) not in said)
        said |= {about(told) for told in news}
        left.append(replace(fact, facts=news) if isinstance(fact, SameWay) else fact)
    return left


def _told(fact: Fact) -> tuple[Fact, ...]:
    return fact.facts if isinstance(fact, SameWay) else ()


def the_side(side: Side, datum: Datum) -> str:
    """A side with its article: "the clutch side", "the top", "the left"."""
    return _the(datum.call(side))


def ordinal(number: int) -> str:
    """1st, 2nd, 3rd, 4th, 11th, 22nd."""
    tail = abs(number) % 100
    ending = "th" if 10 <= tail <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(tail % 10, "th")
    return f"{number}{ending}"


def hour_words(hour: float) -> str:
    """4 -> "4 o'clock", 4.5 -> "half past 4", 4.25 -> "4:15"."""
    said = digits(hour)
    if said.endswith(":30"):
        return f"half past {said[:-3]}"
    return said if ":" in said else f"{said} o'clock"


def digits(hour: float) -> str:
    """4 -> "4", 4.5 -> "4:30", 0.5 -> "12:30"."""
    if not isfinite(hour):
        return f"{hour}"
    whole, rest = divmod(round(hour * 60), 60)
    return f"{whole or 12}:{rest:02d}" if rest else f"{whole}"


def seat_words(seat: Seat) -> str:
    """ "flush", "0.5 mm proud", "1.2 mm below", "bottomed", "against the shoulder"."""
    measured = "" if seat.depth is None else f"{seat.depth:g} mm "
    return {
        SeatKind.FLUSH: "flush",
        SeatKind.PROUD: f"{measured}proud",
        SeatKind.BELOW: f"{measured}below",
        SeatKind.BOTTOMED: "bottomed",
        SeatKind.SHOULDER: "against the shoulder",
    }[seat.kind]


def clocking_words(fact: Clocking) -> str:
    """ "gap at 4 o'clock", "tab in the notch", "dot to the line"."""
    where = _to_target(fact.target)
    when = "" if fact.hour is None else f"at {hour_words(fact.hour)}"
    return tidy(f"{fact.feature} {where} {when}")


def place_words(fact: Place) -> str:
    """ "2nd of 3", "cylinder 2", "hole 14 of 20", "2nd in its row"."""
    row = "" if fact.of is None else f" of {fact.of}"
    if tidy(fact.what):
        return f"{tidy(fact.what)} {fact.index}{row}"
    return f"{ordinal(fact.index)}{row}"


def tidy(text: str) -> str:
    """On one line, single spaces, no full stop at the end."""
    return " ".join(text.split()).rstrip(".")


def _faces(fact: Faces, datum: Datum) -> str:
    verb = "face" if _is_plural(fact.feature) else "faces"
    return tidy(f"{subject(fact.feature)} {verb} {_direction(fact, datum)}")


def _direction(fact: Faces, datum: Datum) -> str:
    toward = fact.toward
    if isinstance(toward, OtherPart):
        return other_words(toward)
    if isinstance(toward, Side):
        plain = datum.call(toward).casefold() in {"left", "right"}
        return datum.call(toward).casefold() if plain else the_side(toward, datum)
    if fact.resolved is not None:
        return f"{toward.value}, to {the_side(fact.resolved, datum)}"
    return toward.value


def other_words(other: OtherPart) -> str:
    """ "the gear", "gear 3"; with the number on its label, when told: "gear 3 (41)"."""
    return tidy(_the(other.name) + (f" ({other.number})" if other.number else ""))


def _short_faces(fact: Faces, datum: Datum) -> str:
    toward = fact.toward
    if isinstance(toward, OtherPart):
        return tidy(f"{_bare(fact.feature)} to {other_words(toward)}")
    if isinstance(toward, Side):
        return tidy(f"{_bare(fact.feature)} to {the_side(toward, datum)}")
    here = f" ({datum.call(fact.resolved)})" if fact.resolved else ""
    return tidy(f"{_bare(fact.feature)} {toward.value}{here}")


def _hand(fact: Hand, _: Datum) -> str:
    which = fact.which.upper()
    return f"stamped {which}" if fact.stamped else f"{which} by position, not stamped"


def _place(fact: Place, datum: Datum) -> str:
    if fact.counted_from is not None:
        return f"{place_words(fact)}, counted from {the_side(fact.counted_from, datum)}"
    in_row = fact.of is None and not tidy(fact.what)
    return place_words(fact) + (" in its row" if in_row else "")


def _clocking(fact: Clocking, datum: Datum) -> str:
    words = clocking_words(fact)
    if fact.seen_from is None:
        return words
    return f"{words}, seen from {the_side(fact.seen_from, datum)}"


def _seat(fact: Seat, _: Datum) -> str:
    words = seat_words(fact)
    if fact.kind is SeatKind.BOTTOMED:
        return words
    return f"sits {words} the face" if fact.kind is SeatKind.BELOW else f"sits {words}"


def _match(fact: MatchMark, _: Datum) -> str:
    mark, partner = tidy(fact.mark), tidy(fact.partner)
    if not partner:
        return f"match mark: {mark}" if mark else ""
    return f"{mark or 'marked'}, matched to {_the(partner)}"


def _same_way(fact: SameWay, datum: Datum) -> str:
    joined = "opposite way round to" if fact.opposite else "same way round as"
    return _and_how(f"{joined} {other_words(fact.other)}", fact, _SENTENCES, datum)


def _short_same_way(fact: SameWay, datum: Datum) -> str:
    joined = "opposite to" if fact.opposite else "same way as"
    return _and_how(f"{joined} {other_words(fact.other)}", fact, _SHORT, datum)


def _and_how(words: str, fact: SameWay, ways: "_Ways", datum: Datum) -> str:
    """With how the other part sat, when told."""
    told = [ways[type(own)](own, datum) for own in spoken(fact.facts)]
    how = "; ".join(words for words in told if words)
    return f"{words}: {how}" if how else words


def _without(fact: Without, _: Datum) -> str:
    return f"no {tidy(fact.feature)}" if tidy(fact.feature) else "goes either way round"


def subject(feature: str) -> str:
    """ "the C", "the sealed side"; a stamped word stands alone: "OUT"."""
    bare = _bare(feature)
    stamped_word = len(bare) > 1 and bare.isalpha() and bare.isupper()
    return bare if stamped_word or not bare else f"the {bare}"


def _bare(feature: str) -> str:
    text = tidy(feature)
    return text[4:] if text.casefold().startswith("the ") else text


def _the(name: str) -> str:
    """With an article, unless it has one or ends in a letter or number of its own: "gear 3"."""
    text = tidy(name)
    last = text.split(" ")[-1]
    numbered = " " in text and (last.isdigit() or (len(last) == 1 and last.isupper()))
    if not text or numbered or text.casefold().startswith(_ARTICLES):
        return text
    return f"the {text}"


def _to_target(target: str) -> str:
    text = tidy(target)
    first = text.split(" ")[0].casefold()
    return text if not text or first in _PREPOSITIONS.split() else f"to {_the(text)}"


def _is_plural(feature: str) -> bool:
    text = tidy(feature)
    ends_in_s = text.endswith("s") and not text.endswith(("ss", "us", "is", "lens"))
    return ends_in_s and not text.isupper() and len(text) > 1


_Ways = dict[type, Callable[[Any, Datum], str]]

_SENTENCES: _Ways = {
    Hand: _hand,
    Faces: _faces,
    Place: _place,
    Clocking: _clocking,
    Seat: _seat,
    MatchMark: _match,
    SameWay: _same_way,
    Without: _without,
}

_SHORT: _Ways = {
    Hand: lambda fact, _: fact.which.upper(),
    Faces: _short_faces,
    Place: lambda fact, _: place_words(fact),
    Clocking: lambda fact, _: clocking_words(fact),
    Seat: lambda fact, _: seat_words(fact),
    MatchMark: lambda fact, _: tidy(fact.mark),
    SameWay: _short_same_way,
    Without: _without,
}
