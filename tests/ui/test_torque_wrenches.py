"""The list of torque wrenches: added, changed, taken out and back, told of its calibration."""

import weakref
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.torque import Length, TorqueUnit
from bagtag.domain.wrench import Wrench
from bagtag.ui.torque.wrench_dialog import WrenchesDialog, open_wrenches
from tests.ui.forms_kit import ENTER, ESC, TAB, press, show, write

TODAY = date.today()
SHORT = Wrench("short", 8, 40, step=0.5, length=Length(280.0), calibrated_on=TODAY)
LONG = Wrench(
    "long", 30, 150, TorqueUnit.POUND_FOOT, 1, Length(18.0, "in"), TODAY - timedelta(days=500)
)


@pytest.fixture
def dialog(qtbot, desk, store, settle):
    def opened(*wrenches: Wrench) -> WrenchesDialog:
        for one in wrenches:
            services.wrenches.add_wrench(store, one, who="Ada")
        made = WrenchesDialog(desk, None)
        show(qtbot, made, 900, 560)
        settle(desk)
        return made

    return opened


def names(dialog: WrenchesDialog) -> list[str]:
    return [tape.wrench.name for tape in dialog.list.tapes]


def test_an_empty_list_says_what_to_do(dialog):
    made = dialog()
    assert "Add one" in made.said.text()
    assert made.new.hasFocus()
    assert made.frame.isHidden()


def test_a_wrench_is_added_by_keyboard_alone(dialog, desk, store, settle):
    made = dialog()
    press(ENTER)
    for text in ("half inch, long", "40", "200", "1"):
        write(text)
        press(TAB)
    press(TAB)
    write("450")
    press(TAB)
    write("14.3.2026")
    press(ENTER)
    settle(desk)
    (kept,) = services.wrenches.all_wrenches(store)
    assert (kept.name, kept.low, kept.high, kept.step) == ("half inch, long", 40, 200, 1)
    assert kept.unit is TorqueUnit.NEWTON_METRE
    assert (kept.length, kept.calibrated_on) == (Length(450.0), date(2026, 3, 14))
    assert names(made) == ["half inch, long"]
    assert made.frame.isHidden()


def test_the_list_stands_by_scale_and_tells_of_calibration(dialog):
    made = dialog(LONG, SHORT)
    assert names(made) == ["short", "long"]
    short, long = (tape.accessibleName() for tape in made.list.tapes)
    assert f"8 to 40 N·m, marks of 0.5, grip to square 280 mm, calibrated {TODAY}" in short
    assert "checked" not in short
    assert "30 to 150 lbf·ft" in long
    assert "have it checked" in long


def test_one_that_is_open_is_changed(dialog, desk, store, settle):
    made = dialog(SHORT, LONG)
    press(Qt.Key.Key_Down)
    press(ENTER)
    form = made.form
    assert (form.name.text(), form.length.text()) == ("long", "18 in")
    assert form.unit.value is TorqueUnit.POUND_FOOT
    assert form.aged.sentences
    form.high.setText("160")
    form.calibrated_on.setText(TODAY.isoformat())
    press(ENTER)
    settle(desk)
    kept = next(one for one in services.wrenches.all_wrenches(store) if one.name == "long")
    assert (kept.high, kept.length, kept.calibrated_on) == (160, LONG.length, TODAY)


def test_escape_leaves_the_form_and_then_the_list(dialog, store, desk, settle):
    made = dialog(SHORT)
    press(ENTER)
    made.form.name.setText("other")
    press(ESC)
    settle(desk)
    assert made.isVisible()
    assert made.frame.isHidden()
    assert [one.name for one in services.wrenches.all_wrenches(store)] == ["short"]
    press(ESC)
    assert not made.isVisible()


def test_one_taken_out_comes_back_with_undo(dialog, desk, store, settle):
    made = dialog(SHORT, LONG)
    assert made.undo.isHidden()
    press(Qt.Key.Key_Delete)
    settle(desk)
    assert names(made) == ["long"]
    made.undo.click()
    settle(desk)
    assert names(made) == ["short", "long"]
    assert made.undo.isHidden()
    made.edit(made.list.tapes[1].wrench)
    made.out.click()
    settle(desk)
    assert names(made) == ["short"]


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("name", "", "name"),
        ("low", "minus", "lowest"),
        ("low", "50", "wrong way round"),
        ("low", "40", "starts and ends at 40"),
        ("high", "", "above zero"),
        ("high", "0", "above zero"),
        ("high", "-5", "above zero"),
        ("step", "0", "one mark"),
        ("step", "100", "at most"),
        ("length", "0", "above zero"),
        ("length", "20 ft", "cannot be"),
        ("calibrated_on", "last spring", "2026-03-14"),
        ("calibrated_on", "2026-02-30", "2026-03-14"),
    ],
)
def test_what_cannot_be_is_said_below_its_field_and_stays(
    dialog, desk, store, settle, name, typed, said
):
    made = dialog(SHORT)
    made.edit(made.list.tapes[0].wrench)
    field = made.form.fields[name]
    field.editor.setText(typed)
    made.save()
    settle(desk)
    assert said in field.wrong.text()
    assert field.editor.text() == typed
    assert field.editor.hasFocus()
    assert made.frame.isVisible()
    assert services.wrenches.all_wrenches(store)[0].name == "short"
    assert services.wrenches.all_wrenches(store)[0].high == 40


def test_a_scale_may_begin_at_zero(dialog, desk, store, settle):
    made = dialog()
    made.add()
    made.form.name.setText("beam")
    made.form.low.setText("0")
    made.form.high.setText("60")
    made.save()
    settle(desk)
    (kept,) = services.wrenches.all_wrenches(store)
    assert (kept.low, kept.high) == (0, 60)


def test_one_that_is_gone_meanwhile_is_said(dialog, desk, store, settle):
    made = dialog(SHORT)
    made.edit(made.list.tapes[0].wrench)
    services.wrenches.delete_wrench(store, made.list.tapes[0].wrench.id, who="Ben")
    made.save()
    settle(desk)
    assert "no longer in the list" in made.wrong.text()
    assert made.form.name.text() == "short"


def test_one_that_is_gone_and_is_taken_out_is_said_above_the_list(dialog, desk, store, settle):
    made = dialog(SHORT)
    services.wrenches.delete_wrench(store, made.list.tapes[0].wrench.id, who="Ben")
    press(Qt.Key.Key_Delete)
    settle(desk)
    assert "no longer in the list" in made.said.text()


def test_the_makers_manual_overrides_here_too(dialog):
    from PySide6.QtWidgets import QLabel

    made = dialog()
    assert OVERRIDE in [one.text() for one in made.findChildren(QLabel) if one.isVisible()]


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("2026-03-14", date(2026, 3, 14)),
        ("14.3.2026", date(2026, 3, 14)),
        ("14. 03. 2026", date(2026, 3, 14)),
        ("31.2.2026", None),
        ("soon", None),
        ("", None),
    ],
)
def test_a_day_as_it_is_typed(dialog, typed, read):
    wrenches = dialog()
    form = wrenches.form
    form.name.setText("long")
    form.high.setText("200")
    form.calibrated_on.setText(typed)
    made = form.wrench()
    assert (made.calibrated_on if made else None) == read
    assert (made is None) == ("is no day" in form.fields["calibrated_on"].wrong.text())
    assert (made is None) == (typed != "" and read is None)


def test_it_can_be_let_go(qtbot, desk, settle):
    made = open_wrenches(desk, None)
    settle(desk)
    seen = weakref.ref(made)
    made.close()
    qtbot.wait(1)
    del made
    assert seen() is None
