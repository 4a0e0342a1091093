"""Figures at sign-off against their limits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.asked import (
    checked_asks,
    figure,
    limits,
    miscounted,
    outside,
    places,
    shown,
    torque_asked,
)
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Asked, Counted
from bagtag.domain.hardware import HeldBy, Torque, TorqueUnit

numbers = st.floats(-1e6, 1e6)


@given(st.none() | numbers, st.none() | numbers, numbers)
def test_a_figure_is_outside_exactly_when_it_is(low, high, value):
    said = outside(figure(Asked("end float", "mm", low, high), value))
    below = low is not None and value < low
    above = high is not None and value > high
    assert bool(said) == (below or above)
    assert ("below" in said) == below
    if above and not below:
        assert "above" in said


def test_limits_belong_to_what_is_allowed():
    """Main bearing clearance, standard 0.004 to 0.022 mm, limit 0.050 mm: a car's workshop manual,
    "Bearing - Clearance", method A, read as a stored excerpt."""
    asked = Asked("clearance", "mm", 0.004, 0.022)
    assert [outside(figure(asked, value)) for value in (0.004, 0.022)] == ["", ""]
    assert outside(figure(asked, 0.05)) == "clearance 0.05 mm is above 0.022"
    assert outside(figure(asked, 0.003)) == "clearance 0.003 mm is below 0.004"


@given(st.decimals(-1000, 1000, places=3), st.integers(0, 3))
def test_a_figure_is_shown_with_the_decimals_it_was_written_with(value, fewer):
    typed = str(round(value, fewer))
    assert shown(float(typed), places(typed)) == typed
    assert shown(float(typed), places(typed.replace(".", ","))) == typed


def test_limits_are_shown_alike():
    two = Asked("bore", "mm", 76.5, 76.52, places=places("76.5", "76,52"))
    assert limits(two) == "76.50 to 76.52 mm"
    assert limits(Asked("bore", "mm", 76.5, 76.5, places=2)) == "76.50 mm"
    assert outside(figure(two, 76.55)) == "bore 76.55 mm is above 76.52"
    assert outside(figure(two, 76.4)) == "bore 76.40 mm is below 76.50"
    assert two == Asked("bore", "mm", 76.5, 76.52)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf"), 1e8])
def test_no_figure_is_that(value):
    with pytest.raises(BadInput, match="end float cannot be"):
        figure(Asked("end float"), value)


@pytest.mark.parametrize(
    ("torque", "low", "high"),
    [(Torque(50), 48.0, 52.0), (Torque(10), 9.4, 10.6), (Torque(8), 7.52, 8.48)],
)
def test_a_torque_may_be_off_as_far_as_a_wrench_may(torque, low, high):
    """ISO 6789-1:2017, from memory: 6 % up to 10 N·m, 4 % above."""
    (asked,) = torque_asked([HeldBy(4, "bolt", "M8", 40, torque=torque), HeldBy(1, "clip")])
    assert (asked.name, asked.unit) == ("torque, M8x40 bolt", "N·m")
    assert (asked.low, asked.high) == (pytest.approx(low), pytest.approx(high))


def test_the_share_goes_by_newton_metres_whatever_the_unit():
    """7 lbf·ft are 9.49 N·m, 8 are 10.85 (one foot 0.3048 m, one pound-force 4.4482216 N)."""
    for value, share in ((7, 0.06), (8, 0.04)):
        (asked,) = torque_asked([HeldBy(torque=Torque(value, TorqueUnit.POUND_FOOT))])
        assert asked.high == pytest.approx(value * (1 + share))


def test_the_torque_on_the_wrench_has_the_drag_in_it_and_says_so():
    """AC 43.13-1B, para 7-40: the drag of a self-locking nut is added to the wanted torque."""
    held = HeldBy(4, "nut", "M8", torque=Torque(100), drag=Torque(12))
    (asked,) = torque_asked([held])
    assert asked.name == "torque with drag, M8 nut"
    assert (asked.low, asked.high) == (pytest.approx(112 * 0.96), pytest.approx(112 * 1.04))
    (inches,) = torque_asked([HeldBy(torque=Torque(5), drag=Torque(18, TorqueUnit.POUND_INCH))])
    assert inches.unit == "N·m"
    assert inches.high == pytest.approx((5 + 18 * 0.1129848) * 1.06, rel=1e-6)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (Asked("a", "mm", 0.05, 0.2), "0.05 to 0.2 mm"),
        (Asked("a", "mm", None, 0.2), "at most 0.2 mm"),
        (Asked("a", "", 12), "at least 12"),
        (Asked("a", "mm"), ""),
    ],
)
def test_limits_in_words(asked, said):
    assert limits(asked) == said


def test_the_first_size_that_does_not_count_up_is_named():
    held = [HeldBy(6, "bolt", "M6", 25), HeldBy(2, "bolt", "M8", 40)]
    assert miscounted([Counted(0, 6, 6), Counted(1, 2, 3)], held) == "3 of 2 M8x40 bolt went back"
    assert miscounted([Counted(0, 6, 6)], held) == ""
    assert miscounted([Counted(9, 1, 0)], held) == ""


def test_what_is_asked_for_is_tidied():
    assert checked_asks([Asked("  end   float ", " mm ")]) == (Asked("end float", "mm"),)
    with pytest.raises(BadInput, match="wrong way round"):
        checked_asks([Asked("gap", "mm", 2, 1)])


@pytest.mark.parametrize("unit", ["0", "0,05", "76.50 "])
def test_a_figure_in_the_place_of_its_unit_is_noticed(unit):
    with pytest.raises(BadInput, match=f"unit of bore is given as {unit.strip()}"):
        checked_asks([Asked("bore", unit, 76.50)])


@pytest.mark.parametrize("unit", ["", "mm", "°", "1/min", "N·m", "m3"])
def test_what_may_be_a_unit_is_kept(unit):
    assert checked_asks([Asked("bore", unit)]) == (Asked("bore", unit),)


@pytest.mark.parametrize("one", [Asked("b" * 61), Asked("bore", "m" * 21)])
def test_what_is_too_long_is_said_and_never_cut(one):
    with pytest.raises(BadInput, match="Shorten it") as wrong:
        checked_asks([one])
    assert wrong.value.field == "asks"
