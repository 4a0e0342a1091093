"""What a sheet refuses, in one sentence, and what it only asks about."""

from dataclasses import replace
from decimal import Decimal

import pytest
from measuring_kit import limits, reading, sheet

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring import check
from bagtag.domain.measuring.sheet import Given, Reading, SheetKind

K = SheetKind
GOOD = ("76.27", "76.25", "76.25", "76.22", "76.20", "76.19")
PLACE = "top, across"


def refused(kept, field, says):
    with pytest.raises(BadInput, match=says) as raised:
        check.checked(kept)
    assert raised.value.field == field
    assert raised.value.sentence.endswith(".")


@pytest.mark.parametrize(
    ("held", "says"),
    [
        (limits("size", ("76.02", "76.00")), "as new are the wrong way round"),
        (limits("size", wear=("76.2", "76.0")), "of wear are the wrong way round"),
        (limits("size", (None, "76.02"), (None, "76.01")), "tighter"),
        (limits("size", ("76.00", None), ("76.01", None)), "tighter"),
        (limits("size", ("76.00", None), (None, "75.99")), "tighter"),
        (limits("size", wear=(None, "NaN")), "no figure"),
        (limits("size", wear=(None, "1e9")), "cannot be"),
        (limits("size", wear=("-1", None)), "below zero"),
        (limits("size", wear=(None, "76.2"), unit="N"), "no unit for bore"),
        (limits("size", wear=(None, "76.2"), unit=""), "no unit for bore"),
        (limits("clearance", wear=(None, "76.2")), "no figure clearance"),
    ],
)
def test_limits_that_cannot_be(held, says):
    refused(sheet(K.BORE, GOOD, limits=[held]), "limits", says)


def test_limits_of_wear_may_stand_on_those_of_a_new_part():
    held = limits("size", ("76.00", "76.02"), ("76.00", "76.02"))
    assert check.checked(sheet(K.BORE, GOOD, limits=[held])).limits == (held,)


def test_one_figure_has_its_limits_once():
    held = limits("taper", wear=(None, "0.05"))
    refused(sheet(K.BORE, GOOD, limits=[held, held]), "limits", "Taper is there twice")


@pytest.mark.parametrize(
    ("read", "says"),
    [
        (reading(PLACE, "-76.2"), "below zero"),
        (reading(PLACE, "0"), "is no size"),
        (reading(PLACE, "NaN"), "no figure"),
        (reading(PLACE, "Infinity"), "no figure"),
        (reading(PLACE, "1e9"), "cannot be"),
        (reading(PLACE, "76.2", "N"), "no unit for top, across"),
        (reading(PLACE, "76.2", "cubit"), "no unit for top, across"),
        (Reading(PLACE, Decimal("76.2"), resolution=Decimal(0)), "above zero"),
        (Reading(PLACE, Decimal("76.2"), resolution=Decimal("NaN")), "above zero"),
        (Reading(PLACE, Decimal("76.2"), temperature=Decimal(900)), "900 °C"),
        (Reading(PLACE, Decimal("76.2"), temperature=Decimal("NaN")), "NaN °C"),
        (Reading(PLACE, Decimal("76.2"), instrument="x" * 900), "Shorten it"),
        (reading("halfway", "76.2"), "no place halfway"),
    ],
)
def test_readings_that_cannot_be(read, says):
    refused(replace(sheet(K.BORE), readings=(read,)), "readings", says)


def test_a_place_is_read_once():
    twice = (reading(PLACE, "76.2"), reading(PLACE, "76.3"))
    refused(replace(sheet(K.BORE), readings=twice), "readings", "Top, across is there twice")


