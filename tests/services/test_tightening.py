"""The passes of a joint: kept as they are ticked, open again when they no longer hold."""

from dataclasses import replace
from datetime import date

import pytest

from bagtag import services
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Anchor, Beside, TaskKind, part, task
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.wrench import Wrench
from bagtag.services.tasks import TaskForm
from bagtag.store.work import Store

BOLTS = HeldBy(10, "bolt", "M8", 60, torque=Torque(30))
# 30 N·m + 30° + 60°: TM 10-4320-315-24, table 3-4.
BY_ANGLE = (
    Pass(torque=Torque(30)),
    Pass(PassKind.ANGLE, angle=30),
    Pass(PassKind.ANGLE, angle=60),
)


@pytest.fixture
def head(log):
    return part(log("cylinder head", held_by=(BOLTS,)))


def ticked(store, ref) -> set[int]:
    return set(services.tightening.joint(store, ref).ticked)


def set_passes(store, ref, passes=BY_ANGLE) -> None:
    services.tightening.set_passes(store, ref.id, passes, who="Ada")


def test_a_joint_is_gone_over_by_the_usual_passes_until_it_has_its_own(store, head):
    """Half, two thirds and full: the marine diesel service manual of tests/check_values."""
    usual = services.tightening.joint(store, head)
    assert [one.figures for one in usual.rounds] == ["15 N·m", "20 N·m", "30 N·m"]
    set_passes(store, head)
    own = services.tightening.joint(store, head)
    assert [one.figures for one in own.rounds] == ["30 N·m", "30°", "60°"]
    assert (own.due, own.ticked, own.called) == (0, frozenset(), "1 cylinder head")


def test_each_tick_is_one_act_and_is_there_after_a_restart(store, head, tmp_path):
    set_passes(store, head)
    change = services.tightening.tick(store, head, 0, who="Ada")
    assert change.touches("pass_tick")
    assert change.touches("removal")
    assert services.tightening.tick(store, head, 0, who="Bo").journal_id == 0
    services.tightening.tick(store, head, 1, who="Bo")
    again = Store.in_folder(tmp_path / "store")
    found = services.tightening.joint(again, head)
    assert [(tick.place, tick.who) for tick in found.ticks] == [(0, "Ada"), (1, "Bo")]
    assert found.due == 2
    again.close()


def test_a_tick_is_undone_by_its_name_and_done_again(store, job_id, head):
    set_passes(store, head)
    services.tightening.tick(store, head, 0, who="Ada")
    assert services.history.next_names(store, job_id)[0] == "tick pass 1 of 1 cylinder head"
    services.history.undo(store, job_id)
    assert ticked(store, head) == set()
    services.history.redo(store, job_id)
    assert ticked(store, head) == {0}
    services.tightening.untick(store, head, 0, who="Ada")
    assert ticked(store, head) == set()
    services.history.undo(store, job_id)
    assert ticked(store, head) == {0}
    assert services.check.check(store).sound


def test_other_passes_open_it_again_in_the_same_act(store, job_id, head):
    set_passes(store, head)
    services.tightening.tick(store, head, 0, who="Ada")
    set_passes(store, head)  # the same passes: nothing is different
    assert ticked(store, head) == {0}
    set_passes(store, head, BY_ANGLE[:2])
    assert ticked(store, head) == set()
    services.history.undo(store, job_id)
    assert ticked(store, head) == {0}
    assert len(services.tightening.joint(store, head).rounds) == 3


@pytest.mark.parametrize(
    ("other", "kept"),
    [
        (replace(BOLTS, torque=Torque(35)), set()),
        (replace(BOLTS, angle=90.0), set()),
        (replace(BOLTS, note="one is bent", tool="long bit"), {0}),
    ],
)
def test_hardware_that_is_tightened_otherwise_opens_it_again(store, head, other, kept):
    services.tightening.tick(store, head, 0, who="Ada")
    entry = services.strip.entry_of(services.strip.get_removal(store, head.id))
    services.strip.correct_removal(store, head.id, replace(entry, held_by=(other,)))
    assert ticked(store, head) == kept


def test_taking_a_sign_off_back_opens_every_pass(store, job_id, head):
    set_passes(store, head)
    for place in range(3):
        services.tightening.tick(store, head, place, who="Ada")
    services.signing.sign(store, head, who="Ada")
    with pytest.raises(BadInput, match="signed off already"):
        services.tightening.untick(store, head, 0)
    services.signing.take_back(store, head, who="Ada")
    assert ticked(store, head) == set()
    services.history.undo(store, job_id)
    assert ticked(store, head) == {0, 1, 2}


