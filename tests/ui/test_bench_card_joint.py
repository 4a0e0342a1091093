"""The joint on its card: the pass now due, the holes in their turn, ticks by key and by press."""

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.fitting import Ref, part, task
from bagtag.domain.hardware import Adapter, HeldBy, Length, Torque
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.standing import Standing
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.wrench import Wrench
from bagtag.ui import theme
from bagtag.ui.card.joint_view import JointView
from bagtag.ui.card.task_card import TaskCardView
from bagtag.ui.holes.hole_dialog import HoleMapDialog
from bagtag.ui.order.passes_form import PassesDialog
from bagtag.ui.torque.torque_dialog import TorqueDialog
from tests.ui.sign_kit import log
from tests.ui.stages_job import dies, nameless, sentence_of

HEAD = HeldBy(4, "bolt", "M8", 60, torque=Torque(24))
SQUARE = ((20, 20), (80, 20), (80, 80), (20, 80))
SHARES = tuple(Pass(share=share) for share in (0.3, 0.6, 1.0))


@pytest.fixture
def put_ref(bench_card, desk, settle):
    """Put a part on the card, all that it asked for answered."""

    def show(ref: Ref):
        bench_card.show_removal(ref.id)
        settle(desk)
        bench_card.activateWindow()
        return bench_card

    return show


@pytest.fixture
def head(store, job) -> Ref:
    """A part with a hole map and passes of its own, the next to go in."""
    ref = log(store, job, "cylinder head", HEAD)
    holes = tuple(Hole(n, x, y, "A") for n, (x, y) in enumerate(SQUARE, 1))
    services.holes.save_map(store, ref.id, HoleMap(holes), who="MK")
    services.tightening.set_passes(store, ref.id, SHARES, who="MK")
    return ref


def ticked(store, ref: Ref) -> set[int]:
    return set(services.tightening.joint(store, ref).ticked)


def test_the_pass_now_due_stands_large_with_its_figure_and_its_wrench(put_ref, store, head) -> None:
    wrench = Wrench("small wrench", 2, 25, step=0.2)
    services.wrenches.add_wrench(store, wrench, who="MK")
    card = put_ref(head)
    joint = card.joint
    assert joint.count.text() == "Pass 1 of 3"
    assert joint.due.text() == "Torque to 30\u00a0% =\u00a07\u00a0N·m"
    assert joint.due.property("scale") == "big"
    assert "Set the small wrench to 7\u00a0N·m." in joint.setting.text()
    assert "last calibrated" in joint.setting.text()
    assert all(caution in sentence_of(card) for caution in TORQUE_CAUTIONS)


def test_lines_that_are_set_differently_are_named(put_ref, store, job) -> None:
    services.wrenches.add_wrench(store, Wrench("small wrench", 2, 25, step=0.2), who="MK")
    short = HeldBy(4, "bolt", "M6", 30, torque=Torque(10))
    joint = put_ref(log(store, job, "cover plate", HEAD, short)).joint
    assert "M8x60: set the small wrench to 12\u00a0N·m." in joint.setting.text()
    assert "M6x30: set the small wrench to 5\u00a0N·m." in joint.setting.text()
    assert "M8x60 12\u00a0N·m, M6x30 5\u00a0N·m" in joint.due.text()


def test_one_key_ticks_the_pass_and_goes_on_to_the_next(
    put_ref, store, head, desk, settle, qtbot
) -> None:
    card = put_ref(head)
    qtbot.waitUntil(card.isActiveWindow)
    for place in range(3):
        assert card.joint.done.isVisible()
        qtbot.keyClick(card, Qt.Key.Key_F12)
        settle(desk)
        assert ticked(store, head) == set(range(place + 1))
    assert card.joint.count.text() == "All 3 passes are done"
    assert not card.joint.done.isVisible()
    qtbot.keyClick(card, Qt.Key.Key_F12)
    settle(desk)
    assert ticked(store, head) == {0, 1, 2}