def test_a_dial_may_stand_below_nothing_and_a_gap_may_not():
    assert check.checked(sheet(K.RUN_OUT, ("0.04", "-0.02")))
    assert check.checked(sheet(K.END_FLOAT, ["0"]))
    refused(sheet(K.END_FLOAT, ["-0.1"]), "readings", "below zero")


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ((Given("rings", Decimal("2.5")),), "a whole number from 1 to 8"),
        ((Given("rings", Decimal(0)),), "a whole number from 1 to 8"),
        ((Given("rings", Decimal("NaN")),), "no figure"),
        ((Given("rings", Decimal(3), "mm"),), "no unit at all"),
        ((Given("bore", Decimal(-76)),), "below zero"),
        ((Given("bore", Decimal(76), "N"),), "no unit for bore"),
        ((Given("bore", Decimal(76)), Given("bore", Decimal(77))), "Bore is there twice"),
        ((Given("colour", Decimal(1)),), "no use for colour"),
        ((Given("factor", Decimal("0.004")),) * 201, "200 given figures"),
    ],
)
def test_what_is_given_and_cannot_be(given, says):
    refused(replace(sheet(K.RING_GAP), given=given), "given", says)


def test_a_ring_that_is_read_must_go_before_its_place():
    kept = sheet(K.RING_GAP, ("0.3", "0.3", "0.3"))
    refused(replace(kept, given=(Given("rings", Decimal(2)),)), "readings", "no place ring 3")


def test_texts_are_made_clean_and_the_unit_is_one_of_length():
    kept = replace(sheet(K.SIZE), title="  Fork \u202e tip ", note="a\r\nb")
    clean = check.checked(kept)
    assert (clean.title, clean.note) == ("Fork tip", "a\nb")
    refused(replace(kept, title="x" * 201), "title", "Shorten it")
    refused(replace(kept, unit="N"), "unit", "in mm or in")


def asked(*arguments, **more):
    return check.questions(check.checked(sheet(*arguments, **more)))


def test_inches_among_millimetres_are_noticed():
    (said,) = asked(K.BORE, ("3.002", *GOOD[1:]))
    assert said == (
        "Top, across: 3.002 mm among readings of 76.20 mm: 3.002 in is 76.251 mm. Say the unit."
    )


def test_millimetres_among_inches_are_noticed():
    read = ("76.25", "3.002", "3.001", "3.001", "3.000", "3.000")
    (said,) = asked(K.BORE, read, unit="in")
    assert "76.25 mm is 3.002 in. Say the unit." in said


def test_a_sheet_all_in_inches_is_noticed_by_the_standard_size_and_told_once():
    (said,) = asked(K.BORE, ["3.002"] * 6, given={"standard": "76.25"})
    assert said.startswith("Top, across and 5 more: 3.002 mm beside the standard size 76.25 mm")


def test_inches_are_noticed_by_the_limits_of_a_gap():
    told = [limits("gap", ("0.20", "0.40"))]
    (said,) = asked(K.RING_GAP, ["0.012"], limits=told)
    assert "0.012 in is 0.305 mm" in said


def test_a_gap_in_inches_is_noticed_by_the_bore_where_no_limits_are_given():
    """0.004 of 76 mm is 0.304, 0.012 in is 0.3048 mm: filing by 0.29 mm would spoil the ring."""
    (said,) = asked(K.RING_GAP, ["0.012"], given={"bore": "76", "rings": "1"})
    assert said.startswith("Ring 1: 0.012 mm beside the usual 0.304 mm of this bore: 0.012 in is")
    (said,) = asked(K.RING_GAP, ["31"], given={"bore": "76", "rings": "1"})
    assert "was 0.31 meant?" in said
    for gap in ("0.10", "0.30", "1.20"):
        assert asked(K.RING_GAP, [gap], given={"bore": "76", "rings": "1"}) == ()


def test_limits_in_the_wrong_unit_are_noticed():
    told = [limits("size", ("3.000", "3.001"), (None, "3.004"))]
    (said,) = asked(K.BORE, GOOD, limits=told)
    assert "the limits would fit in inches" in said


@pytest.mark.parametrize(
    ("value", "meant"),
    [("762.5", "76.25"), ("7.625", "76.25"), ("7625", "76.25"), ("0.7625", "76.25")],
)
def test_a_point_in_the_wrong_place_is_noticed(value, meant):
    (said,) = asked(K.BORE, (value, *GOOD[1:]))
    assert f"was {meant} meant? Look at the point." in said


