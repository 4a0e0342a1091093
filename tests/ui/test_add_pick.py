"""Choosing steps: a number or a word narrows them, arrows walk them, Enter takes one."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester, QTest
from PySide6.QtWidgets import QWidget

from bagtag.domain.fitting import part
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.forms.pick_list import PickList
from bagtag.ui.forms.pick_model import PickModel, PickRow
from bagtag.ui.forms.pick_several import PickSeveral
from tests.ui.add_kit import DOWN, ENTER, ESC, UP, press, write

NAMES = ("1 cover", "14 gasket", "140 gear", "2 M14 nut", "3 shift fork L", "3a shift fork R")
ROWS = [PickRow(part(n), name, "gearbox") for n, name in enumerate(NAMES)]


@pytest.fixture
def room(qtbot):
    """A picker's surroundings; what it leaves over of the keys ends here."""
    made = QWidget()
    qtbot.addWidget(made)
    made.resize(500, 400)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


@pytest.fixture
def picker(room):
    made = PickLine("Which step", "step", room)
    made.set_rows(ROWS)
    made.show()
    made.resize(460, 300)
    made.setFocus()
    return made


@pytest.fixture
def several(room):
    made = PickSeveral("Pieces", room)
    made.set_rows(ROWS)
    made.show()
    made.resize(460, 400)
    made.setFocus()
    return made


def found(picker) -> list[str]:
    model = picker.list.rows
    return [model.row_at(at).text for at in range(model.rowCount())]


def test_a_number_leads_to_its_step_and_keeps_the_order_of_the_plan(picker) -> None:
    write("14")
    assert found(picker) == ["14 gasket", "140 gear", "2 M14 nut"]
    assert picker.list.here.text == "14 gasket"
    press(ENTER)
    assert picker.value == part(1)
    assert picker.line.text() == "14 gasket"
    assert picker.list.isHidden()


def test_words_in_any_order_narrow_and_arrows_walk(picker) -> None:
    write("fork shift")
    assert found(picker) == ["3 shift fork L", "3a shift fork R"]
    press(DOWN)
    press(DOWN)
    assert picker.list.here.text == "3a shift fork R"
    press(UP)
    press(ENTER)
    assert picker.value == part(4)


def test_arrows_alone_open_the_list_where_what_is_likely_lies(picker) -> None:
    picker.near = part(3)
    press(DOWN)
    assert picker.list.here.text == "2 M14 nut"
    press(Qt.Key.Key_PageUp)
    assert picker.list.here.text == "1 cover"
    press(ENTER)
    assert picker.value == part(0)


def test_escape_puts_back_what_was_chosen(picker) -> None:
    picker.set_value(part(2))
    picker.line.selectAll()
    write("cov")
    press(ESC)
    assert picker.value == part(2)
    assert picker.line.text() == "140 gear"


def test_a_click_takes_a_row(picker, qtbot) -> None:
    write("fork")
    rect = picker.list.visualRect(picker.list.rows.index(1))
    QTest.mouseClick(picker.list.viewport(), Qt.MouseButton.LeftButton, pos=rect.center())
    assert picker.value == part(5)
    assert picker.line.hasFocus()


def test_what_none_answers_to_is_said_and_stays_typed(picker) -> None:
    write("crank")
    press(ENTER)
    assert picker.value is None
    assert "No step answers to crank" in picker.field.wrong.text()
    assert picker.line.text() == "crank"
    assert not picker.settle()


def test_a_word_that_several_have_is_not_guessed_on_leaving(picker) -> None:
    write("fork")
    picker.line.clearFocus()
    assert picker.value is None
    assert not picker.settle()
    assert picker.field.wrong.text() == "Choose the step: arrows, then Enter."


def test_the_very_number_or_name_is_taken_on_leaving(picker) -> None:
    write("3")
    picker.line.clearFocus()
    assert picker.value == part(4)
    assert picker.settle()


def test_an_emptied_line_is_none(picker) -> None:
    picker.set_value(part(2))
    picker.line.clear()
    assert picker.settle()
    assert picker.value is None


def test_what_is_typed_before_the_rows_are_there_counts(room) -> None:
    made = PickLine("Which step", "step", room)
    made.show()
    made.setFocus()
    write("14")
    press(ENTER)
    assert made.value is None
    made.set_rows(ROWS)
    assert made.value == part(1)


def test_enter_and_escape_are_left_to_the_form_when_nothing_is_being_chosen(picker, room) -> None:
    picker.set_value(part(1))
    got = []
    room.keyPressEvent = lambda event: got.append(event.key())
    press(ENTER)
    press(ESC)
    assert got == [ENTER, ESC]


def test_several_are_ticked_by_number_one_after_the_other(several) -> None:
    for number in ("14", "3a"):
        write(number)
        press(ENTER)
    assert several.values == [part(1), part(5)]
    assert several.line.text() == ""
    assert several.chosen.slip(1).text() == "3a shift fork R"


def test_space_ticks_where_the_arrows_are_and_unticks(several) -> None:
    press(DOWN, 2)
    press(Qt.Key.Key_Space)
    press(DOWN)
    press(Qt.Key.Key_Space)
    assert several.values == [part(1), part(2)]
    press(Qt.Key.Key_Space)
    assert several.values == [part(1)]


def test_a_space_between_words_is_typed(several) -> None:
    write("shift fork R")
    press(ENTER)
    assert several.values == [part(5)]


def test_a_slip_is_taken_out_by_delete(several) -> None:
    several.set_values([part(1), part(2)])
    several.chosen.slip(0).setFocus()
    press(Qt.Key.Key_Delete)
    assert several.values == [part(2)]


def test_what_was_chosen_and_is_gone_is_let_go(several) -> None:
    several.set_values([part(1), part(99)])
    several.set_rows(ROWS)
    assert several.values == [part(1)]


def test_something_typed_and_not_ticked_is_said(several) -> None:
    write("fork")
    assert not several.settle()
    assert several.field.wrong.text()
    press(ESC)
    assert several.settle()


def test_the_model_keeps_its_contract(qtbot) -> None:
    host = QWidget()
    qtbot.addWidget(host)
    model = PickModel(host)
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Warning)
    model.set_rows(ROWS)
    model.narrow("fork")
    model.tick(part(4))
    assert model.data(model.index(0)) == "3 shift fork L, gearbox, chosen"
    model.narrow("nothing at all")
    assert tester.model() is model


def test_ten_thousand_steps_ask_only_for_the_rows_in_sight(qtbot) -> None:
    """The list must not measure or paint what nobody sees."""
    host = QWidget()
    qtbot.addWidget(host)
    asked = []

    class Counted(PickModel):
        def row_at(self, at):
            asked.append(at)
            return super().row_at(at)

    made = PickList("Steps", host)
    made.rows = Counted(made)
    made.setModel(made.rows)
    made.rows.set_rows([PickRow(part(n), f"{n} washer") for n in range(10_000)])
    made.resize(400, 200)
    host.resize(420, 240)
    host.show()
    made.go_to(made.rows.narrow("9876"))
    host.grab()
    assert made.here.text == "9876 washer"
    assert len(set(asked)) < 50
