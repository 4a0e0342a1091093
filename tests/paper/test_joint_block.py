"""A joint on its step: the holes with their turns, the order as a list, passes to be ticked."""

from dataclasses import replace
from itertools import pairwise
from math import cos, pi, sin

import pytest

from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.hardware import OVERRIDE, Adapter, HeldBy, Length, Torque
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.schedule import rounds
from bagtag.domain.tightening import Pass, PassKind
from bagtag.paper import joint_block
from bagtag.paper.checklist_page import FOOT, TOP
from bagtag.paper.checklist_text import ChecklistStep
from bagtag.paper.step_card import PAD, WHICH_WAY, measure
from tests.paper.checklist_kit import ANN, DATUM, EVERY_KIND, FACTS, joined, printed

BOLTS = HeldBy(12, "bolt", "M10", 90, grade="10.9", torque=Torque(60), mark="A")
PASSES = (Pass(share=0.3), Pass(share=0.6), Pass(share=1.0), Pass(share=1.0, is_round=True))
BY_ANGLE = (
    Pass(torque=Torque(20)),
    Pass(PassKind.ANGLE, angle=90),
    Pass(PassKind.LOOSEN, is_reversed=True),
    Pass(torque=Torque(20)),
    Pass(PassKind.ANGLE, angle=90),
    Pass(PassKind.ANGLE, angle=90, note="mark the heads"),
)


def ring(count, mark="A"):
    turns = [2 * pi * n / count - pi / 2 for n in range(count)]
    holes = [Hole(n + 1, 100 + 60 * cos(t), 100 + 60 * sin(t), mark) for n, t in enumerate(turns)]
    return HoleMap(tuple(holes), width=200, height=200, seen_from="the clutch side")


RING = ring(12)


def step(held_by=(BOLTS,), passes=PASSES, hole_map=RING, **changes):
    found = rounds(held_by, passes, hole_map)
    return ChecklistStep(
        7, "flange", removal="31", held_by=held_by, hole_map=hole_map, rounds=found, **changes
    )


@pytest.fixture
def said(words):
    """The text of one step's page, without the first page's opening."""

    def text(one):
        page = joined(" ".join(words(printed([one])[0])))
        return page.split("by someone who holds it.", 1)[1]

    return text


def test_every_pass_has_a_box_its_figure_and_its_setting(said):
    """30, 60 and 100 % and a round, as manuals print it (tests/check_values/passes.json)."""
    uses = ("Set the long wrench to 18 N·m.", "", "Set the long wrench to 60 N·m.", "")
    page = said(step(uses=uses))
    for part in (
        "A, holes 1–12: 12 bolts M10x90, 10.9, 60 N·m",
        "of 12 back",
        "1 Torque to 30 % = 18 N·m Set the long wrench to 18 N·m.",
        "2 Torque to 60 % = 36 N·m",
        "3 Torque to 100 % = 60 N·m Set the long wrench to 60 N·m.",
        "4 Torque to 100 % = 60 N·m, all the way round Order: 1, 2, 3, 4, 5",
    ):
        assert part in page
    ticks = measure(step(uses=uses), TOP - FOOT).marks.ticks
    assert [tick.done for tick in ticks] == [False] * 5


def test_the_order_is_a_list_and_a_picture_with_turns(said):
    """Crosswise as ASME PCC-1 numbers it (tests/check_values/cross_patterns.json)."""
    one = step()
    assert "Order of the holes: 1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12" in said(one)
    (drawing,) = measure(one, TOP - FOOT).marks.drawings
    texts = {item.text for item in drawing.picture.items if hasattr(item, "text")}
    assert {str(n) for n in range(1, 13)} <= texts
    assert any("clutch side" in text for text in texts)


def test_what_is_ticked_in_the_job_is_ticked_on_paper(said):
    one = step(ticked=frozenset({0, 1}))
    assert [t.done for t in measure(one, TOP - FOOT).marks.ticks][1:] == [True, True, False, False]
    signed = said(replace(one, done=ANN))
    assert "2 of 4 passes ticked" in signed
    assert "Torque to" not in signed
    assert "60 N·m" in signed
    assert not measure(replace(one, done=ANN), TOP - FOOT).marks.drawings


