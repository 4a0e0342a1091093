"""What a person enters: taken clean, or one sentence and the field it is about."""

import unicodedata
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry, checked, clean_text, repeat
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import Adapter, HeldBy, Length, Stretch, Torque
from bagtag.domain.model import Fate
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    Seat,
    SeatKind,
)

FORK = Entry(
    name="shift fork R",
    quantity=1,
    area_id=4,
    which_way=(Hand("R", stamped=True), Faces("C", Side.RIGHT), Place(2, 3, Side.LEFT)),
    held_by=(HeldBy(2, "screw", "M6", 12.0, drive="T30", torque=Torque(10)),),
    condition="tips worn",
    fate=Fate.RENEW,
    goes_on="gear oil",
    note="first line\nsecond line",
    container_id=12,
    uid="a-1",
)


def refusal(entry: Entry) -> BadInput:
    with pytest.raises(BadInput) as caught:
        checked(entry)
    assert caught.value.sentence.endswith((".", "?"))
    assert "\n" not in caught.value.sentence
    return caught.value


def test_a_sound_entry_is_taken_as_it_is():
    assert checked(FORK) == FORK


@pytest.mark.parametrize("name", ["", "   ", "\t\n", "\u202e\u200f", "\x00", "\u200d"])
def test_a_part_needs_a_name(name):
    refused = refusal(Entry(name))
    assert refused.field == "name"
    assert "bag" in refused.sentence


def test_a_long_name_is_counted_and_sent_to_the_note():
    assert checked(Entry("n" * 200)).name == "n" * 200
    refused = refusal(Entry("n" * 214))
    assert refused.field == "name"
    assert "214" in refused.sentence
    assert "note" in refused.sentence
    assert checked(Entry("gear", note="n" * 214)).note == "n" * 214


@pytest.mark.parametrize("quantity", [0, -1, 10_000, 2.5, True, "3"])
def test_a_quantity_is_a_whole_number_from_1_to_9999(quantity):
    refused = refusal(Entry("spring", quantity=quantity))
    assert refused.field == "quantity"
    assert "9999" in refused.sentence


@pytest.mark.parametrize("quantity", [1, 9999])
def test_both_ends_of_the_quantity_are_taken(quantity):
    assert checked(Entry("needle roller", quantity=quantity)).quantity == quantity


@pytest.mark.parametrize(
    ("line", "word"),
    [
        (HeldBy(count=-1), "-1"),
        (HeldBy(count=0), "0"),
        (HeldBy(length=0.0), "length"),
        (HeldBy(length=float("nan")), "length"),
        (HeldBy(length=20.0, length_unit="furlong"), "furlong"),
        (HeldBy(torque=Torque(0)), "torque"),
        (HeldBy(torque=Torque(-10)), "-10"),
        (HeldBy(torque=Torque(float("inf"))), "torque"),
        (HeldBy(note="n" * 501), "501"),
        (HeldBy(also=Torque(0)), "second time"),
        (HeldBy(also=Torque(float("nan"))), "second time"),
        (HeldBy(drag=Torque(-2)), "drag"),
        (HeldBy(length=1e6), "1e+06 mm long"),
        (HeldBy(length=200, length_unit="in"), "200 in long"),
        (HeldBy(torque=Torque(1e6)), "cannot be 1000000 N·m"),
        (HeldBy(angle=0), "above zero"),
        (HeldBy(angle=-90), "above zero"),
        (HeldBy(angle=361), "one turn"),
        (HeldBy(angle=float("nan")), "one turn"),
        (HeldBy(stretch=Stretch(0.15, 0.13)), "wrong way round"),
        (HeldBy(stretch=Stretch(0, 0.1)), "stretch is above zero"),
        (HeldBy(stretch=Stretch(0.1, float("inf"))), "stretch is above zero"),
        (HeldBy(stretch=Stretch(0.1, 0.2, "thou")), "thou"),
        (HeldBy(washers=-1), "washers"),
        (HeldBy(washers=100), "washers"),
        (HeldBy(washers=True), "washers"),
        (HeldBy(adapter=Adapter(Length(0))), "adapter"),
        (HeldBy(adapter=Adapter(Length(50), 200)), "180 degrees"),
        (HeldBy(head="h" * 501), "head"),
        (HeldBy(washer="w" * 501), "washer"),
        (HeldBy(lubrication="l" * 501), "lubrication"),
        (HeldBy(tool="t" * 501), "tool"),
        (HeldBy(mark="m" * 501), "mark"),
    ],
)
def test_hardware_that_cannot_be(line, word):
    refused = refusal(Entry("cover", held_by=(HeldBy(), line)))
    assert refused.field == "held_by"
    assert word in refused.sentence


