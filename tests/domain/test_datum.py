"""The datum: one name for a side from the first bolt to the last."""

import pytest
from fact_cases import DATUMS, SIDES, TRACTOR
from hypothesis import given

from bagtag.domain.datum import Datum, Side


def test_a_side_is_called_by_the_machines_own_name_or_its_plain_one():
    assert TRACTOR.call(Side.RIGHT) == "clutch side"
    assert TRACTOR.call(Side.TOP) == "top"


@pytest.mark.parametrize(
    "words", ["clutch side", "the clutch side", "Clutch", "CLUTCH SIDE ", "right", "the right"]
)
def test_a_side_is_found_by_either_name(words):
    assert TRACTOR.find(words) is Side.RIGHT


def test_a_side_nobody_named_is_not_found():
    assert TRACTOR.find("gear side") is None
    assert Datum().find("") is None


@given(SIDES)
def test_opposites_are_mutual(side):
    assert side.opposite is not side
    assert side.opposite.opposite is side


@given(DATUMS, SIDES)
def test_mirroring_twice_changes_nothing(datum, side):
    assert datum.mirrored().mirrored().call(side) == datum.call(side)


@pytest.mark.parametrize(
    "viewpoint",
    [
        "standing behind the handlebars, looking forward",
        "from the driver's seat, facing forwards",
        "Seen from the rear",
        "looking toward the front",
        "standing behind the gearbox",
    ],
)
def test_looking_the_machines_own_way_its_front_is_far(viewpoint):
    assert Datum(viewpoint).looks_forward


@pytest.mark.parametrize(
    "viewpoint",
    [
        "",
        "on the bench, clutch to the right",
        "looking at the front of the engine",
        "standing behind the bench, looking at the front",
        "standing in front, looking back",
        "from the front",
    ],
)
def test_facing_the_machine_its_front_is_near(viewpoint):
    assert not Datum(viewpoint).looks_forward


def test_mirroring_exchanges_left_and_right_alone():
    other = TRACTOR.mirrored()
    assert other.call(Side.LEFT) == "clutch side"
    assert other.call(Side.RIGHT) == "flywheel side"
    assert other.call(Side.FRONT) == TRACTOR.call(Side.FRONT)


@given(SIDES)
def test_each_side_is_found_by_what_it_is_called(side):
    assert TRACTOR.find(TRACTOR.call(side)) is side
