"""Tightening passes against the published shares, and what a wrench can be set to."""

import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.hardware import HeldBy, Stretch, Torque, TorqueUnit
from bagtag.domain.passes import SHARES, by_angle, passes

PUBLISHED = json.loads(
    (Path(__file__).parents[1] / "check_values" / "tightening_passes.json").read_text("utf-8")
)
MARINE = [Fraction(share) for share in PUBLISHED["shares"]["expected"]]


def bolts(value, count=4, **more):
    return HeldBy(count, "bolt", "M8", 30, torque=Torque(value, **more))


def test_the_shares_are_those_of_the_marine_diesel_manual():
    """Marine diesel service manual, "Engine reassembly": 1/2, 2/3 and 1/1 torque."""
    assert [*SHARES, 1.0] == pytest.approx([float(share) for share in MARINE])


@pytest.mark.parametrize("row", PUBLISHED["worked"]["values"], ids=lambda row: f"{row['full']}")
def test_where_the_shares_fall_on_marks_they_are_met_exactly(row):
    unit = TorqueUnit(row["unit"])
    assert [float(MARINE[i] * Fraction(str(row["full"]))) for i in range(3)] == row["expected"]
    assert passes(bolts(row["full"], unit=unit)) == tuple(
        Torque(value, unit) for value in row["expected"]
    )


@pytest.mark.parametrize(
    ("full", "early"), [(10, (5, 6.5)), (25, (12, 17)), (100, (50, 65)), (78.5, (39, 52))]
)
def test_else_they_are_rounded_to_what_can_be_set(full, early):
    """Our own choice of marks: no published value."""
    assert tuple(torque.value for torque in passes(bolts(full))[:2]) == early


@pytest.mark.parametrize("words", PUBLISHED["no_passes"]["values"])
def test_bolts_that_are_tightened_by_angle_have_no_passes(words):
    line = bolts(20)
    noted = HeldBy(4, "bolt", "M8", 30, torque=Torque(20), note=words)
    named = HeldBy(4, words, "M8", 30, torque=Torque(20))
    assert passes(noted) == passes(named) == passes(line, said=words) == (Torque(20),)
    assert by_angle(noted)
    assert not by_angle(line)


def test_an_angle_or_a_stretch_of_the_line_says_it_and_new_ones_alone_do_not():
    for line in (bolts(20), bolts(20, None)):
        for figures in ({"angle": 90.0}, {"stretch": Stretch(0.13, 0.15)}):
            assert passes(replace(line, **figures)) == (Torque(20),)
        assert len(passes(replace(line, one_time=True))) == 3


@pytest.mark.parametrize(
    "words", ["the triangle side", "field coil", "right-hand thread", "turned"]
)
def test_other_words_are_not_taken_for_it(words):
    assert len(passes(bolts(20), said=words)) == 3


def test_one_fastener_has_one_pass_and_no_torque_none():
    assert passes(bolts(20, 1)) == (Torque(20),)
    assert passes(HeldBy(4, "bolt", "M8")) == ()


def test_fasteners_that_nobody_counted_are_taken_for_several():
    assert len(passes(bolts(20, None))) == 3


@given(st.floats(0.01, 5000).map(lambda value: float(f"{value:.4g}")), st.sampled_from(TorqueUnit))
def test_passes_rise_and_stay_nearer_than_a_wrench_may_be_off(full, unit):
    """TM 1-1500-204-23-9: a wrench is right to within 4 per cent."""
    error = PUBLISHED["wrench_error"]["expected"]
    first, second, last = passes(bolts(full, unit=unit))
    assert first.value < second.value < last.value == full
    assert {first.unit, second.unit, last.unit} == {unit}
    for torque, share in zip((first, second), MARINE, strict=False):
        assert abs(torque.value - float(share) * full) < error * full
    assert len(f"{first.value:g}".replace(".", "").strip("0")) <= 3
