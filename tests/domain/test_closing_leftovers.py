"""What does not add up, and what it most likely is, in one sentence each."""

from dataclasses import replace

import pytest
from closing_kit import (
    AREAS,
    DONE,
    DUE,
    away,
    changed,
    counted,
    found,
    removal,
    signed,
    without,
)

from bagtag.domain.closing import Closing, Likely, closing_count
from bagtag.domain.fitting import Anchor, part, task
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Area, Fate, Origin, Replacement

OPEN = replace(DONE, areas=())
"""Nothing lies behind anything."""


def one_part(*, is_away=False, **fields):
    """A job of one part that is not in."""
    out = away(3, DUE) if is_away else {}
    return Closing((removal(3, "dowel", **fields),), containers=DONE.containers, away=out)


@pytest.mark.parametrize(
    ("closing", "likely", "said"),
    [
        (one_part(container_id=12), Likely.IN_CONTAINER,
         "most likely still in bag 12, tray 3, shelf B."),
        (one_part(container_id=1), Likely.IN_CONTAINER, "most likely still on shelf B."),
        (one_part(), Likely.ON_BENCH, "most likely still on the bench."),
        (one_part(container_id=77), Likely.ON_BENCH, "most likely still on the bench."),
        (one_part(origin=Origin.SHOP), Likely.AT_SHOP,
         "taken off by the shop, most likely still there or with what it sent back."),
        (replace(one_part(origin=Origin.SHOP), came_back={3}), Likely.ON_BENCH,
         "taken off by the shop and sent back, most likely with its part."),
        (one_part(is_away=True), Likely.AWAY,
         "away at the cylinder grinder since 3 Nov, due 17 Nov."),
        (one_part(is_away=True, fate=Fate.RENEW), Likely.AWAY,
         "away at the cylinder grinder since 3 Nov, due 17 Nov."),
        (one_part(fate=Fate.DECIDE), Likely.UNDECIDED,
         "not decided yet, most likely still on the bench."),
        (one_part(fate=Fate.RENEW, replacement=Replacement.ORDERED, container_id=9),
         Likely.NOT_HERE, "the new part is on order, the old one most likely in bag 9, tray 3, "
         "shelf B."),
        (one_part(fate=Fate.RENEW), Likely.NOT_HERE,
         "the new part is not ordered yet, the old one most likely on the bench."),
        (one_part(fate=Fate.RENEW, replacement=Replacement.HERE), Likely.NOT_FITTED,
         "the new part is here and not fitted, most likely in its box."),
        (one_part(origin=Origin.NEW), Likely.NOT_FITTED,
         "a new part that never went in, most likely still on the bench."),
        (one_part(origin=Origin.NEW, fate=Fate.RENEW, replacement=Replacement.ORDERED),
         Likely.NOT_HERE, "the new part is on order."),
    ],
)  # fmt: skip
def test_a_part_that_is_not_in(closing, likely, said):
    assert found(closing) == [(likely, part(3), f"3 dowel: {said}")]


def test_several_pieces_are_said_with_their_count():
    (one,) = closing_count(one_part(quantity=4)).leftovers
    assert one.sentence == "3 dowel (4 pieces): most likely still on the bench."
    assert one.pieces == 4


def test_the_bag_is_not_where_a_part_is_that_is_away():
    (one,) = closing_count(one_part(is_away=True, container_id=12)).leftovers
    assert one.container_id == 0


@pytest.mark.parametrize(
    ("closing", "said"),
    [
        (changed(3, fate=Fate.SCRAP),
         "3 dowel: signed as in, but down as scrap. Look which is true, and mend the other."),
        (replace(DONE, away=away(3)),
         "3 dowel: signed as in, but still away at the cylinder grinder since 3 Nov. Most likely "
         "nobody noted that it came back."),
        (replace(DONE, away=away(5)),
         "5 split pins (2 pieces): scrapped, but still away at the cylinder grinder since 3 Nov. "
         "Most likely nobody noted that it came back."),
    ],
)  # fmt: skip
def test_what_is_in_and_said_to_be_elsewhere(closing, said):
    """No piece is missing, but the two cannot both be true."""
    count = closing_count(closing)
    (one,) = count.leftovers
    assert (one.likely, one.sentence, one.pieces) == (Likely.CONTRARY, said, 0)
    assert count.nothing_left
    assert not count.adds_up


# Behind what is closed


def test_a_part_behind_a_cover_that_is_on_comes_first():
    """Common practice, no source: a part found after its cover is on costs the most."""
    closing = without(part(2), part(3), part(6), task(3))
    likely = [(kind, ref.id) for kind, ref, _ in found(closing)]
    assert likely == [
        (Likely.LEFT_OUT, 3),
        (Likely.LEFT_OUT, 6),
        (Likely.NOT_FITTED, 2),
        (Likely.UNDONE, 3),
    ]