def test_a_pass_left_out_wants_a_reason(store, job_id, head):
    set_passes(store, head)
    services.tightening.tick(store, head, 0, who="Ada")
    sheet = services.signing.sheet(store, head)
    assert sheet.unticked == ("pass 2 (Turn 30° further)", "pass 3 (Turn 60° further)")
    assert not sheet.asks_nothing
    with pytest.raises(BadInput, match=r"Pass 2 \(Turn 30° further\) is not ticked, nor is one"):
        services.signing.sign(store, head, who="Ada")
    form = services.signing.SignForm(reason="the angle gauge is away")
    services.signing.sign(store, head, form, who="Ada")
    signed = services.board.board(store, job_id).step(head).sign_off
    assert signed.reason == "the angle gauge is away"


def test_usual_passes_are_only_asked_for_once_one_is_ticked(store, head):
    assert services.signing.sheet(store, head).unticked == ()
    services.tightening.tick(store, head, 0, who="Ada")
    assert len(services.signing.sheet(store, head).unticked) == 2


def test_tools_still_out_want_a_reason_only_where_a_place_is_closed(store, job_id, log):
    """Nothing is left inside: tool control of the public maintenance manuals, NAVEDTRA 14018."""
    area = services.jobs.add_area(store, job_id, "gear case").new_id
    cover = part(log("cover"))
    gear = part(log("gear", area_id=area))
    services.jobs.set_opener(store, area, cover.id)
    services.tools.take_out(store, job_id, ["feeler gauge"], who="Ada")
    assert services.signing.sheet(store, gear).tools_out == ()
    services.signing.sign(store, gear, who="Ada")
    with pytest.raises(BadInput, match="Feeler gauge is laid out and not counted back"):
        services.signing.sign(store, cover, who="Ada")
    (out,) = services.signing.sheet(store, cover).tools_out
    services.tools.count_back(store, [out.id], who="Ada")
    services.signing.sign(store, cover, who="Ada")


def test_a_final_tightening_has_its_parts_passes_and_ticks_of_its_own(store, job_id, head, log):
    set_passes(store, head)
    frame = part(log("frame"))
    made = services.tasks.tighten_later(store, head.id, frame, who="Ada").new_id
    final = task(made)
    assert services.tightening.joint(store, head).rounds == ()  # run in by hand there
    assert len(services.tightening.joint(store, final).rounds) == 3
    with pytest.raises(BadInput, match="other passes now"):
        services.tightening.tick(store, head, 0)
    services.tightening.tick(store, final, 0, who="Ada")
    assert ticked(store, final) == {0}
    assert services.signing.sheet(store, final).unticked
    assert services.signing.sheet(store, head).unticked == ()
    set_passes(store, head, BY_ANGLE[:1])
    assert ticked(store, final) == set()
    services.tasks.delete_task(store, made)
    assert services.check.check(store).sound


def test_a_task_that_tightens_nothing_has_no_joint(store, job_id):
    form = TaskForm(TaskKind.CLEAN, anchor=Anchor(Beside.AFTER))
    clean = task(services.tasks.add_task(store, job_id, form).new_id)
    found = services.tightening.joint(store, clean)
    assert (found.removal_id, found.rounds, found.unticked) == (0, (), ())
    assert services.signing.sheet(store, clean).asks_nothing


def test_what_is_not_there_is_said(store, head):
    with pytest.raises(NotFound):
        services.tightening.joint(store, part(999))
    with pytest.raises(BadInput, match="no torque comes before it"):
        set_passes(store, head, BY_ANGLE[1:])
    for place in (-1, 3):
        with pytest.raises(BadInput, match="other passes now"):
            services.tightening.tick(store, head, place)


def test_the_wrenches_of_the_bench_are_set_to_each_round(store, head):
    assert services.tightening.joint(store, head).uses == ((), (), ())
    middle = Wrench("middle wrench", 8, 40, step=0.5, calibrated_on=date.today())
    services.wrenches.add_wrench(store, middle, who="Ada")
    found = services.tightening.joint(store, head).uses
    assert [use.said for (use,) in found] == [
        f"set the middle wrench to {torque} N·m" for torque in (15, 20, 30)
    ]


def test_the_order_of_a_round_is_that_of_the_hole_map(store, head):
    """Crosswise on four, numbered clockwise: ASME PCC-1's list, from memory."""
    square = ((20, 20), (80, 20), (80, 80), (20, 80))
    holes = tuple(Hole(n, x, y, "A") for n, (x, y) in enumerate(square, 1))
    services.holes.save_map(store, head.id, HoleMap(holes), who="Ada")
    found = services.tightening.joint(store, head)
    assert {one.order for one in found.rounds} == {(1, 3, 2, 4)}
    assert found.hole_map is not None
