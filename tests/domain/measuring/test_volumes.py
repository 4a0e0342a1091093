"""Displacement and compression ratio against published figures, and what a rebore makes of them."""

from decimal import Decimal
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from measuring_kit import published
from sheet_kit import sheet

from bagtag.domain.measuring.check import checked
from bagtag.domain.measuring.figures import converted
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.results import results
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.measuring.text import summary
from bagtag.domain.measuring.volumes import Cylinder, displacement, ratio

PUBLISHED = published("volumes")
ENGINE = {"bore": "76", "stroke": "80", "gasket": "1.2", "gasket bore": "78"}


def rows(name):
    return pytest.mark.parametrize("row", PUBLISHED[name], ids=lambda row: row["source"][:20])


def reckoned(row) -> Decimal:
    """In cm³, or in³ where the row is in inches."""
    bore, stroke = (converted(Decimal(row[key]), row["unit"], "mm") for key in ("bore", "stroke"))
    found = displacement(bore, stroke, row["cylinders"])
    return converted(found, "cm³", "in³") if row["unit"] == "in" else found


@rows("displacement")
def test_displacement_is_that_which_is_published(row):
    """The prints cut the last figure, and reckon with pi to five decimals; one that was recomputed
    is off by 0.0003."""
    found = reckoned(row)
    assert found == pytest.approx(Decimal(row["expected"]), abs=Decimal(row["within"]))
    if "exact" in row:
        assert round(found, 4) == Decimal(row["exact"])


@rows("misprint")
def test_a_misprint_is_not_met(row):
    """One print takes 3.14 for pi, another cuts where it should round."""
    found = reckoned(row)
    assert round(found) != Decimal(row["printed"])
    assert round(found, 2) == Decimal(row["true"])
    if "pi" in row:
        assert found * Decimal(row["pi"]) / Decimal(pi) == pytest.approx(Decimal(row["printed"]))


@rows("ratio")
def test_the_compression_ratio_is_that_which_is_published(row):
    found = ratio(Decimal(row["swept"]), Decimal(row["left"]))
    assert found is not None
    assert round(found, 3) == Decimal(row["expected"])


def test_before_and_after_a_rebore_are_both_said():
    found = results(
        sheet(
            SheetKind.COMPRESSION,
            {"chamber": "48 cm³", "deck": "0.20", "crown": "2.5 cm³"},
            {"ratio": ("7", "9")},
            ENGINE | {"rebore": "76.50"},
        )
    )
    by_key = {one.key: one for one in found.figures}
    assert [*by_key] == [
        "displacement now", "ratio now", "displacement after the rebore", "ratio after the rebore",
    ]  # fmt: skip
    before, after = by_key["displacement now"], by_key["displacement after the rebore"]
    assert float(before.value) == pytest.approx(pi / 4 * 7.6**2 * 8, abs=0.005)
    assert float(after.value) == pytest.approx(pi / 4 * 7.65**2 * 8, abs=0.005)
    over = pi / 4 * (7.8**2 * 0.12 + 7.65**2 * 0.02) + 48 + 2.5
    assert float(by_key["ratio after the rebore"].value) == pytest.approx(
        1 + pi / 4 * 7.65**2 * 8 / over, abs=0.0005
    )
    assert by_key["ratio now"].limits is None
    assert by_key["ratio after the rebore"].verdict is Verdict.NEW
    assert found.advice == (
        "Bored from 76 to 76.50 mm: 362.92 to 367.71 cm³, ratio 7.351 to 7.434.",
        "Crown and deck are taken as they are now: read them again with the new piston.",
    )


def test_a_gasket_for_the_old_bore_is_noticed_and_a_piston_that_would_strike():
    narrow = sheet(SheetKind.COMPRESSION, {"chamber": "48 cm³"}, None, ENGINE | {"rebore": "78.5"})
    assert "would stand in the flame" in results(narrow).advice[-1]
    full = sheet(SheetKind.COMPRESSION, {"chamber": "5 cm³", "crown": "-12 cm³"}, None, ENGINE)
    assert "Nothing would be left over the piston" in results(full).advice[0]
    assert [one.key for one in results(full).figures] == ["displacement"]
    assert checked(full) == full


