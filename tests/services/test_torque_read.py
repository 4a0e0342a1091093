"""Torques and lengths as a person types them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.torque import Length, Torque, TorqueUnit
from bagtag.services.torque import read_length, read_torque, threads


@pytest.mark.parametrize(
    ("text", "torque"),
    [
        ("40 N·m", Torque(40)),
        ("40Nm", Torque(40)),
        (" 40  n.m ", Torque(40)),
        ("30 lbf·ft", Torque(30, TorqueUnit.POUND_FOOT)),
        ("30 ft lbs.", Torque(30, TorqueUnit.POUND_FOOT)),
        ("75 in-lb", Torque(75, TorqueUnit.POUND_INCH)),
        ("2,5 kgf m", Torque(2.5, TorqueUnit.KILOGRAM_METRE)),
        ("250 kgf·cm", Torque(250, TorqueUnit.KILOGRAM_CENTIMETRE)),
        (".5 ozf·in", Torque(0.5, TorqueUnit.OUNCE_INCH)),
    ],
)
def test_a_torque_as_typed(text, torque):
    assert read_torque(text) == torque


@given(st.floats(0.001, 1e4).map(lambda value: float(f"{value:.6g}")), st.sampled_from(TorqueUnit))
def test_a_torque_as_it_is_shown_is_read_again(value, unit):
    shown = f"{value:f} {unit.value}"
    assert read_torque(shown) == Torque(float(f"{value:f}"), unit)
    assert read_torque(f"{value:f}", unit).unit is unit


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("40", "Say the unit of 40"),
        ("", "a figure with its unit"),
        ("tight", "a figure with its unit"),
        ("40 furlongs", "furlongs is no unit"),
        ("40 N·m + 90°", "is no unit"),
        ("0 N·m", "above zero"),
        ("-5 N·m", "above zero; this is -5"),
        ("1e3 N·m", "is no unit"),
        ("8-10 N·m", "one figure with its unit"),
        ("8 to 10 N·m", "one figure with its unit"),
        ("1,234.5 N·m", "write 1234 or 1.234"),
        ("1,200 ozf·in", "write 1200 or 1.200"),
        ("2000000 N·m", "cannot be 2000000 N·m"),
    ],
)
def test_what_is_no_torque_is_said_in_a_sentence(text, word):
    with pytest.raises(BadInput) as refused:
        read_torque(text, field="drag")
    assert word in refused.value.sentence
    assert refused.value.field == "drag"


@pytest.mark.parametrize(
    ("text", "length"),
    [
        ("300", Length(300)),
        ("300 mm", Length(300)),
        ("30 cm", Length(300)),
        ("12 in", Length(12, "in")),
        ('12.5"', Length(12.5, "in")),
        ("4 inches", Length(4, "in")),
        ("1 ft", Length(12, "in")),
        ("4 1/2 in", Length(4.5, "in")),
    ],
)
def test_a_length_as_typed(text, length):
    assert read_length(text) == length


@pytest.mark.parametrize("text", ["", "long", "12 yards", "0 mm", "-3 in"])
def test_what_is_no_length_is_said(text):
    with pytest.raises(BadInput, match="A wrench"):
        read_length(text, what="A wrench's length")


def test_the_known_threads_are_read_once_and_come_with_the_program():
    assert threads() is threads()
    assert threads().find("M8").across_flats == "13 mm"