def test_a_point_in_the_wrong_place_is_noticed_by_the_limits_of_a_gap():
    told = [limits("gap", ("0.25", "0.40"), (None, "0.80"))]
    (said,) = asked(K.RING_GAP, ["35"], limits=told)
    assert "was 0.35 meant?" in said


@pytest.mark.parametrize(
    ("kind", "key", "good"),
    [
        (K.PLASTIC_GAUGE, "clearance", "0.05"),
        (K.RING_GAP, "gap", "0.05"),
        (K.END_FLOAT, "end float", "0.05"),
        (K.BACKLASH, "backlash", "0.05"),
        (K.STACK, "end float", "0.05"),
        (K.DECK, "deck", "0.05"),
    ],
)
@pytest.mark.parametrize("factor", ["10", "0.1", "100", "0.01"])
def test_a_tenfold_and_a_hundredfold_slip_of_a_small_figure_are_noticed(kind, key, good, factor):
    told = [limits(key, ("0.04", "0.06"), (None, "0.08"))]
    assert not any("meant" in one for one in asked(kind, [good] * 2, limits=told))
    slip = Decimal(good) * Decimal(factor)
    said = [one for one in asked(kind, [slip, good], limits=told) if "meant" in one]
    assert [f"was {good} meant?" in one for one in said] == [True]


def test_a_reading_far_off_without_a_reason_is_to_be_read_again():
    (said,) = asked(K.BORE, ("12.00", *GOOD[1:]))
    assert said.endswith("is far off. Read it again.")


@pytest.mark.parametrize(
    ("kind", "read", "told"),
    [
        (K.BORE, GOOD, [limits("size", ("76.00", "76.02"), (None, "76.60"))]),
        (K.FLATNESS, ("0.00", "0.01", "0.10", "0.02"), [limits("flatness", wear=(None, "0.2"))]),
        (K.RING_GAP, ("0.30", "1.20", "0.90"), [limits("gap", ("0.25", "0.40"), (None, "0.80"))]),
        (K.FLATNESS, ["0.005"] * 4, [limits("flatness", (None, "0.03"), (None, "0.10"))]),
        (K.RUN_OUT, ["0.002"], [limits("run-out", (None, "0.03"), (None, "0.06"))]),
        (K.END_FLOAT, ["0.02"], [limits("end float", ("0.05", "0.20"))]),
        (K.PISTON, ("76.05", "76.05", "75.97", "75.97"), ()),
    ],
)
def test_parts_that_are_only_worn_are_not_asked_about(kind, read, told):
    assert asked(kind, read, limits=told) == ()


def test_an_instrument_too_coarse_for_the_limits_is_asked_about_once():
    told = [limits("taper", wear=(None, "0.05")), limits("out of round", wear=(None, "0.05"))]
    (said,) = asked(K.BORE, GOOD, limits=told, step="0.01")
    assert said.startswith("Taper and out of round: told to 0.02 mm at best")
    assert asked(K.BORE, GOOD, limits=told, step="0.002") == ()


def test_a_figure_at_its_limit_asks_what_it_was_read_with():
    told = [limits("size", wear=(None, "76.27"))]
    (said,) = asked(K.BORE, GOOD, limits=told)
    assert said.startswith("Bore stands at its limit to the last digit")
    assert asked(K.BORE, GOOD, limits=[limits("size", wear=(None, "76.28"))]) == ()


def test_warm_parts_are_asked_about_and_nothing_is_corrected():
    def read(*degrees):
        kept = sheet(K.PISTON, ("76.05", "76.05", "75.97"))
        taken = zip(kept.readings, degrees, strict=True)
        warm = tuple(
            replace(one, temperature=None if at is None else Decimal(at)) for one, at in taken
        )
        return check.questions(replace(kept, readings=warm))

    assert read(20, 20, 25) == ()
    assert read(None, None, 21) == ()
    assert read(20, 20, 26)[0].startswith("Read at 20 to 26 °C: let the parts stand together")
    assert read(34, 34, 34)[0].startswith("Read at 34 °C: sizes hold at 20 °C")
    assert read(4, None, 6)[0].startswith("Read at 4 °C")