def test_angles_are_summed_since_the_last_loosening(said):
    page = said(step(passes=BY_ANGLE))
    assert "Turn 90° further (mark the heads)" in page
    assert "Loosen in reverse order until free Order: back to front" in page
    assert "Turned by 180° in all." in page


def test_what_belongs_to_the_joint_is_said_with_it(said):
    line = replace(
        BOLTS,
        one_time=True,
        lubrication="oil",
        angle=90,
        drag=Torque(3),
        adapter=Adapter(Length(50), 30),
    )
    page = said(step((line,), (), tools="own T-bar"))
    for part in (
        "threads oil",
        "60 N·m + 90°",
        "drag 3 N·m",
        "adapter 50 mm at 30°",
        "New ones go in: 12 bolts M10x90.",
        "Special tools: own T-bar",
        "1 Torque to 100 % = 60 N·m",
        "2 Turn 90° further",
    ):
        assert part in page


def test_holes_that_do_not_match_the_bolts_are_questioned(said):
    assert "12 bolts M10x90 and 10 holes: 2 holes short." in said(step(hole_map=ring(10)))


def test_run_in_by_hand_there_is_a_map_of_holes_and_no_torque(said):
    one = ChecklistStep(
        7, "head", held_by=(replace(BOLTS, drag=Torque(3)),), hole_map=ring(12), later="22 posts"
    )
    page = said(one)
    assert "N·m" not in page
    assert "A, holes 1–12" in page
    assert "Final torque after 22 posts." in page
    assert len(measure(one, TOP - FOOT).marks.drawings) == 1


def test_passes_without_a_map_stand_under_the_hardware(said):
    one = step(hole_map=None)
    assert "Order" not in said(one)
    assert "2 Torque to 60 % = 36 N·m" in said(one)
    assert not measure(one, TOP - FOOT).marks.drawings


def test_a_plain_line_keeps_its_row_and_says_what_to_set(said):
    one = replace(EVERY_KIND["together"], uses=("Set the short wrench to 25 N·m.",))
    page = said(one)
    assert "of 4 back 5 N·m 6.5 N·m 10 N·m" in page
    assert "Set the short wrench to 25 N·m." in page


def test_the_second_printed_figure_stands_with_the_torque(said):
    line = HeldBy(4, "bolt", "M8", 30, torque=Torque(25), also=Torque(18.4))
    assert "25 N·m (18.4 N·m)" in said(ChecklistStep(7, "cover", held_by=(line,)))


@pytest.mark.parametrize("count", [joint_block.MANY, joint_block.MANY + 1, 64])
def test_many_holes_have_a_larger_picture(count):
    held_by = (replace(BOLTS, count=count),)
    one = step(held_by, hole_map=ring(count), facts=FACTS[1], datum=DATUM)
    card = measure(one, TOP - FOOT)
    (drawing,) = card.marks.drawings
    wide = count > joint_block.MANY
    assert drawing.width == pytest.approx(joint_block.WIDTH if wide else joint_block.MAP_WIDE, 0.1)
    assert drawing.y >= PAD + WHICH_WAY[2]
    assert card.complaints == []


def test_more_passes_than_a_page_holds_are_cut_and_said_to_be():
    card = measure(step(passes=PASSES * 40), TOP - FOOT)
    assert card.height <= TOP - FOOT
    assert card.complaints == ["its words were cut."]


def test_every_page_with_a_torque_has_its_cautions_and_no_other(words):
    plain = [ChecklistStep(n, "part", note="Look at it. " * 40) for n in range(20)]
    steps = [*plain, step(), *plain]
    pages = [joined(page) for page in words(printed(steps)[0])]
    with_torque = [n for n, page in enumerate(pages) if "60 N·m" in page]
    assert with_torque
    for number, page in enumerate(pages):
        assert OVERRIDE in page
        assert (TORQUE_CAUTIONS[1] in page) == (number in with_torque)
        assert (TORQUE_CAUTIONS[-1] in page) == (number in with_torque)


def test_the_opening_says_how_to_go_round(words):
    first = joined(words(printed([step()])[0])[0])
    assert "in the order shown, before the next pass" in first


def test_passes_stand_in_turn_from_top_to_bottom():
    ticks = measure(step(), TOP - FOOT).marks.ticks[1:]
    assert all(a.y + a.side < b.y for a, b in pairwise(ticks))
    assert len({tick.x for tick in ticks}) == 1
