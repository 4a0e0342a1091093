"""Every kind of sheet: what it asks for, what it says, and what follows."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from measuring_kit import BORE_LIMITS, WORN_BORE, figure, limits, reading, sheet

from bagtag.domain.measuring import check, forms, text
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import MeasureSheet, Reading, SheetKind

K = SheetKind
SIZES = st.decimals("0.001", "500", allow_nan=False, allow_infinity=False, places=3)
COUNTS = st.integers(1, 4).map(Decimal)
STEPS = st.none() | st.sampled_from([Decimal("0.001"), Decimal("0.05")])


@pytest.mark.parametrize("kind", K)
def test_every_kind_has_a_form_with_places_numbered_and_named_once(kind):
    asked = forms.form(sheet(kind))
    assert asked.kind is kind
    assert asked.how
    assert [place.number for place in asked.places] == list(range(1, len(asked.places) + 1))
    for keys in (asked.places, asked.figures, asked.given):
        assert len({one.key for one in keys}) == len(keys)
        assert all(one.name for one in keys)
    assert any(place.needed for place in asked.places)


@pytest.mark.parametrize("kind", K)
def test_an_empty_sheet_misses_all_that_is_needed_and_is_not_measured(kind):
    empty = sheet(kind)
    found = results(empty)
    needed = [place.name for place in forms.form(empty).places if place.needed]
    assert set(needed) <= set(found.missing)
    assert not found.is_measured
    assert found.verdict is Verdict.UNKNOWN
    assert check.questions(empty) == ()


@st.composite
def sheets(draw):
    """A sheet of any kind that is taken as it is, with any of what it asks for."""
    kind, unit = draw(st.sampled_from(list(K))), draw(st.sampled_from(["mm", "in"]))
    told = {
        slot.key: str(draw(COUNTS if slot.is_number else SIZES))
        for slot in forms.form(sheet(kind)).given
        if draw(st.booleans())
    }
    empty = sheet(kind, unit=unit, given=told)
    asked = forms.form(empty)
    read = tuple(
        Reading(one.key, draw(SIZES), one.unit or unit, resolution=draw(STEPS))
        for one in asked.places
        if draw(st.integers(0, 9))
    )
    held = tuple(
        limits(slot.key, *draw(levels()), "" if slot.is_number else slot.unit or unit)
        for slot in asked.figures
        if draw(st.booleans())
    )
    return replace(empty, readings=read, limits=held)


@st.composite
def levels(draw):
    """Limits as new and of wear, any of them left out."""
    four = sorted(draw(st.lists(SIZES, min_size=4, max_size=4)))
    low, new_low, new_high, high = (one if draw(st.booleans()) else None for one in four)
    return (new_low, new_high), (low, high)


@settings(max_examples=300)
@given(sheets())
def test_whatever_sheet_is_taken_can_be_told(draft):
    kept = check.checked(draft)
    found = results(kept)
    assert text.summary(kept)
    assert all(one.endswith((".", "?")) for one in (*found.advice, *check.questions(kept)))
    assert all(one.said.startswith(one.name) for one in found.figures)
    assert check.checked(kept) == kept


def test_a_reading_without_an_instrument_hides_no_other_step():
    """Five places read to 0.01 mm and one nobody knows how: at its limit the bore is no pass."""
    kept = sheet(K.BORE, ["76.20"] * 6, limits=BORE_LIMITS[:1], step="0.01")
    last = replace(kept.readings[-1], resolution=None)
    size = figure(results(replace(kept, readings=(*kept.readings[:-1], last))), "size")
    assert (size.resolution, size.verdict) == (Decimal("0.01"), Verdict.CLOSE)
    read = sheet(K.BEARING, ("46.05", "46.05", "46.00"), limits=[
        limits("clearance", wear=(None, "0.05"))
    ])  # fmt: skip
    gauge = replace(read.readings[0], resolution=Decimal("0.001"))
    found = figure(results(replace(read, readings=(gauge, *read.readings[1:]))), "clearance")
    assert (found.resolution, found.verdict) == (Decimal("0.001"), Verdict.CLOSE)


def test_half_a_bore_says_what_is_missing_and_no_figure():
    half = sheet(K.BORE, WORN_BORE[:2], limits=BORE_LIMITS)
    found = results(half)
    assert found.figures == ()
    assert found.missing == (
        "middle, across",
        "middle, along",
        "bottom, across",
        "bottom, along",
    )
    assert text.summary(half) == "4 of 6 readings still to take"


def test_a_journal_is_as_small_as_its_smallest_and_its_shape_is_the_worst():
    found = results(sheet(K.JOURNAL, ("39.980", "39.971", "39.984", "39.962"), step="0.001"))
    told = [(one.key, str(one.value), str(one.resolution)) for one in found.figures]
    assert told == [
        ("size", "39.962", "0.001"),
        ("taper", "0.009", "0.002"),
        ("out of round", "0.022", "0.002"),
    ]


def test_a_bearing_may_be_in_inches_and_its_journal_in_millimetres():
    kept = sheet(
        K.BEARING,
        ("46.030", "46.030"),
        limits=[limits("clearance", ("0.0007", "0.0025"), (None, "0.0047"), "in")],
    )
    kept = replace(kept, readings=(*kept.readings, reading("journal, up and down", "1.811", "in")))
    found = figure(results(check.checked(kept)), "clearance")
    assert (found.value, found.verdict) == (Decimal("0.0306"), Verdict.NEW)


def test_a_clearance_is_as_uncertain_as_both_its_readings_together():
    told = limits("clearance", wear=(None, "0.08"))
    read = ("76.05", "76.05", "75.985", "75.985")
    found = figure(results(sheet(K.PISTON, read, limits=[told], step="0.01")), "clearance")
    assert (found.resolution, found.verdict) == (Decimal("0.02"), Verdict.CLOSE)
    unknown = sheet(K.PISTON, read, limits=[told])
    assert figure(results(unknown), "clearance").resolution is None


def test_a_plastic_gauge_is_read_at_as_many_places_as_are_given():
    one = results(sheet(K.PLASTIC_GAUGE, ["0.05"], given={"places": "1"}))
    assert [(each.key, str(each.value)) for each in one.figures] == [("clearance", "0.05")]
    three = results(sheet(K.PLASTIC_GAUGE, ["0.05", "0.04", "0.06"], given={"places": "3"}))
    assert [(each.key, str(each.value)) for each in three.figures] == [
        ("clearance", "0.06"),
        ("clearance, least", "0.04"),
        ("taper", "0.02"),
    ]


def test_a_ring_has_its_own_limits_where_they_are_given():
    told = (limits("gap", ("0.25", "0.40")), limits("gap 3", ("0.30", "0.90")))
    found = results(sheet(K.RING_GAP, ("0.20", "0.45", "0.80"), limits=told))
    assert [one.verdict for one in found.figures] == [Verdict.OUT, Verdict.OUT, Verdict.NEW]
    file_it, new_ring = found.advice
    assert file_it.startswith("Ring 1: file its ends square")
    assert "by 0.05 mm, to 0.25 mm at least" in file_it
    assert new_ring.startswith("Ring 2: try a new ring")


def test_a_ring_without_limits_is_held_against_what_is_usual_for_the_bore():
    given = {"rings": "2", "bore": "4", "factor": ("0.0045", "0.005625")}
    found = results(sheet(K.RING_GAP, ("0.018", "0.022"), unit="in", given=given))
    (said,) = found.advice
    assert "Ring 2" in said
    assert "by 0.0005 in" in said


def test_a_bore_larger_than_its_rings_says_how_much_of_each_gap_is_the_bores():
    given = {"rings": "1", "bore": "76.03", "standard": "76.00"}
    (said,) = results(sheet(K.RING_GAP, ["0.40"], given=given)).advice
    assert "0.094 mm of each gap" in said


def test_backlash_is_told_by_its_ends_and_by_how_it_varies():
    told = (limits("backlash", ("0.08", "0.13")), limits("variation", (None, "0.05")))
    found = results(sheet(K.BACKLASH, ("0.10", "0.12", "0.07"), limits=told))
    assert [(one.name, str(one.value), one.verdict) for one in found.figures] == [
        ("largest backlash", "0.12", Verdict.NEW),
        ("smallest backlash", "0.07", Verdict.OUT),
        ("variation round the wheel", "0.05", Verdict.NEW),
    ]


@pytest.mark.parametrize(
    ("read", "expected"),
    [(("0.06",), "0.06"), (("0.04", "-0.02"), "0.06"), (("-0.02", "0.04"), "0.06")],
)
def test_run_out_is_the_dials_whole_way(read, expected):
    assert str(results(sheet(K.RUN_OUT, read)).figures[0].value) == expected


def test_a_face_says_where_it_is_out_and_what_must_come_off():
    told = limits("flatness", wear=(None, "0.05"))
    found = results(sheet(K.FLATNESS, ("0.05", "0", "0.10", "0.03"), limits=[told]))
    assert found.advice[0] == "Widest under the straight edge: first diagonal."
    assert found.advice[1].startswith("At least 0.10 mm must come off")
    assert results(sheet(K.FLATNESS, ["0"] * 4, limits=[told])).advice == ()


def test_a_spring_has_a_length_and_a_load_in_its_own_unit():
    told = (limits("length", wear=("44.5", None)), limits("load", wear=("115", None), unit="N"))
    kept = sheet(K.SPRING, {"free length": "44.2"}, limits=told)
    kept = replace(kept, readings=(*kept.readings, reading("load", "12", "kgf")))
    found = results(check.checked(kept))
    assert [(one.unit, one.verdict) for one in found.figures] == [
        ("mm", Verdict.OUT),
        ("N", Verdict.GOOD),
    ]
    assert figure(found, "load").value == Decimal("117.6798")


def test_end_float_and_one_size_are_read_as_they_are():
    told = limits("end float", ("0.05", "0.20"))
    assert results(sheet(K.END_FLOAT, ["0.20"], limits=[told])).verdict is Verdict.NEW
    plates = sheet(K.SIZE, ("3.0", "2.9", "2.7"), given={"places": "3"}, limits=[
        limits("size", wear=("2.8", None))
    ])  # fmt: skip
    assert [one.verdict for one in results(plates).figures] == [Verdict.GOOD, Verdict.OUT]


def test_a_reading_of_another_dimension_is_as_none():
    wrong = replace(sheet(K.SIZE), readings=(reading("place 1", "12", "N"),))
    assert results(wrong).missing == ("place 1",)
    assert isinstance(wrong, MeasureSheet)
