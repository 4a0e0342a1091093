"""The form of a part's passes: usual ways, the manual's own, how it will read, what is wrong."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.fitting import Ref
from bagtag.domain.hardware import HeldBy, Torque, TorqueUnit
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.schedule import PRESETS
from bagtag.domain.tightening import Pass, PassKind
from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.order.pass_editor import REVERSED, ROUND, SHARE
from bagtag.ui.order.passes_form import USUAL, PassesDialog
from tests.ui.add_kit import ENTER, is_open, open_form, press, walked
from tests.ui.sign_kit import log
from tests.ui.stages_job import dies, nameless, sentence_of

HEAD = HeldBy(10, "bolt", "M8", 60, torque=Torque(40))
SIDE = HeldBy(4, "bolt", "M8", 40, torque=Torque(26))


@pytest.fixture
def head(store, job) -> Ref:
    """A part with two sorts of bolts in its holes."""
    ref = log(store, job, "cylinder head", HEAD, SIDE)
    holes = [Hole(n, 30 * n, 20, "A") for n in range(1, 11)]
    holes += [Hole(n, 30 * (n - 10), 90, "B") for n in range(11, 15)]
    hole_map = HoleMap(tuple(holes), width=400)
    services.holes.save_map(store, ref.id, hole_map, who="MK")
    return ref


@pytest.fixture
def form(qtbot, desk, settle, head):
    return open_form(qtbot, desk, settle, PassesDialog, head.id)


def kept(store, head: Ref) -> tuple[Pass, ...]:
    return services.strip.get_removal(store, head.id).passes


def fill(form, kind: PassKind, amount: str, unit=None) -> None:
    """A pass more, as a person types it."""
    form.add()
    form.editor.kind.choose(kind)
    if unit is not None:
        form.editor.unit.choose(unit)
    form.editor.amount.setFocus()
    form.editor.amount.selectAll()
    QTest.keyClick(form.editor.amount, Qt.Key.Key_Delete)
    QTest.keyClicks(form.editor.amount, amount)


def test_without_any_it_says_what_the_hardware_says(form) -> None:
    """Half, two thirds, full: the marine diesel service manual of tests/check_values."""
    assert form.ways.value is USUAL
    assert "Passes: " in form.head.text()
    assert "A\u00a020\u00a0N·m, B\u00a013\u00a0N·m".replace("\u00a0", " ") in _plain(form)
    assert all(caution in sentence_of(form) for caution in TORQUE_CAUTIONS)


def test_enter_right_after_the_key_keeps_that_way(form, desk, settle, store, head) -> None:
    press(Qt.Key.Key_3)
    press(ENTER)
    settle(desk)
    assert kept(store, head) == PRESETS[1].passes


def test_the_manuals_own_passes_have_the_keys_where_there_are_some(
    qtbot, desk, settle, store, head
) -> None:
    """A digit there would wipe them if the keys stood on the usual ways."""
    own = (Pass(PassKind.TORQUE, share=0.4), Pass(PassKind.TORQUE, share=1.0))
    services.tightening.set_passes(store, head.id, own)
    form = open_form(qtbot, desk, settle, PassesDialog, head.id)
    assert form.rows.slip(0).hasFocus()
    press(Qt.Key.Key_3)
    qtbot.wait(2 * QUIET)
    assert tuple(form.passes) == own


def test_tab_goes_from_the_usual_ways_over_the_passes_to_what_adds_one(form) -> None:
    form.ways.choose(PRESETS[0])
    names = walked(form.ways.choice(PRESETS[0]))
    slips = [form.rows.slip(place).accessibleName() for place in range(3)]
    assert names[1:5] == [*slips, "Add a pass"]


def _plain(form) -> str:
    return form.reading.reads.text().replace("\u00a0", " ")


def test_a_usual_way_by_one_key_and_kept(qtbot, form, desk, settle, store, head) -> None:
    press(Qt.Key.Key_4)
    qtbot.waitUntil(lambda: form.ways.value is PRESETS[2])
    assert len(form.rows) == 5
    assert "1. Torque to 20 % = A 8 N·m" in _plain(form)
    press(ENTER)
    settle(desk)
    assert not is_open(form)
    assert kept(store, head) == PRESETS[2].passes


def test_the_manuals_own_steps_one_by_one(form, desk, settle, store, head) -> None:
    """29.5 lbf·ft + 45° + 45° + 45° + 30° = 165°: TM 10-3930-669-20, table E-1."""
    fill(form, PassKind.TORQUE, "29.5 lbf·ft")
    for angle in ("45", "45°", "45", "30"):
        fill(form, PassKind.ANGLE, angle)
    assert form.reading.sum.text() == "Turned by 165° in all."
    press(ENTER)
    settle(desk)
    assert kept(store, head) == (
        Pass(torque=Torque(29.5, TorqueUnit.POUND_FOOT)),
        *(Pass(PassKind.ANGLE, angle=angle) for angle in (45, 45, 45, 30)),
    )


def test_loosened_in_reverse_and_begun_again(form, desk, settle, store, head) -> None:
    """53, 84 N·m, loosened to nothing in reverse order, 53, 105 N·m: a cylinder head's manual."""
    fill(form, PassKind.TORQUE, "53", TorqueUnit.NEWTON_METRE)
    fill(form, PassKind.TORQUE, "84 Nm")
    fill(form, PassKind.LOOSEN, "")
    fill(form, PassKind.TORQUE, "53", TorqueUnit.NEWTON_METRE)
    fill(form, PassKind.TORQUE, "105", TorqueUnit.NEWTON_METRE)
    assert "3. Loosen in reverse order until free" in _plain(form)
    form.save()
    settle(desk)
    loosen = kept(store, head)[2]
    assert (loosen.kind, loosen.angle, loosen.is_reversed) == (PassKind.LOOSEN, None, True)
    assert [one.torque.value for one in kept(store, head) if one.torque] == [53, 84, 53, 105]


