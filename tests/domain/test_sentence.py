"""Which way in words."""

import pytest
from fact_cases import DATUMS, FACTS, FORK_L, FORK_R, TRACTOR, mirrored
from hypothesis import given

from bagtag.domain.datum import Datum, Side
from bagtag.domain.sentence import hour_words, ordinal, sentence, short
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

SAID = [
    (Hand("R", stamped=True), "Stamped R.", "R"),
    (Hand("L"), "L by position, not stamped.", "L"),
    (Faces("C", Side.RIGHT), "The C faces the clutch side.", "C to the clutch side"),
    (Faces("dot", Side.TOP), "The dot faces the top.", "dot to the top"),
    (Faces("two dots", Side.REAR), "The two dots face the rear.", "two dots to the rear"),
    (Faces("OUT", Outness.OUTWARD), "OUT faces outward.", "OUT outward"),
    (Faces("lip", Outness.INWARD), "The lip faces inward.", "lip inward"),
    (Faces("the boss", OtherPart("gear")), "The boss faces the gear.", "boss to the gear"),
    (Faces("lip", OtherPart("gear 3")), "The lip faces gear 3.", "lip to gear 3"),
    (Faces("C", OtherPart("shift fork L")), "The C faces shift fork L.", "C to shift fork L"),
    (Faces("", Outness.OUTWARD), "Faces outward.", "outward"),
    (Place(2, 3, Side.LEFT), "2nd of 3, counted from the flywheel side.", "2nd of 3"),
    (Place(3), "3rd in its row.", "3rd"),
    (Place(1, 4), "1st of 4.", "1st of 4"),
    (Place(2, what="cylinder"), "Cylinder 2.", "cylinder 2"),
    (Place(14, 20, Side.TOP, "hole"), "Hole 14 of 20, counted from the top.", "hole 14 of 20"),
    (
        Clocking("gap", 4, seen_from=Side.RIGHT),
        "Gap at 4 o'clock, seen from the clutch side.",
        "gap at 4 o'clock",
    ),
    (Clocking("tab", target="in the notch"), "Tab in the notch.", "tab in the notch"),
    (Clocking("dot", target="line"), "Dot to the line.", "dot to the line"),
    (Clocking("key", 10.5), "Key at half past 10.", "key at half past 10"),
    (Seat(SeatKind.FLUSH), "Sits flush.", "flush"),
    (Seat(SeatKind.PROUD, 0.5), "Sits 0.5 mm proud.", "0.5 mm proud"),
    (Seat(SeatKind.BELOW, 1.2), "Sits 1.2 mm below the face.", "1.2 mm below"),
    (Seat(SeatKind.BELOW), "Sits below the face.", "below"),
    (Seat(SeatKind.BOTTOMED), "Bottomed.", "bottomed"),
    (Seat(SeatKind.SHOULDER), "Sits against the shoulder.", "against the shoulder"),
    (
        MatchMark("two punch dots", "drum"),
        "Two punch dots, matched to the drum.",
        "two punch dots",
    ),
    (MatchMark("paint line"), "Match mark: paint line.", "paint line"),
    (
        Faces("OUT", Outness.OUTWARD, Side.RIGHT),
        "OUT faces outward, to the clutch side.",
        "OUT outward (clutch side)",
    ),
    (
        Faces("lip", Outness.INWARD, Side.TOP),
        "The lip faces inward, to the top.",
        "lip inward (top)",
    ),
    (
        Faces("chamfer", OtherPart("gear 3", "u", "41")),
        "The chamfer faces gear 3 (41).",
        "chamfer to gear 3 (41)",
    ),
    (
        SameWay(OtherPart("the other fork")),
        "Same way round as the other fork.",
        "same way as the other fork",
    ),
    (
        SameWay(OtherPart("shift fork L", "u", "12")),
        "Same way round as shift fork L (12).",
        "same way as shift fork L (12)",
    ),
    (
        SameWay(OtherPart("shift fork L", "u", "12"), True, (Faces("C", Side.RIGHT),)),
        "Opposite way round to shift fork L (12): the C faces the clutch side.",
        "opposite to shift fork L (12): C to the clutch side",
    ),
    (Without("match mark"), "No match mark.", "no match mark"),
    (Without(), "Goes either way round.", "goes either way round"),
]


@pytest.mark.parametrize(("fact", "long", "brief"), SAID, ids=lambda value: str(value)[:40])
def test_each_fact_in_words(fact, long, brief):
    assert sentence([fact], TRACTOR) == long
    assert short([fact], TRACTOR) == brief