def test_the_nearest_cover_that_is_on_is_named():
    inner = (*AREAS[:2], Area(3, 1, "selector", 2, opener_id=4))
    both = replace(without(part(6)), areas=inner)
    assert "4 studs is on over it" in found(both)[0][2]
    outer = replace(without(part(6), part(4)), areas=inner)
    assert ["1 cover is on over it" in said for _, _, said in found(outer)] == [True, True]


def test_nothing_is_behind_a_cover_that_is_off():
    closing = without(part(1), part(3))
    assert [kind for kind, _, _ in found(closing)] == [Likely.IN_CONTAINER] * 2


def test_a_part_that_is_away_behind_a_cover_says_both():
    closing = replace(without(part(3)), away=away(3))
    assert found(closing) == [
        (Likely.LEFT_OUT, part(3), "3 dowel left out: 1 cover is on over it. Away at the "
         "cylinder grinder since 3 Nov."),
    ]  # fmt: skip


# Tasks


@pytest.mark.parametrize(
    ("number", "likely", "said"),
    [
        (1, Likely.UNTIGHTENED, "The final torque of 4 studs was never signed."),
        (2, Likely.UNSEEN, "Look at the selector: never signed by a second pair of eyes, as a "
         "hold point must be."),
        (3, Likely.UNDONE, "Fill the gearbox: never signed."),
    ],
)  # fmt: skip
def test_a_task_that_nobody_signed(number, likely, said):
    closing = without(task(number), closing=OPEN)
    assert found(closing) == [(likely, task(number), said)]
    assert closing_count(closing).nothing_left


def test_a_task_behind_a_cover_is_left_out_too():
    assert found(without(task(2))) == [
        (Likely.LEFT_OUT, task(2), "Look at the selector: never signed by a second pair of "
         "eyes, as a hold point must be, and 1 cover is on over it."),
    ]  # fmt: skip


def test_a_task_is_done_where_the_step_beside_it_is_done():
    tasks = (*DONE.tasks[:2], replace(DONE.tasks[2], anchor=Anchor(of=part(3))))
    ((likely, _, _),) = found(replace(without(task(3)), tasks=tasks))
    assert likely is Likely.LEFT_OUT


def test_a_tightening_of_a_part_that_is_gone_says_its_own_name():
    tasks = (replace(DONE.tasks[0], removal_id=77),)
    ((_, _, said),) = found(replace(without(task(1)), tasks=tasks))
    assert said == "Torque the studs: the final torque was never signed."


# Fasteners


def test_short_at_a_signed_step():
    closing = counted(4, (0, 8, 7))
    assert found(closing) == [
        (Likely.SHORT, part(4), "1 M8 nut short at 4 studs: most likely left in bag 9, tray 3, "
         "shelf B, or on the bench."),
    ]  # fmt: skip
    (one,) = closing_count(closing).leftovers
    assert (one.container_id, one.pieces) == (9, 1)
    on_bench = changed(4, closing, container_id=None)
    assert found(on_bench)[0][2] == "1 M8 nut short at 4 studs: most likely left on the bench."


def test_too_many_at_a_signed_step():
    assert found(counted(4, (0, 8, 10))) == [
        (Likely.OVER, part(4), "2 M8 nuts too many at 4 studs: most likely from another place, or "
         "miscounted when it came off. Look for an empty hole elsewhere."),
    ]  # fmt: skip


def test_a_length_too_many_and_a_near_one_short_are_most_likely_swapped():
    assert found(counted(1, (0, 6, 5), (1, 4, 5))) == [
        (Likely.SWAPPED, part(1), "1 M6x12 bolt too many and 1 M6x16 bolt short at 1 cover: most "
         "likely swapped. Take them out and measure: one too long bottoms in its hole, one too "
         "short strips it."),
    ]  # fmt: skip


def test_swapped_between_two_parts_leads_to_both():
    guard = removal(8, "guard", held_by=(HeldBy(2, "screw", "M6", 20),))
    closing = replace(counted(1, (0, 6, 7)), removals=(*DONE.removals, guard))
    closing = counted(8, (0, 2, 1), closing=closing)
    (one,) = closing_count(closing).leftovers
    assert (one.likely, one.removal_id, one.other_id, one.pieces) == (Likely.SWAPPED, 8, 1, 1)
    assert "1 M6x16 bolt too many at 1 cover and 1 M6x20 screw short at 8 guard" in one.sentence


def test_the_same_size_too_many_here_and_short_there_is_most_likely_mixed_up():
    guard = removal(8, "guard", held_by=(HeldBy(2, "bolts", "m6", 12),))
    closing = replace(counted(1, (1, 4, 5)), removals=(*DONE.removals, guard))
    closing = counted(8, (0, 2, 1), closing=closing)
    assert found(closing) == [
        (Likely.MIXED_UP, part(8), "1 M6x12 bolt too many at 1 cover and as many short at 8 "
         "guard: most likely put in with the wrong part as they came off. Look for an empty hole "
         "at 8 guard."),
    ]  # fmt: skip