def test_a_pass_for_one_sort_of_bolt_only(form, desk, settle, store, head) -> None:
    fill(form, PassKind.TORQUE, "27", TorqueUnit.NEWTON_METRE)
    form.editor.group.setFocus()
    QTest.keyClicks(form.editor.group, "A")
    assert "1. A: torque to 27 N·m" in _plain(form)
    form.save()
    settle(desk)
    assert kept(store, head)[0].group == "A"
    assert len(services.tightening.joint(store, head).rounds[0].order) == 10


def test_an_unknown_group_is_said_and_nothing_is_lost(form, desk, settle, store, head) -> None:
    fill(form, PassKind.TORQUE, "27", TorqueUnit.NEWTON_METRE)
    form.editor.group.setFocus()
    QTest.keyClicks(form.editor.group, "Q")
    assert "neither a group of holes nor the letter" in form.reading.field.wrong.text()
    form.save()
    settle(desk)
    assert is_open(form)
    assert kept(store, head) == ()
    assert form.editor.group.text() == "Q"


@pytest.mark.parametrize(
    ("kind", "typed", "said"),
    [
        (PassKind.TORQUE, "0", "torque above zero"),
        (PassKind.TORQUE, "-5 N·m", "torque above zero"),
        (PassKind.TORQUE, "130 %", "from 1 to 100 %"),
        (PassKind.TORQUE, "tight", "torque above zero"),
        (PassKind.ANGLE, "400", "at most 360"),
        (PassKind.ANGLE, "", "above 0"),
        (PassKind.LOOSEN, "free", "ten turns at most"),
        (PassKind.VERIFY, "60 %", "a figure above zero"),
    ],
)
def test_what_cannot_be_is_said_at_its_field(form, store, head, kind, typed, said) -> None:
    fill(form, kind, typed)
    form.save()
    assert said in form.editor.amount_field.wrong.text()
    assert form.editor.amount.text() == typed
    assert kept(store, head) == ()
    assert is_open(form)