def test_a_group_of_facts():
    assert sentence(FORK_R, TRACTOR) == (
        "Stamped R. The C faces the clutch side. 2nd of 3, counted from the flywheel side."
    )
    assert short(FORK_R, TRACTOR) == "R, C to the clutch side, 2nd of 3"


def test_how_another_part_sat_is_said_once():
    """What a part's own fact says is not said again by way of another part."""
    facts = (Faces("C", Side.RIGHT), Clocking("gap", 4))
    alike = SameWay(OtherPart("shift fork L", "u", "12"), False, facts)
    assert sentence([alike], TRACTOR) == (
        "Same way round as shift fork L (12): the C faces the clutch side; gap at 4 o'clock."
    )
    assert sentence([alike, Faces("the C", Side.RIGHT)], TRACTOR) == (
        "The C faces the clutch side. Same way round as shift fork L (12): gap at 4 o'clock."
    )
    other = SameWay(OtherPart("clutch fork"), False, facts)
    assert sentence([alike, other], TRACTOR).count("the C faces") == 1


def test_no_facts_no_words():
    assert sentence([], TRACTOR) == short([], TRACTOR) == ""


@pytest.mark.parametrize(
    ("side", "words"),
    [
        (Side.LEFT, "The C faces left."),
        (Side.RIGHT, "The C faces right."),
        (Side.FRONT, "The C faces the front."),
        (Side.BOTTOM, "The C faces the bottom."),
    ],
)
def test_sides_without_a_name_of_their_own(side, words):
    assert sentence([Faces("C", side)], Datum()) == words
    plain = side.value
    assert sentence([Place(2, 3, side)], Datum()) == f"2nd of 3, counted from the {plain}."


def test_a_name_that_brings_its_article_or_does_without_side():
    datum = Datum("", {Side.LEFT: "the pulley end", Side.RIGHT: "flywheel"})
    assert sentence([Faces("C", Side.LEFT)], datum) == "The C faces the pulley end."
    assert sentence([Faces("C", Side.RIGHT)], datum) == "The C faces the flywheel."


def test_common_practice_in_words():
    """Common practice, no source: a bearing sealed on one side goes in with the sealed side
    outward; a retainer stamped OUT faces outward; left and right shift forks sit side by side and
    face the same way."""
    assert sentence([Faces("sealed side", Outness.OUTWARD)], TRACTOR) == (
        "The sealed side faces outward."
    )
    assert sentence([Faces("OUT", Outness.OUTWARD)], TRACTOR) == "OUT faces outward."
    left, right = sentence(FORK_L, TRACTOR), sentence(FORK_R, TRACTOR)
    assert "The C faces the clutch side." in left
    assert "The C faces the clutch side." in right
    assert left.startswith("Stamped L.")
    assert right.startswith("Stamped R.")


@pytest.mark.parametrize(
    ("number", "word"),
    [(1, "1st"), (2, "2nd"), (3, "3rd"), (4, "4th"), (11, "11th"), (12, "12th"), (13, "13th"),
     (21, "21st"), (22, "22nd"), (101, "101st"), (111, "111th"), (0, "0th")],
)  # fmt: skip
def test_ordinals(number, word):
    assert ordinal(number) == word


@pytest.mark.parametrize(
    ("hour", "words"),
    [(12, "12 o'clock"), (0.5, "half past 12"), (4.25, "4:15"), (6.999, "7 o'clock"),
     (float("nan"), "nan o'clock")],
)  # fmt: skip
def test_hours(hour, words):
    assert hour_words(hour) == words


@given(FACTS, DATUMS)
def test_a_fact_is_said_once(facts, datum):
    assert sentence([*facts, *facts], datum) == sentence(facts, datum)
    assert short([*facts, *facts], datum) == short(facts, datum)


@given(FACTS, DATUMS)
def test_the_hand_is_said_first(facts, datum):
    said = sentence([*facts, Hand("R", stamped=True)], datum)
    assert said.startswith(("Stamped R.", "L by", "R by", "Stamped L."))


@given(FACTS, DATUMS)
def test_one_line_of_plain_sentences(facts, datum):
    words = sentence(facts, datum)
    assert "\n" not in words
    assert "  " not in words
    assert not words or words.endswith(".")


@given(FACTS)
def test_a_mirrored_datum_gives_the_mirrored_sentence(facts):
    swapped = [mirrored(fact) for fact in facts]
    assert sentence(facts, TRACTOR.mirrored()) == sentence(swapped, TRACTOR)
    assert short(facts, TRACTOR.mirrored()) == short(swapped, TRACTOR)


def test_left_and_right_change_places_in_the_mirror():
    assert sentence(FORK_R, TRACTOR.mirrored()) == (
        "Stamped R. The C faces the flywheel side. 2nd of 3, counted from the clutch side."
    )