def test_of_two_near_lengths_the_nearer_one_is_meant_and_what_is_over_stays_over():
    lines = (HeldBy(4, "bolt", "M8", 45), HeldBy(2, "bolt", "M8", 25), HeldBy(2, "bolt", "M8", 50))
    counts = ((0, 4, 6), (1, 2, 0), (2, 2, 1))
    closing = counted(1, *counts, closing=changed(1, held_by=lines))
    said = [(one.likely, one.pieces, one.sentence[:48]) for one in closing_count(closing).leftovers]
    assert said == [
        (Likely.SWAPPED, 1, "1 M8x45 bolt too many and 1 M8x50 bolt short at "),
        (Likely.SWAPPED, 1, "1 M8x45 bolt too many and 1 M8x25 bolt short at "),
        (Likely.SHORT, 1, "1 M8x25 bolt short at 1 cover: most likely left "),
    ]


def test_another_thread_is_not_near():
    lines = (HeldBy(4, "bolt", "M8", 45), HeldBy(2, "bolt", "M6", 45), HeldBy(1, "nut", "M8"))
    closing = counted(1, (0, 4, 5), (1, 2, 1), (2, 1, 0), closing=changed(1, held_by=lines))
    assert [kind for kind, _, _ in found(closing)] == [Likely.SHORT, Likely.SHORT, Likely.OVER]


def test_lengths_in_inches_are_the_same_as_in_millimetres():
    lines = (HeldBy(4, "bolt", "M8", 1, "in"), HeldBy(4, "bolt", "M8", 25.4))
    closing = counted(1, (0, 4, 3), (1, 4, 5), closing=changed(1, held_by=lines))
    assert found(closing) == []


def test_fasteners_that_were_never_counted():
    closing = changed(4, held_by=(HeldBy(None, "nut", "M8"),))
    said = "M8 nut at 4 studs: never counted, so nobody can say that all are back. Count them in "
    assert found(closing) == [(Likely.UNCOUNTED, part(4), f"{said}its entry.")]
    (line,) = [one for one in closing_count(closing).fasteners if one.kind == "nut"]
    assert (line.uncounted, line.pieces.off) == (1, 0)
    assert found(counted(4, (0, 8, 8), closing=closing)) == []  # counted at the sign-off


def test_of_a_part_that_is_not_in_only_the_part_is_named():
    closing = changed(4, without(part(4)), held_by=(HeldBy(None, "nut", "M8"), HeldBy(2)))
    assert [ref for _, ref, _ in found(closing)] == [part(4)]


def test_fasteners_of_a_new_part_never_came_off():
    closing = changed(7, held_by=(HeldBy(2, "screw", "M5", 10),))
    closing = counted(7, (0, 2, 1), closing=closing)
    assert [kind for kind, _, _ in found(closing)] == [Likely.SHORT]
    assert not [line for line in closing_count(closing).fasteners if line.size == "M5x10"]


def test_fasteners_go_the_way_of_their_part():
    held = (HeldBy(2, "bolt", "M5", 10),)
    closing = Closing(
        (
            removal(1, "guard", held_by=held),
            removal(2, "hose", held_by=held, fate=Fate.RENEW),
            removal(3, "clip", held_by=held, fate=Fate.SCRAP),
            removal(4, "bracket", held_by=held),
        ),
        {part(n): signed(part(n)) for n in (1, 2)},
    )
    (line,) = closing_count(closing).fasteners
    p = line.pieces
    assert (p.off, p.back, p.renewed, p.scrapped, p.left, p.over) == (8, 2, 2, 2, 2, 0)


def test_sizes_are_sorted_as_a_mechanic_sorts_them():
    sizes = [
        HeldBy(1, "bolt", "M6", 12),
        HeldBy(1, "bolt", "M6", 30),
        HeldBy(1, "bolt", "M10", 20),
        HeldBy(1, "bolt", "M10x1", 20),
        HeldBy(1, "bolt", "10-32", 0.5, "in"),
        HeldBy(1, "bolt", "1/4 UNF", 1, "in"),
        HeldBy(1, "bolt", "1 1/4-12", 1, "in"),
        HeldBy(1, "screw", "4,2 self-tapping", 13),
        HeldBy(1, "pin", "", 20),
        HeldBy(1, "circlip"),
    ]
    closing = Closing((removal(1, "cover", held_by=tuple(reversed(sizes))),))
    listed = [(one.size, one.kind) for one in closing_count(closing).fasteners]
    assert listed == [(line.size(), line.kind) for line in sizes]
