"""Facts and datums for the tests of which way: a walking tractor's, and any that could be."""

from dataclasses import replace

from hypothesis import strategies as st

from bagtag.domain.datum import Datum, Side
from bagtag.domain.which_way import (
    Clocking,
    Faces,
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

TRACTOR = Datum(
    "standing at the handlebars, looking at the gearbox",
    {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"},
)
FORK_R = (Hand("R", stamped=True), Faces("C", Side.RIGHT), Place(2, 3, Side.LEFT))
FORK_L = (Hand("L", stamped=True), Faces("C", Side.RIGHT), Place(1, 3, Side.LEFT))

WORDS = st.sampled_from(
    ["C", "OUT", "sealed side", "sharp edge", "two punch dots", "gap", "W" * 30, "Щётка", "Ελιά"]
) | st.text(max_size=24)
SIDES = st.sampled_from(list(Side))
OPTIONAL_SIDES = st.none() | SIDES
OTHERS = st.builds(OtherPart, WORDS, st.just("u"), st.sampled_from(["", "12", "104"]))
TOWARD = SIDES | st.sampled_from(list(Outness)) | OTHERS

FACES = st.builds(Faces, WORDS, TOWARD) | st.builds(
    Faces, WORDS, st.sampled_from(list(Outness)), SIDES
)
HANDS = st.builds(Hand, st.sampled_from("LR"), st.booleans())
PLACES = st.builds(
    Place, st.integers(-2, 60), st.none() | st.integers(1, 60), OPTIONAL_SIDES, WORDS
)
CLOCKINGS = st.builds(
    Clocking, WORDS, st.none() | st.floats(-2, 14) | st.integers(1, 12), WORDS, OPTIONAL_SIDES
)
SEATS = st.builds(Seat, st.sampled_from(list(SeatKind)), st.none() | st.floats(0, 99))
MARKS = st.builds(MatchMark, WORDS, WORDS)
TOLD = st.lists(FACES | CLOCKINGS | SEATS, max_size=3).map(tuple)
SAME_WAYS = st.builds(SameWay, OTHERS, st.booleans(), TOLD)
WITHOUTS = st.builds(Without, st.sampled_from(["", "match mark", "hand"]) | WORDS)
FACT = FACES | HANDS | PLACES | CLOCKINGS | SEATS | MARKS | SAME_WAYS | WITHOUTS
FACTS = st.lists(FACT, max_size=8)
DATUMS = st.builds(
    Datum,
    st.just(""),
    st.dictionaries(SIDES, st.sampled_from(["clutch side", "the flywheel", "near"]) | WORDS),
)

_SWAPPED = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}


def mirrored(fact):
    """The same fact with left and right exchanged."""
    match fact:
        case Faces(toward=Side() as side):
            return replace(fact, toward=_SWAPPED.get(side, side))
        case Faces(resolved=Side() as side):
            return replace(fact, resolved=_SWAPPED.get(side, side))
        case SameWay():
            return replace(fact, facts=tuple(mirrored(told) for told in fact.facts))
        case Place(counted_from=Side() as side):
            return replace(fact, counted_from=_SWAPPED.get(side, side))
        case Clocking(seen_from=Side() as side):
            return replace(fact, seen_from=_SWAPPED.get(side, side))
    return fact


def untold(fact):
    """The same fact as it is stored, without what was computed."""
    match fact:
        case Faces(toward=OtherPart() as other):
            return Faces(fact.feature, replace(other, number=""))
        case Faces():
            return replace(fact, resolved=None)
        case SameWay():
            return SameWay(replace(fact.other, number=""), fact.opposite)
    return fact