def test_a_press_ticks_a_row_and_another_opens_it_again(
    put_ref, store, head, desk, settle, qtbot
) -> None:
    card = put_ref(head)
    rows = card.joint.rows.rows
    qtbot.mouseClick(rows[1], Qt.MouseButton.LeftButton)
    settle(desk)
    assert ticked(store, head) == {1}
    assert [row.aside for row in rows] == ["now", "Ada", ""]
    assert rows[1].accessibleDescription() == "Ada"
    assert card.joint.count.text() == "Pass 1 of 3"
    rows[1].setFocus()
    qtbot.keyClick(rows[1], Qt.Key.Key_Space)
    settle(desk)
    assert ticked(store, head) == set()


def test_a_tick_that_cannot_be_kept_is_not_left_standing(
    put_ref, store, head, desk, settle, qtbot
) -> None:
    card = put_ref(head)
    services.signing.sign(store, head, services.signing.SignForm(reason="trial"), who="MK")
    said = []
    desk.said.connect(lambda sentence, _: said.append(sentence))
    card.joint.rows.rows[0].click()
    settle(desk)
    assert "signed off already" in said[0]
    assert not card.joint.rows.rows[0].isChecked()


def test_what_was_ticked_stands_on_the_card_of_a_part_that_is_in(
    put_ref, store, head, desk, settle
) -> None:
    services.tightening.tick(store, head, 0, who="MK")
    services.signing.sign(store, head, services.signing.SignForm(reason="trial"), who="MK")
    joint = put_ref(head).joint
    assert joint.count.text() == "1 of 3 passes were ticked"
    assert joint.count.isVisible()
    assert not joint.rows.isVisible()


def test_the_holes_are_drawn_with_their_turns_and_said(put_ref, head) -> None:
    """Crosswise on four, numbered clockwise: ASME PCC-1's list, from memory."""
    joint = put_ref(head).joint
    assert joint.picture.isVisible()
    assert joint.picture.picture.items
    assert joint.picture.accessibleDescription() == "A, holes 1–4: 4 bolts M8x60"
    assert "Order of the holes: 1, 3, 2, 4" in joint.said.text()


def test_holes_that_do_not_count_up_are_said(put_ref, store, job) -> None:
    ref = log(store, job, "cover", HEAD)
    holes = tuple(Hole(n, x, y, "A") for n, (x, y) in enumerate(SQUARE[:3], 1))
    services.holes.save_map(store, ref.id, HoleMap(holes), who="MK")
    assert "1 hole short" in put_ref(ref).joint.said.text()


def test_before_its_turn_only_the_holes_are_shown(put_ref, store, job) -> None:
    """A part that waits: which bolt goes where can be looked up, nothing is to be tightened."""
    cover = part(job.parts["cover, clutch side"])
    card = put_ref(cover)
    assert not card.joint.isVisible()
    holes = tuple(Hole(n, 10 * n, 20, "A") for n in range(1, 7))
    services.holes.save_map(store, cover.id, HoleMap(holes), who="MK")
    joint = put_ref(cover).joint
    assert joint.picture.isVisible()
    for hidden in (joint.due, joint.done, joint.rows):
        assert not hidden.isVisible()


def test_what_must_not_be_forgotten_is_said(put_ref, store, job) -> None:
    line = HeldBy(
        2, "bolt", "M7", 38, torque=Torque(14), angle=60, one_time=True, lubrication="oil",
        drag=Torque(1.5), adapter=Adapter(Length(50), 90), tool="long bit",
    )  # fmt: skip
    said = put_ref(log(store, job, "rod cap", line)).joint.said.text()
    for words in (
        "Turned by 60° in all.",
        "New each time: bolt M7x38. Do not put the old ones in again.",
        "Threads of bolt M7x38: oil.",
        "Drag of bolt M7x38: 1.5\u00a0N·m on top of each torque",
        "Adapter 50 mm at 90° on the wrench",
        "Special tool: long bit.",
    ):
        assert words in said