@pytest.mark.parametrize(
    ("fact", "word"),
    [
        (Hand("X"), "L or R"),
        (Faces("", Outness.OUTWARD), "faces"),
        (Faces("lip", OtherPart("  ")), "lip"),
        (Place(0), "row"),
        (Place(1, 0), "row"),
        (Clocking("gap"), "hour"),
        (Clocking("gap", 0.5), "0.5"),
        (Clocking("gap", 13), "13"),
        (Clocking("gap", 4.25), "4.25"),
        (Clocking("gap", float("nan")), "hours"),
        (Seat(SeatKind.FLUSH, 0.5), "flush"),
        (Seat(SeatKind.PROUD, 0), "proud"),
        (Seat(SeatKind.BELOW, -0.5), "below"),
        (MatchMark(" "), "mark"),
        (MatchMark("dot", "p" * 201), "201"),
    ],
)
def test_which_way_that_cannot_be(fact, word):
    refused = refusal(Entry("ring", which_way=(fact,)))
    assert refused.field == "which_way"
    assert word in refused.sentence


@pytest.mark.parametrize(
    "fact",
    [
        Clocking("gap", 1),
        Clocking("gap", 12.5),
        Clocking("tab", target="in the notch"),
        Seat(SeatKind.PROUD, 0.5),
        Seat(SeatKind.BELOW),
        Place(4, 3),
        MatchMark("paint line"),
        Faces("sharp edge", OtherPart("gear")),
    ],
)
def test_which_way_that_can_be(fact):
    """A place past the row's end is a contradiction to show, not an input to refuse."""
    assert checked(Entry("ring", which_way=(fact,))).which_way == (fact,)


def test_text_is_made_clean_everywhere():
    dirty = Entry(
        "  shift\t fork\u202e R ",
        which_way=(MatchMark(" two  dots ", "\u2066housing"),),
        held_by=(HeldBy(kind=" flange \x07bolt"),),
        condition="worn\nlips",
        goes_on=" gear   oil ",
        note=" first \r\n\r\n second\x00  line ",
    )
    assert checked(dirty) == Entry(
        "shift fork R",
        which_way=(MatchMark("two dots", "housing"),),
        held_by=(HeldBy(kind="flange bolt"),),
        condition="worn lips",
        goes_on="gear oil",
        note="first\n\nsecond line",
    )


def test_a_letter_and_its_accent_become_one():
    """NFC by Unicode Standard Annex #15: e and U+0301 compose to U+00E9."""
    assert clean_text("cle\u0301", limit=10) == "cl\u00e9"


@pytest.mark.parametrize("name", ["Вилка переключения", "δίχαλο <b> & Co.", "gear 5\u00bd"])
def test_any_script_and_any_sign_is_kept(name):
    assert checked(Entry(name)).name == name


def test_a_text_too_long_says_how_long_and_is_not_cut():
    with pytest.raises(BadInput, match=r"The title has 11 characters and may have 10\.") as caught:
        clean_text("n" * 11, limit=10, field="title", what="The title")
    assert caught.value.field == "title"


@given(st.text(), st.booleans())
def test_clean_text_is_clean(text, lines):
    clean = clean_text(text, lines=lines, limit=10_000)
    assert clean_text(clean, lines=lines, limit=10_000) == clean
    assert unicodedata.is_normalized("NFC", clean)
    assert "  " not in clean
    assert clean == clean.strip()
    assert not [c for c in clean if unicodedata.category(c) == "Cc" and not (lines and c == "\n")]
    clean.encode("utf-8")


@given(st.text(alphabet=st.characters(categories=["L", "N", "P"]), min_size=1, max_size=60))
def test_letters_figures_and_points_are_never_taken_away(text):
    assert clean_text(text, limit=1000) == unicodedata.normalize("NFC", text)


def test_as_the_last_one():
    again = repeat(FORK)
    assert again == replace(FORK, name="", quantity=1, which_way=(), condition="", note="", uid="")
    assert (again.area_id, again.container_id, again.goes_on) == (4, 12, "gear oil")