def test_an_angle_without_a_torque_before_it_is_refused(form, desk, settle, store, head) -> None:
    fill(form, PassKind.ANGLE, "90")
    assert "no torque comes before it" in form.reading.field.wrong.text()
    form.save()
    settle(desk)
    assert is_open(form)
    assert kept(store, head) == ()


def test_passes_are_moved_and_taken_out(form) -> None:
    form.ways.choose(PRESETS[1])
    form.edit(0)
    form.later.click()
    assert [one.share for one in form.passes] == [0.6, 0.3, 1.0, 1.0]
    assert form.earlier.isEnabled()
    form.earlier.click()
    assert not form.earlier.isEnabled()
    form.out.click()
    assert [one.share for one in form.passes] == [0.6, 1.0, 1.0]
    assert form.ways.value is None
    form.rows.slip(0).setFocus()
    QTest.keyClick(form.rows.slip(0), Qt.Key.Key_Delete)
    assert [one.share for one in form.passes] == [1.0, 1.0]


def test_two_thirds_stay_two_thirds(form, desk, settle, store, head) -> None:
    """No whole per cent: opened, looked at and kept, the share is the same."""
    form.ways.choose(PRESETS[0])
    form.edit(1)
    form.shut.click()
    form.save()
    settle(desk)
    assert kept(store, head) == PRESETS[0].passes


def test_what_is_kept_is_shown_again(qtbot, desk, settle, store, head) -> None:
    turn = Pass(
        PassKind.TORQUE, Torque(20), group="B", is_reversed=True, is_round=True, note="slow"
    )
    services.tightening.set_passes(store, head.id, (Pass(share=0.6), turn), who="MK")
    form = open_form(qtbot, desk, settle, PassesDialog, head.id)
    form.edit(0)
    assert (form.editor.amount.text(), form.editor.unit.value) == ("60", SHARE)
    form.edit(1)
    assert form.editor.amount.text() == "20"
    assert form.editor.unit.value is TorqueUnit.NEWTON_METRE
    assert (form.editor.group.text(), form.editor.note.text()) == ("B", "slow")
    assert form.editor.order.values == (REVERSED, ROUND)
    assert form.editor.one() == turn


def test_back_to_the_usual_passes(qtbot, desk, settle, store, head) -> None:
    services.tightening.set_passes(store, head.id, (Pass(share=1.0),), who="MK")
    form = open_form(qtbot, desk, settle, PassesDialog, head.id)
    form.ways.choose(USUAL)
    form.save()
    settle(desk)
    assert kept(store, head) == ()


def test_a_share_without_a_torque_is_told(qtbot, desk, settle, store, job) -> None:
    bare = log(store, job, "bare cover", HeldBy(4, "bolt", "M6"))
    form = open_form(qtbot, desk, settle, PassesDialog, bare.id)
    assert "No torque is written down" in form.reading.reads.text()
    form.ways.choose(PRESETS[0])
    assert "has no figure yet" in form.reading.sum.text()


def test_every_control_has_a_name_and_tab_reaches_all(form, desk, settle) -> None:
    form.add()
    assert nameless(form) == []
    names = walked(form.editor.amount)
    for name in ("Which fasteners", "Note on the pass", "Done with this pass", "Keep it"):
        assert name in names


def test_the_card_opens_it(bench_card, desk, settle, head) -> None:
    bench_card.show_removal(head.id)
    settle(desk)
    bench_card.acts.more.click()
    bench_card.acts.passes.click()
    settle(desk)
    (form,) = bench_card.findChildren(PassesDialog)
    assert "cylinder head" in form.head.text()
    form.reject()


def test_it_goes_away_when_let_go(qtbot, desk, settle, head) -> None:
    def make() -> PassesDialog:
        made = PassesDialog(desk, None, head.id)
        settle(desk)
        made.add()
        return made

    assert dies(qtbot, make)