def test_a_joint_of_one_torque_has_nothing_to_tick(put_ref, store, job) -> None:
    nut = HeldBy(1, "nut", "M18", torque=Torque(110))
    joint = put_ref(log(store, job, "flywheel nut", nut)).joint
    assert joint.count.text() == "Tighten"
    assert joint.due.text() == "Torque to 100\u00a0% =\u00a0110\u00a0N·m"
    assert not joint.rows.isVisible()
    assert not joint.done.isVisible()


def test_a_part_without_a_torque_has_no_joint(put_ref, store, job) -> None:
    assert not put_ref(log(store, job, "needle roller", HeldBy(1, "circlip"))).joint.isVisible()


def test_an_older_answer_does_not_show_over_a_newer_one(bench_card, desk, settle, head, job):
    bench_card.joint.show_step(head, Standing.NEXT)
    bench_card.joint.show_step(part(job.parts["main shaft"]), Standing.NEXT)
    settle(desk)
    assert not bench_card.joint.isVisible()


def test_a_final_tightening_is_ticked_on_its_own_card(qtbot, desk, settle, store, job, head):
    after = log(store, job, "needle roller")
    made = services.tasks.tighten_later(store, head.id, after, who="MK").new_id
    for ref in (after, head):
        services.signing.sign(store, ref, who="MK")
    view = TaskCardView(desk)
    qtbot.addWidget(view)
    view.resize(900, 700)
    view.show()
    view.show_task(made)
    settle(desk)
    assert view.joint.count.text() == "Pass 1 of 3"
    assert view.joint.y() < view.torques.y()
    assert ", then " not in sentence_of(view.torques)  # the pass now due says it
    assert all(caution in sentence_of(view) for caution in TORQUE_CAUTIONS)
    for act, kind in ((view.acts.passes, PassesDialog), (view.acts.holes, HoleMapDialog)):
        act.click()
        settle(desk)
        (form,) = view.findChildren(kind)
        assert "cylinder head" in form.windowTitle()
        form.reject()
    view.joint.tick_due()
    settle(desk)
    assert ticked(store, task(made)) == {0}
    assert view.joint.count.text() == "Pass 2 of 3"


def test_what_belongs_to_the_joint_is_opened_from_the_card(put_ref, desk, settle, head) -> None:
    card = put_ref(head)
    card.acts.more.click()
    acts = card.acts
    for act, kind in (
        (acts.holes, HoleMapDialog),
        (acts.passes, PassesDialog),
        (acts.torque, TorqueDialog),
    ):
        assert act.isVisible()
        act.click()
        settle(desk)
        (form,) = card.findChildren(kind)
        assert form.isVisible()
        form.reject()
    assert acts.passes.text() == "Passes\u2002Ctrl+G"


def test_every_control_has_a_name(put_ref, head) -> None:
    assert nameless(put_ref(head).joint) == []


@pytest.mark.parametrize("size", [(560, 440), (900, 600), (1600, 1200)])
def test_nothing_is_cut_at_any_size(put_ref, head, store, qtbot, size) -> None:
    turn = Pass(PassKind.TORQUE, share=1.0, is_round=True, note="and once more after ten minutes")
    services.tightening.set_passes(store, head.id, (*SHARES, turn), who="MK")
    card = put_ref(head)
    card.resize(*size)
    qtbot.wait(1)
    assert card.joint.width() <= card.view.viewport().width()
    for row in card.joint.rows.rows:
        assert row.height() >= max(theme.TOUCH, row.heightForWidth(row.width()))
    assert card.joint.done.height() >= theme.TOUCH


def test_it_goes_away_when_let_go(qtbot, desk, settle, head) -> None:
    def make() -> JointView:
        view = JointView(desk, None)
        view.show_step(head, Standing.NEXT)
        settle(desk)
        return view

    assert dies(qtbot, make)
