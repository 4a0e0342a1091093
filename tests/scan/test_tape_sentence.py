"""A sentence on which way, read by the tape reader, gives the facts that were said."""

import re
from dataclasses import replace
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from bagtag import resources
from bagtag.domain import kind_form
from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import Kinds
from bagtag.domain.sentence import sentence
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
    to_data,
)
from bagtag.scan.tape import read

DATUMS = st.sampled_from(
    [
        Datum(),
        Datum("", {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"}),
        Datum("", {Side.LEFT: "pulley end", Side.FRONT: "axle side", Side.TOP: "tank side"}),
        Datum("", {Side.REAR: "handlebar end", Side.RIGHT: "magneto side"}),
    ]
)
FILES = sorted(Path(resources.find("kinds")).glob("*.toml"))
SHIPPED = [kind for f in FILES for kind in kind_form.read(f.read_text("utf-8"), f.name)]

KINDS = Kinds(SHIPPED)


def asked(fact):
    return [question for kind in SHIPPED for question in kind.asks if question.fact == fact]


def is_plain(text):
    """Without a figure, which may be a place as well, and without a side, which may be faced."""
    sides = {side.value for side in Side} | {"load", "line"}
    return not re.search("[0-9]", text) and not sides & set(text.split())


def some(*words):
    return st.sampled_from(sorted(set(words)))


SIDES = st.sampled_from(list(Side))
PARTS = some(
    *("gear", "gear 3", "thrust washer", "other fork", "fork L", "crank gear", "first plate"),
    *(choice.removeprefix("part: the ") for q in asked("faces") for choice in q.choices
      if choice.startswith("part: the ") and choice != "part: the clutch"),  # a side here
).map(OtherPart)  # fmt: skip
FEATURES = some(
    *("OUT", "TOP", "C", "lip", "sealed side", "sharp edge", "long boss", "part-number side"),
    *("chamfer", "grooves", "number side", "close coils", "cutaway", "arrow", "dot", "step"),
    *(q.feature for q in asked("faces") if is_plain(q.feature)),
)
TURNED = some("gap", "tab", "dot", "keyway", *(q.feature for q in asked("clocking")))
TARGETS = some(
    *("in the notch", "line on the case", "mark", "against the stop", "dowel"),
    *(choice.removeprefix("to the ") for q in asked("clocking") for choice in q.choices
      if is_plain(choice) and not choice.startswith("each")),
)  # fmt: skip
MARKS = some(
    *("two punch dots", "paint line", "scribed line", "white paint mark", "", "file cut"),
    *(choice for q in asked("match mark") for choice in q.choices),
)
THINGS = some("", "cylinder", "hole", "position", *(q.feature for q in asked("place")))
HOURS = st.one_of(st.integers(1, 12).map(float), st.integers(2, 24).map(lambda half: half / 2))
FACES = st.builds(Faces, FEATURES, st.one_of(SIDES, st.sampled_from(list(Outness)), PARTS))
PLACES = st.integers(1, 9).flatmap(
    lambda of: st.builds(
        Place, st.integers(1, of), st.sampled_from([of, None]), st.one_of(st.none(), SIDES), THINGS
    )
)
SEATS = st.one_of(
    st.builds(Seat, st.sampled_from(list(SeatKind))),
    st.builds(
        Seat,
        st.sampled_from([SeatKind.PROUD, SeatKind.BELOW]),
        st.integers(1, 900).map(lambda hundredths: hundredths / 100),
    ),
)
VIEW = st.one_of(st.none(), SIDES)
CLOCKINGS = st.one_of(
    st.builds(Clocking, TURNED, HOURS, seen_from=VIEW),
    st.builds(Clocking, TURNED, target=TARGETS, seen_from=VIEW),
)
MATCHES = st.builds(MatchMark, MARKS, st.one_of(st.just(""), PARTS.map(lambda part: part.name)))
NONES = some("", "lip", "mark", "match mark", "C", "hand", "place", "seat", "same way", "keyway")
FACTS = st.tuples(
    st.lists(st.builds(Hand, st.sampled_from("LR"), st.booleans()), max_size=1),
    st.lists(FACES, max_size=2),
    st.lists(st.builds(SameWay, PARTS, st.booleans()), max_size=1),
    st.lists(PLACES, max_size=2),
    st.lists(CLOCKINGS, max_size=2),
    st.lists(SEATS, max_size=1),
    st.lists(MATCHES.filter(lambda match: match.mark or match.partner), max_size=1),
    st.lists(st.builds(Without, NONES), max_size=1),
).map(lambda lists: [fact for facts in lists for fact in facts])


def plain(facts):
    return sorted(to_data(set(facts)), key=str)


@settings(max_examples=300, deadline=None)
@given(FACTS, DATUMS)
def test_the_sentence_read_back_gives_the_same_facts(facts, datum):
    line = f"part, {sentence(facts, datum)}"
    tape = read(line, datum, kinds=KINDS)
    assert plain(tape.entry.which_way) == plain(facts), line
    assert (tape.entry.name, tape.entry.note) == ("part", ""), line


@settings(max_examples=100, deadline=None)
@given(FACTS)
def test_the_mirrored_machine_reads_mirrored_facts(facts):
    """A line that names the machine's own sides, read where left and right have changed names."""
    datum = Datum("", {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"})
    own = [fact for fact in facts if not isinstance(fact, Hand)]
    there = read(f"part, {sentence(own, datum)}", datum.mirrored(), kinds=KINDS)
    assert plain(there.entry.which_way) == plain(mirrored(fact) for fact in own)


SWAPPED = {"left": "right", "right": "left", "flywheel": "clutch", "clutch": "flywheel"}


@settings(max_examples=100, deadline=None)
@given(FACTS)
def test_a_line_with_left_and_right_exchanged_reads_mirrored_facts(facts):
    datum = Datum("", {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"})
    own = [fact for fact in facts if not isinstance(fact, Hand)]
    swapped = re.sub("left|right|flywheel|clutch", lambda m: SWAPPED[m[0]], sentence(own, datum))
    there = read(f"part, {swapped}", datum, kinds=KINDS)
    assert plain(there.entry.which_way) == plain(mirrored(fact) for fact in own)


def mirrored(fact):
    """The fact with left and right exchanged in whatever field holds a side."""
    return replace(
        fact,
        **{
            name: value.opposite
            for name in ("toward", "counted_from", "seen_from")
            if (value := getattr(fact, name, None)) in (Side.LEFT, Side.RIGHT)
        },
    )


def test_outward_with_the_side_it_is_says_no_more_than_outward():
    datum = Datum("", {Side.RIGHT: "clutch side"})
    told = Faces("OUT", Outness.OUTWARD, Side.RIGHT)
    said = sentence([told], datum)
    assert "outward, to the clutch side" in said
    assert read(f"part, {said}", datum).entry.which_way == (Faces("OUT", Outness.OUTWARD),)


def test_the_sentence_of_the_guide_is_read_back_whole():
    datum = Datum("", {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"})
    entry = read(
        "part, Stamped R. The C faces the clutch side. 2nd of 3, counted from the flywheel side. "
        "Gap at 4 o'clock, seen from the clutch side. Sits 0.5 mm below the face. Two punch dots, "
        "matched to the crank gear. Same way round as the other fork. No match mark. "
        "Goes either way round. Match mark: paint line.",
        datum,
    ).entry
    assert (entry.name, entry.note) == ("part", "")
    assert set(entry.which_way) == {
        Hand("R", stamped=True),
        Faces("C", Side.RIGHT),
        Place(2, 3, Side.LEFT),
        Clocking("gap", 4.0, seen_from=Side.RIGHT),
        Seat(SeatKind.BELOW, 0.5),
        MatchMark("two punch dots", "crank gear"),
        SameWay(OtherPart("other fork")),
        Without("match mark"),
        Without(),
        MatchMark("paint line"),
    }
