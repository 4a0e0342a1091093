"""Torque in all its units: NIST's factors, pint, and rounding once."""

from math import log10

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from torque_kit import LBFT, LBIN, N, published

from bagtag.domain.hardware import Torque, TorqueUnit
from bagtag.domain.torque_words import UNITS, readable, shown, together

PUBLISHED = published("torque")["units"]
PINT = {
    TorqueUnit.NEWTON_METRE: "newton * meter",
    TorqueUnit.POUND_FOOT: "force_pound * foot",
    TorqueUnit.POUND_INCH: "force_pound * inch",
    TorqueUnit.KILOGRAM_METRE: "force_kilogram * meter",
    TorqueUnit.KILOGRAM_CENTIMETRE: "force_kilogram * centimeter",
    TorqueUnit.OUNCE_INCH: "force_ounce * inch",
    TorqueUnit.NEWTON_CENTIMETRE: "newton * centimeter",
    TorqueUnit.DECANEWTON_METRE: "decanewton * meter",
}
figures = st.floats(1e-3, 1e5)
units = st.sampled_from(TorqueUnit)


@pytest.mark.parametrize("row", PUBLISHED, ids=lambda row: row["unit"])
def test_factors_are_those_of_nist_sp_811(row):
    """NIST SP 811, App. B.8, to the figures it prints; the exact value from inch, pound and g."""
    one = Torque(1, TorqueUnit(row["unit"])).newton_metres()
    assert one == pytest.approx(row["exact"], rel=1e-15)
    assert abs(one / row["expected"] - 1) < 1e-6


@pytest.fixture(scope="module")
def ureg():
    return pint.UnitRegistry()


@pytest.mark.parametrize("unit", TorqueUnit)
@pytest.mark.parametrize("other", TorqueUnit)
def test_every_conversion_is_that_of_pint(ureg, unit, other):
    for value in (1, 0.7, 40, 1234.5):
        expected = ureg.Quantity(value, PINT[unit]).to(PINT[other]).magnitude
        assert Torque(value, unit).to(other).value == pytest.approx(expected, rel=1e-14)


@given(figures, units, units)
def test_there_and_back_is_the_same(value, unit, other):
    assert Torque(value, unit).to(other).to(unit).value == pytest.approx(value, rel=1e-14)
    assert Torque(value, unit).to(unit).value == value


@given(figures, units)
def test_shown_together_the_given_one_stays_and_each_other_is_rounded_once(value, unit):
    given_, *others = together(Torque(value, unit))
    assert given_ == Torque(value, unit)
    assert [one.unit for one in others] == [other for other in UNITS if other is not unit]
    for one in others:
        exact = Torque(value, unit).to(one.unit).value
        assert one.value == readable(exact)
        assert abs(one.value / exact - 1) <= 0.0051


@given(st.floats(1e-6, 1e7))
def test_a_figure_keeps_three_places_and_all_of_a_whole_one(value):
    digits = 2 - int(log10(value) // 1) if value < 100 else 0
    assert abs(readable(value) - value) <= 0.5001 * 10.0**-digits
    assert readable(readable(value)) == readable(value)


def test_as_it_reads():
    assert shown(Torque(40)) == "40 N·m = 29.5 lbf·ft = 354 lbf·in = 4.08 kgf·m"
    assert shown(Torque(1.5)) == "1.5 N·m = 13.3 lbf·in = 15.3 kgf·cm = 212 ozf·in"
    assert shown(Torque(61.52, LBFT), (N,)) == "61.52 lbf·ft = 83.4 N·m"
    assert shown(Torque(1500, LBFT), (LBIN,)) == "1500 lbf·ft = 18000 lbf·in"
    assert shown(Torque(123456, LBFT), (LBIN,)) == "123456 lbf·ft = 1481472 lbf·in"
    assert readable(0) == 0


def test_one_that_is_rounded_twice_would_be_another():
    """30.4999 lbf·ft are 41.35 N·m; by way of 30.5 they would be 41.4."""
    exact = Torque(30.46, LBFT)
    assert together(exact, (N,))[1].value == 41.3
    assert readable(Torque(readable(exact.value), LBFT).to(N).value) == 41.4
