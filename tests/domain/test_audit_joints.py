"""The audit of torques, holes and passes: one calm finding for a part, and how it is answered."""

from dataclasses import replace

import pytest
from audit_cases import THREADS, changed, found, job, part

from bagtag.domain.audit import Lack
from bagtag.domain.hardware import HeldBy, Torque, TorqueUnit
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.threads import Threads
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.which_way import Without

M8 = HeldBy(4, "bolt", "M8", 30, grade="8.8", torque=Torque(25))
FOUR = HoleMap(tuple(Hole(n, 20.0 * n, 20.0, "A") for n in range(1, 5)))


def of(*held_by, maps=None, **fields):
    """What is found of one gear that these fasteners hold."""
    alone = job(
        [part(1, "gear", Without(), held_by=held_by, area_id=None, **fields)], threads=THREADS
    )
    return [(lack, said) for lack, _, said in found(replace(alone, maps=maps or {}))]


def test_figures_that_can_be_right_are_not_asked_about():
    """M8 of class 8.8: 25 N·m is the usual figure of handbook tables; from memory."""
    assert of(M8) == []
    assert of(M8, maps={1: FOUR}, passes=(Pass(share=0.5), Pass(share=1.0))) == []


def test_all_that_is_doubtful_of_a_part_is_one_finding():
    lines = (
        replace(M8, torque=Torque(25, TorqueUnit.KILOGRAM_METRE)),
        replace(M8, thread="M10", torque=Torque(53), also=Torque(38.5, TorqueUnit.POUND_FOOT)),
    )
    ((lack, said),) = of(*lines)
    assert lack is Lack.FIGURE
    assert said.count("M8x30") == said.count("M10x30") == 1
    assert "do not agree" in said


@pytest.mark.parametrize("where", ["line", "removal"])
def test_what_stands_so_in_the_manual_is_not_asked_again(where):
    wrong = replace(M8, torque=Torque(250))
    assert [lack for lack, _ in of(wrong)] == [Lack.FIGURE]
    noted = "As in the manual, p. 12"
    answered = of(replace(wrong, note=noted)) if where == "line" else of(wrong, note=noted)
    assert answered == []


def test_bolts_to_yield_that_are_not_said_to_be_new_are_asked_about():
    stretched = replace(M8, note="torque to yield", angle=90.0)
    ((lack, said),) = of(stretched)
    assert (lack, "not used again" in said) == (Lack.FIGURE, True)
    assert of(replace(stretched, one_time=True)) == []


def test_holes_that_do_not_agree_with_the_bolts():
    fewer = HoleMap((*FOUR.holes[:3], Hole(9, 5.0, 5.0)))
    assert of(M8, maps={1: fewer}) == [
        (Lack.HOLES, "A: 4 bolts M8x30 and 3 holes: 1 hole short. Hole 9 is without a fastener. "
         "Put it right in the hole map or the hardware."),
    ]  # fmt: skip
    assert of(M8, maps={2: fewer}) == []


def test_passes_that_no_longer_go_with_the_hardware():
    ((lack, said),) = of(M8, passes=(Pass(share=1.0, group="B"),))
    assert lack is Lack.PASSES
    assert said.startswith("Pass 1 is for B, which is neither")


def test_a_share_of_a_torque_that_is_not_logged_is_asked_about_once():
    bare, passes = replace(M8, torque=None), (Pass(share=0.6), Pass(PassKind.ANGLE, angle=90.0))
    assert [lack for lack, _ in of(bare, passes=passes)] == [Lack.TORQUE]
    by_hand = replace(bare, note="no torque given")
    ((lack, said),) = of(by_hand, passes=passes)
    assert (lack, said.startswith("Pass 1 is a share of a torque")) == (Lack.PASSES, True)
    assert of(by_hand, passes=(Pass(torque=Torque(20)),)) == []


def test_passes_that_stop_short_are_asked_about_once():
    short = (Pass(share=0.3), Pass(share=0.6))
    assert of(M8, passes=short) == [
        (Lack.PASSES, "4 bolts M8x30: the torque is 25 N·m, and the passes stop short of it, at "
         '15 N·m. To be asked no more, write "as in the manual" in the note.'),
    ]  # fmt: skip
    assert of(replace(M8, note="as in the manual"), passes=short) == []
    assert of(M8, maps={1: FOUR}, passes=(*short, Pass(torque=Torque(25), group="A"))) == []


def test_nothing_is_asked_of_what_is_scrapped_nor_without_the_known_threads():
    wrong = replace(M8, torque=Torque(250))
    live, scrapped = (found(changed(number, held_by=(wrong,))) for number in (8, 12))
    assert ([lack for lack, *_ in live], scrapped) == ([Lack.FIGURE], [])
    assert found(replace(changed(8, held_by=(wrong,)), threads=Threads(()))) == []