def test_a_piston_larger_than_its_bore_is_asked_about():
    (said,) = asked(K.PISTON, ("76.02", "76.01", "76.05"))
    assert said == "The skirt is larger than the bore: are they of one place, and read right?"


@pytest.mark.parametrize(
    ("read", "unit", "new", "said"),
    [
        (
            ("1.8130", "1.8130", "1.8111"),
            "mm",
            ("0.018", "0.065"),
            "if the readings were in inches",
        ),
        (("46.05", "46.05", "46.00"), "mm", ("0.0007", "0.0025"), "if the limits were in inches"),
        (
            ("46.05", "46.05", "46.00"),
            "in",
            ("0.0007", "0.0025"),
            "the readings were in millimetres",
        ),
        (
            ("1.8130", "1.8130", "1.8111"),
            "in",
            ("0.018", "0.065"),
            "the limits were in millimetres",
        ),
    ],
)
def test_a_pair_that_is_all_in_the_other_unit_is_noticed_by_its_clearance(read, unit, new, said):
    """A bearing's limits as they are printed: TM 9-2815-254-24, see measuring.json."""
    told = [limits("clearance", new, unit=unit)]
    assert any(said in one for one in asked(K.BEARING, read, unit=unit, limits=told))
    worn = ("46.08", "46.08", "46.00") if unit == "mm" else ("1.8142", "1.8142", "1.8111")
    fitting = ("0.018", "0.065") if unit == "mm" else ("0.0007", "0.0025")
    assert asked(K.BEARING, worn, unit=unit, limits=[limits("clearance", fitting, unit=unit)]) == ()
    most = limits("clearance", wear=(None, fitting[1]), unit=unit)
    assert asked(K.BEARING, worn, unit=unit, limits=[most]) == ()


def test_a_deck_in_inches_is_noticed_by_its_limits_and_one_below_zero_asks_nothing():
    (said,) = asked(K.DECK, ["0.012", "0.012"], limits=[limits("deck", ("0.20", "0.40"))])
    assert "0.012 in is 0.305 mm" in said
    assert asked(K.DECK, ["0.012", "0.012"], limits=[limits("deck", ("-0.20", "0.40"))]) == ()


@pytest.mark.parametrize(
    ("value", "step", "is_asked"),
    [
        ("0.0012", "0.01", True),
        ("0.0003", "0.01", True),
        ("0.03", "0.01", False),
        ("0.035", "0.01", False),
        ("0.0300", "0.01", False),
        ("0.0304", "0.00254", False),
        ("0", "10", False),
    ],
)
def test_a_reading_finer_than_its_instrument_shows_is_asked_about(value, step, is_asked):
    """A run-out in inches is smaller than its limit in millimetres, and nothing else tells."""
    told = [limits("run-out", (None, "0.03"), (None, "0.06"))]
    said = asked(K.RUN_OUT, [value], limits=told, step=step)
    assert any("can show" in one for one in said) is is_asked


def test_a_standard_size_in_the_wrong_unit_is_noticed():
    (said,) = asked(K.BORE, GOOD, given={"standard": "3.000"})
    assert "the standard size would fit in inches" in said


@pytest.mark.parametrize(
    ("unit", "made", "says"),
    [
        ("mm", "0.020", "Oversizes of 0.020 mm: 0.020 in is 0.508 mm. Say the unit."),
        ("in", "0.5", "Oversizes of 0.5 in: 0.5 mm is 0.0197 in. Say the unit."),
    ],
)
def test_an_oversize_in_the_wrong_unit_is_noticed(unit, made, says):
    assert asked(K.BORE, unit=unit, given={"oversizes": made}) == (says,)


@pytest.mark.parametrize(
    ("unit", "made"), [("mm", "0.50"), ("mm", "0.25"), ("in", "0.010"), ("in", "0.040")]
)
def test_oversizes_as_they_are_made_are_not_asked_about(unit, made):
    assert asked(K.BORE, unit=unit, given={"oversizes": made}) == ()


def test_a_whole_size_is_no_oversize():
    assert asked(K.BORE, given={"standard": "76.00", "oversizes": ("76.25", "76.50")}) == ()
