"""A joint, and whether its hardware is tightened as it was."""

from dataclasses import replace

import pytest

from bagtag.domain.hardware import Adapter, HeldBy, Length, Stretch, Torque
from bagtag.domain.joint import tightened_alike

BOLTS = HeldBy(6, "bolt", "M8", 35, torque=Torque(25), note="by the dowel")


@pytest.mark.parametrize(
    "change",
    [
        {"torque": Torque(28)},
        {"angle": 90.0},
        {"drag": Torque(2)},
        {"adapter": Adapter(Length(50))},
        {"stretch": Stretch(0.1, 0.2)},
        {"lubrication": "oil"},
        {"length": 50},
    ],
)
def test_what_changes_how_a_bolt_is_tightened(change):
    assert not tightened_alike([BOLTS], [replace(BOLTS, **change)])


def test_words_about_a_bolt_and_its_letter_change_nothing():
    assert tightened_alike([BOLTS], [replace(BOLTS, note="", mark="A", count=None, washer="plain")])


def test_a_line_more_is_another_joint():
    assert not tightened_alike([BOLTS], [BOLTS, BOLTS])
