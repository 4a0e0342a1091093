"""Which wrench goes through the rounds of a joint. What a setting is: test_wrench_use.py."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.hardware import Adapter, HeldBy, Length, Torque, TorqueUnit
from bagtag.domain.joint_words import settings_said
from bagtag.domain.round_wrenches import uses_of
from bagtag.domain.schedule import rounds
from bagtag.domain.wrench import Wrench

BOLTS = HeldBy(10, "bolt", "M8", 60, torque=Torque(30))
TODAY = date(2026, 11, 25)
SMALL = Wrench("small wrench", 2, 25, step=0.2, length=Length(230))
LONG = Wrench("long wrench", 40, 200, step=1, length=Length(520))
MIDDLE = Wrench("middle wrench", 10, 80, TorqueUnit.POUND_FOOT, 1, Length(380))


def uses(line: HeldBy, *wrenches: Wrench):
    return uses_of((line,), rounds((line,)), wrenches, TODAY)


def test_one_wrench_goes_through_all_the_rounds_of_a_line():
    found = uses(replace(BOLTS, torque=Torque(60)), SMALL, LONG, MIDDLE)
    assert {use.wrench.name for (use,) in found} == {"middle wrench"}
    assert [use.set_to.unit for (use,) in found] == [TorqueUnit.POUND_FOOT] * 3


def test_a_share_is_rounded_once_to_the_marks_of_another_unit():
    """Two thirds of 40 N·m are 26.667 N·m or 19.67 lbf·ft, nearest to 19.5; the 27 N·m that it is
    read as would be 19.91, nearest to 20. What lies on a mark is set as it is read."""
    halves = replace(MIDDLE, step=0.5)
    two_thirds = uses(replace(BOLTS, torque=Torque(40)), halves)[1][0]
    assert two_thirds.set_to == Torque(19.5, TorqueUnit.POUND_FOOT)
    assert two_thirds.wanted.value == pytest.approx(80 / 3)
    on_a_mark = uses(replace(BOLTS, torque=Torque(40)), Wrench("fine", 5, 60, step=0.5))[1][0]
    assert on_a_mark.set_to == on_a_mark.wanted == Torque(27)


def test_an_adapter_that_one_wrench_cannot_take_leaves_the_others():
    long = replace(BOLTS, torque=Torque(120), adapter=Adapter(Length(400)))
    found = uses(long, MIDDLE, LONG)
    assert {use.wrench.name for (use,) in found} == {"long wrench"}


def test_a_wrench_without_a_day_of_calibration_is_told():
    old = replace(LONG, calibrated_on=TODAY - timedelta(days=700))
    ((use,), *_) = uses(replace(BOLTS, count=1, torque=Torque(100)), old)
    assert any("calibrated" in warning for warning in use.warnings)


def test_without_a_wrench_that_reaches_there_is_no_setting():
    assert uses(replace(BOLTS, torque=Torque(900)), SMALL, LONG) == ((), (), ())
    assert uses(BOLTS) == ((), (), ())


@given(
    torque=st.floats(1, 400),
    drag=st.none() | st.floats(0.1, 20),
    length=st.none() | st.floats(1, 600),
    angle=st.floats(0, 180),
)
def test_no_line_of_hardware_breaks_the_settings(torque, drag, length, angle):
    """What a line says may be odd: a card must open all the same."""
    line = replace(
        BOLTS,
        torque=Torque(torque),
        drag=Torque(drag) if drag else None,
        adapter=Adapter(Length(length), angle) if length else None,
    )
    found = uses(line, SMALL, MIDDLE, LONG)
    assert len(found) == 3
    tops = [use.wanted.value for use in found[-1]]
    assert tops in ([], [pytest.approx(torque + (drag or 0))])


def test_lines_of_one_size_keep_their_own_drag():
    """Named by what they are, not by their size, where another has that size too."""
    bolts = HeldBy(4, "bolt", "M8", 30, torque=Torque(20))
    nuts = HeldBy(4, "nut", "M8", 30, torque=Torque(20), drag=Torque(5))
    (full,) = uses_of((bolts, nuts), rounds((bolts, nuts))[-1:], [replace(LONG, low=5)], TODAY)
    assert [use.set_to for use in full] == [Torque(20), Torque(25)]


def test_a_setting_is_said_with_its_line_where_no_wrench_reaches_the_other():
    """Else the other line might be tightened with it."""
    lines = (replace(BOLTS, torque=Torque(900)), replace(BOLTS, thread="M6", torque=Torque(10)))
    (full,) = rounds(lines)[-1:]
    (found,) = uses_of(lines, (full,), [SMALL], TODAY)
    assert settings_said(full, found) == ("M6x60: set the small wrench to 10 N·m.",)
