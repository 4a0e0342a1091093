"""Figures, verdicts and questions against what is published; each row names its source."""

from decimal import Decimal

import pytest
from measuring_kit import figure, limits, published, sheet

from bagtag.domain.measuring import check, ring_gap
from bagtag.domain.measuring.flatness import allowed
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.measuring.units import converted

PUBLISHED = published()


def rows(name):
    return pytest.mark.parametrize("row", PUBLISHED[name], ids=str)


def test_every_row_names_a_source_that_is_described():
    tables = [one for name, one in PUBLISHED.items() if name not in ("note", "sources")]
    named = {row["source"] for table in tables for row in table}
    assert named == set(PUBLISHED["sources"])
    assert all(one["status"] for one in PUBLISHED["sources"].values())


@rows("inches")
def test_inches_are_exactly_25_4_mm_and_a_print_that_is_not_is_told(row):
    turned = converted(Decimal(row["inches"]), "in", "mm")
    printed = Decimal(row["printed_mm"])
    assert (round(turned, -printed.as_tuple().exponent) == printed) is row["agrees"]
    assert turned == Decimal(row.get("exact_mm", turned))
    assert converted(turned, "mm", "in") == Decimal(row["inches"])


@rows("forces")
def test_forces_are_those_of_nist(row):
    printed = Decimal(row["printed_n"])
    assert round(converted(Decimal(1), row["unit"], "N"), 6) == printed


@rows("bearing")
def test_bearing_clearance_as_new_worn_at_its_limit_and_beyond(row):
    read = (row["bearing"], row["bearing"], row["journal"], row["journal"])
    told = limits("clearance", row["new"], (None, row["wear"]))
    found = figure(results(sheet(SheetKind.BEARING, read, limits=(told,))), "clearance")
    assert found.value == Decimal(row["bearing"]) - Decimal(row["journal"])
    assert found.verdict.value == row["verdict"]


@rows("piston_range")
def test_piston_clearance_runs_from_tight_to_loose(row):
    found = results(sheet(SheetKind.PISTON, (*row["bore"], *row["skirt"])))
    least, most = (figure(found, key).value for key in ("clearance, least", "clearance"))
    assert [least, most] == [Decimal(one) for one in row["expected"]]


@rows("bore_shape")
def test_shape_of_a_bore(row):
    found = results(sheet(SheetKind.BORE, row["readings"]))
    for key in ("size", "taper", "out of round"):
        assert figure(found, key).value == Decimal(row[key.replace(" ", "_")])


@rows("ring_gap")
def test_usual_ring_gap_by_bore(row):
    assert ring_gap.usual_least(Decimal(row["bore"]), Decimal(row["factor"])) == Decimal(
        row["expected"]
    )


@rows("gap_growth")
def test_a_gap_grows_by_pi_times_the_bore(row):
    """The article's 0.08 for 0.03 mm is its inch figure turned about; pi times 0.03 is 0.094."""
    grown = round(ring_gap.growth(Decimal(row["bore"])), row["places"])
    assert grown == Decimal(row["expected"])
    assert (grown == Decimal(row["printed"])) is row["agrees"]


@rows("two_levels")
def test_new_and_worn_are_two_levels(row):
    told = limits("gap", row["new"], (None, row["wear"]), "in")
    kept = sheet(SheetKind.RING_GAP, (row["gap"],), unit="in", limits=(told,), given={"rings": 1})
    assert figure(results(kept), "gap 1").verdict.value == row["verdict"]


@rows("implausible")
def test_a_wear_limit_ten_times_too_large_is_asked_about(row):
    told = limits("gap", row["new"], (None, row["wear"]), "in")
    (said,) = check.questions(check.checked(sheet(SheetKind.RING_GAP, unit="in", limits=(told,))))
    assert f"Was {row['likely']} meant?" in said


@rows("plausible")
def test_a_wear_limit_that_is_printed_rightly_is_not_asked_about(row):
    told = limits("gap", row["new"], (None, row["wear"]))
    assert check.questions(check.checked(sheet(SheetKind.RING_GAP, limits=(told,)))) == ()


@rows("flatness")
def test_a_face_may_be_out_of_flat_by_its_span(row):
    """12 times 0.019 mm is printed as 0.22 mm; 304.8 mm times the same rate is 0.2286."""
    span, rate, expected = (Decimal(row[key]) for key in ("span", "rate", "expected"))
    assert allowed(span, rate) == expected
    if "printed" in row:
        printed = Decimal(row["printed"])
        assert round(expected, 2) != printed
        assert round(converted(expected, "mm", "in"), 3) == Decimal("0.009")
    given = {"span": row["span"], "rate": row["rate"]}
    at, over = (
        results(sheet(SheetKind.FLATNESS, [value] * 4, unit=row["unit"], given=given))
        for value in (row["expected"], f"{row['expected']}1")
    )
    assert (at.verdict.value, over.verdict.value) == ("worn, within limits", "out of limits")