@pytest.mark.parametrize(
    ("read", "given_", "said"),
    [
        ({"chamber": "48 cm³"}, {"rebore": "75"}, "A rebore makes the bore larger, and this one"),
        ({"chamber": "4800 cm³"}, {}, "No engine runs at 1.076 to 1: look at the points"),
        ({"chamber": "0.48 cm³"}, {"gasket": "0"}, "to 1: look at the points and the units"),
    ],
)
def test_what_no_engine_has_is_asked_about(read, given_, said):
    found = results(sheet(SheetKind.COMPRESSION, read, None, ENGINE | given_))
    assert any(said in one for one in found.advice)
    whole = {"chamber": "48 cm³", "deck": "0", "crown": "0 cm³"}
    assert results(sheet(SheetKind.COMPRESSION, whole, None, ENGINE)).advice == ()


def test_what_was_left_out_of_a_ratio_is_said():
    given_ = {"bore": "76", "stroke": "80"}
    (said,) = results(sheet(SheetKind.COMPRESSION, {"chamber": "48 cm³"}, None, given_)).advice
    assert said.startswith("Reckoned without a gasket, a deck height and a dish or dome: ")
    (said,) = results(sheet(SheetKind.COMPRESSION, {"chamber": "48 cm³"}, None, ENGINE)).advice
    assert said.startswith("Reckoned without a deck height and a dish or dome: ")
    assert results(sheet(SheetKind.COMPRESSION, None, None, given_)).advice == ()


def test_what_is_not_given_is_missing_and_displacement_needs_no_chamber():
    assert results(sheet(SheetKind.COMPRESSION)).missing == ("bore", "stroke", "combustion chamber")
    assert summary(sheet(SheetKind.COMPRESSION)) == "bore and stroke still to be given"
    found = results(sheet(SheetKind.COMPRESSION, None, None, ENGINE))
    assert ([one.key for one in found.figures], found.is_measured) == (["displacement"], False)


def test_how_far_off_the_ratio_may_be_is_what_the_burette_makes_of_it():
    read = {"chamber": "48 cm³"}
    found = results(sheet(SheetKind.COMPRESSION, read, {"ratio": ("7", "7.8")}, ENGINE, step="0.5"))
    one = found.figures[-1]
    cylinder = Cylinder(*map(Decimal, ("76", "80", "48", "1.2", "78")))
    smaller = Cylinder(*map(Decimal, ("76", "80", "47.5", "1.2", "78")))
    assert cylinder.ratio is not None
    assert smaller.ratio is not None
    assert one.resolution == pytest.approx(smaller.ratio - cylinder.ratio, abs=Decimal("0.0005"))
    assert one.verdict is Verdict.CLOSE
    assert results(sheet(SheetKind.COMPRESSION, read, None, ENGINE)).figures[-1].resolution is None


def test_rounding_passes_nothing_that_is_over():
    """pi/4 x 54² x 54.58 mm is 125.00026 cm³: over 125, where 125.00 would stand at its limit."""

    def told(most):
        held = {"displacement": (None, most)}
        given_ = {"bore": "54", "stroke": "54.58"}
        (found,) = results(sheet(SheetKind.COMPRESSION, None, held, given_)).figures
        return found.said

    assert told("125") == "displacement 125.00026 cm³, at most 125: out of limits by 0.00026 cm³"
    assert told("125.01") == "displacement 125.00 cm³, at most 125.01: as new, 0.01 to spare"


def test_an_engine_in_inches_is_told_in_cubic_inches():
    """14 cylinders of 5.5 by 5.5 in, 1829.4 cubic inches (FAA-H-8083-32, from memory)."""
    given_ = {"bore": "5.5", "stroke": "5.5", "cylinders": "14"}
    one = results(sheet(SheetKind.COMPRESSION, None, None, given_, unit="in")).figures[0]
    assert (one.value, one.unit) == (Decimal("1829.39"), "in³")


LENGTH = st.decimals(20, 200, places=2)


@given(LENGTH, LENGTH, st.decimals(5, 400, places=1), st.decimals("0.01", 5, places=2))
def test_a_larger_bore_sweeps_more_and_squeezes_more(bore, stroke, chamber, more):
    """With the same chamber and no deck, the ratio can only rise."""
    before = Cylinder(bore, stroke, chamber)
    after = before.rebored(bore + more)
    assert after.swept > before.swept
    assert after.left == before.left
    assert before.ratio is not None
    assert after.ratio is not None
    assert after.ratio > before.ratio > 1
