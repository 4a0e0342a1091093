"""Figures as they are typed and shown, and units."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring import units
from bagtag.domain.measuring.figures import converted, decimal, reading, show

FIGURES = st.decimals("-99999", "99999", allow_nan=False, allow_infinity=False, places=5)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("76.25", "76.25"),
        ("76,25", "76.25"),
        (" 76.250 ", "76.250"),
        ("\u00a076.25\u00a0", "76.25"),
        (",5", "0.5"),
        ("12.", "12"),
        ("-0.03", "-0.03"),
        ("− 0,03", "-0.03"),
        ("+0.03", "0.03"),
        ("-0.00", "0.00"),
        ("+076.25", "76.25"),
    ],
)
def test_a_figure_is_read_as_typed_and_keeps_its_digits(typed, expected):
    assert str(decimal(typed)) == expected


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "Give a figure"),
        ("1,234.5", "without thousands"),
        ("1 234", "without thousands"),
        ("76.25.1", "without thousands"),
        ("NaN", "no figure"),
        ("inf", "no figure"),
        ("1e3", "no figure"),
        ("٧٦", "no figure"),
        (".", "no figure"),
        ("about 76", "no figure"),
        ("9" * 60, "no figure"),
        ("12345678", "too large"),
    ],
)
def test_what_is_no_figure_gets_one_sentence(typed, says):
    with pytest.raises(BadInput, match=says) as raised:
        decimal(typed, field="value")
    assert raised.value.field == "value"
    assert len(raised.value.sentence) < 120


@pytest.mark.parametrize(
    ("typed", "unit", "expected"),
    [
        ("76,25", "mm", ("76.25", "mm")),
        ("76.25mm", "in", ("76.25", "mm")),
        ("76.25 MM", "mm", ("76.25", "mm")),
        ("3.002 in", "mm", ("3.002", "in")),
        ('3.002"', "mm", ("3.002", "in")),
        ("3.002 inches", "mm", ("3.002", "in")),
        ("−0.2 in", "mm", ("-0.2", "in")),
        ("12 kg", "N", ("12", "kgf")),
        ("42.5 cc", "cm³", ("42.5", "cm³")),
        ("42.5 ml", "in³", ("42.5", "cm³")),
        ("4", "", ("4", "")),
    ],
)
def test_a_reading_may_say_its_unit(typed, unit, expected):
    value, found = reading(typed, unit)
    assert (str(value), found) == expected


@pytest.mark.parametrize(
    ("typed", "unit", "says"),
    [
        ("76.25 kg", "mm", "Give it in mm or in"),
        ("76.25 cubits", "mm", "Give it in mm or in"),
        ("4 mm", "", "Leave it out"),
        ("mm", "mm", "no figure"),
        ("1 234 mm", "mm", "without thousands"),
    ],
)
def test_a_unit_that_does_not_fit_gets_one_sentence(typed, unit, says):
    with pytest.raises(BadInput, match=says):
        reading(typed, unit)


@given(FIGURES)
def test_what_is_shown_reads_back_as_the_same_figure(value):
    assert decimal(show(value)) == value


@given(FIGURES, st.sampled_from([("mm", "in"), ("N", "lbf"), ("N", "kgf"), ("cm³", "in³")]))
def test_there_and_back_is_the_same_to_twenty_figures(value, pair):
    one, other = pair
    there = converted(value, one, other)
    assert abs(converted(there, other, one) - value) <= abs(value) * Decimal("1e-20")


@given(FIGURES)
def test_inches_into_millimetres_and_back_are_exact(value):
    assert converted(converted(value, "in", "mm"), "mm", "in") == value


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        ("1E+3", "1000"),
        ("1E-3", "0.001"),
        ("0.00", "0.00"),
        ("2.997637795275590551181102362", "2.99764"),
        ("0.1200000000000", "0.12"),
    ],
)
def test_a_figure_is_shown_without_an_exponent(value, expected):
    assert show(Decimal(value)) == expected


def test_units_of_two_dimensions_do_not_turn_into_one_another():
    with pytest.raises(BadInput):
        converted(Decimal(1), "mm", "N")
    with pytest.raises(BadInput):
        converted(Decimal(1), "furlong", "furlongs")
    assert units.dimension("furlong") == ""
