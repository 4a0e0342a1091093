"""What is asked about passes that do not end at what the hardware says."""

from dataclasses import replace

import pytest
from hole_kit import bolts, ring_of
from test_schedule import RECIPES, joint_of

from bagtag.domain.hardware import HeldBy, Torque, TorqueUnit
from bagtag.domain.schedule import PRESETS
from bagtag.domain.schedule_questions import questions
from bagtag.domain.tightening import Pass, PassKind, from_data

LOOSEN = Pass(PassKind.LOOSEN, is_reversed=True)


def to(value, **more):
    return Pass(torque=Torque(value), **more)


def by(angle, **more):
    return Pass(PassKind.ANGLE, angle=angle, **more)


@pytest.mark.parametrize("preset", PRESETS, ids=lambda preset: preset.name)
def test_the_usual_ways_leave_nothing_to_ask(preset):
    assert questions([bolts(12, value=48), bolts(2, "M6", 10)], preset.passes, ring_of(12)) == ()


def test_without_passes_of_its_own_nothing_is_asked():
    assert questions([bolts(4, value=48)], ()) == ()


@pytest.mark.parametrize("recipe", RECIPES, ids=lambda recipe: recipe["name"])
def test_a_manuals_recipe_asks_nothing_where_the_hardware_says_what_it_ends_at(recipe):
    """The hardware of each recipe has the torque it ends at and the sum of its angles."""
    held_by, found = joint_of(recipe)
    steps = from_data(recipe["passes"])
    groups = list(recipe.get("groups", {"": ()}))
    full = []
    for line, group in zip(held_by, groups, strict=True):
        last = [s.torque for s in steps if s.kind is PassKind.TORQUE and s.group == group][-1]
        turns = any(s.kind is PassKind.ANGLE and s.group == group for s in steps)
        full.append(replace(line, torque=last, angle=recipe["turned"] if turns else None))
    assert questions(full, steps, found) == ()


ASKED = [
    (
        (Pass(share=0.3), Pass(share=0.6)),
        "4 bolts M8x35: the torque is 40 N·m, and the passes stop short of it, at 24 N·m.",
    ),
    (
        (to(20), to(60)),
        "4 bolts M8x35: the torque is 40 N·m, and the passes go beyond it, at 60 N·m.",
    ),
    ((to(40), LOOSEN), "4 bolts M8x35: no pass tightens them to their 40 N·m."),
    (
        (to(40), LOOSEN, to(20)),
        "4 bolts M8x35: the torque is 40 N·m, and the passes stop short of it, at 20 N·m.",
    ),
]


@pytest.mark.parametrize(("steps", "words"), ASKED, ids=[words for _, words in ASKED])
def test_passes_that_end_elsewhere_are_asked_about(steps, words):
    assert questions([bolts(4, value=40)], steps) == (words,)


def test_what_is_loosened_again_may_have_been_tighter():
    """98.1 N·m, loosened, 39.2 N·m and on by angle: a car's cylinder head."""
    assert (
        questions([bolts(4, value=39.2, angle=180)], (to(98.1), LOOSEN, to(39.2), by(90), by(90)))
        == ()
    )


def test_a_line_that_no_pass_goes_to_is_asked_about():
    held_by = [bolts(4, value=40, mark="A"), bolts(2, "M6", 10, mark="B")]
    assert questions(held_by, (to(40, group="A"),)) == (
        "2 bolts M6x35: no pass tightens them to their 10 N·m.",
    )
    assert questions(held_by, (to(40, group="A"), to(10, group="B"))) == ()


def test_another_angle_than_the_line_says_is_asked_about():
    assert questions([bolts(4, value=40, angle=90)], (to(40), by(60))) == (
        "4 bolts M8x35: the angle is 90°, and the passes turn by 60° in all.",
    )
    assert questions([bolts(4, value=40, angle=105)], (to(40), by(40), by(65))) == ()


def test_the_same_torque_in_another_unit_is_no_question():
    line = HeldBy(4, "bolt", "M8", torque=Torque(30, TorqueUnit.POUND_FOOT))
    assert questions([line], (to(40.7),)) == ()


def test_a_line_without_a_torque_is_not_asked_about():
    assert questions([bolts(4)], (to(40),)) == ()
