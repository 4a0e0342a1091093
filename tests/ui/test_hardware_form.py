"""What held it: a line as on tape or field by field, nothing lost and the override always there."""

import weakref

import pytest
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.hardware import OVERRIDE, HeldBy, Torque, TorqueUnit
from bagtag.ui.entry.hardware_form import HardwareForm
from tests.ui.forms_kit import ENTER, ESC, furnish, press, show, write


@pytest.fixture
def form(qtbot, store, job_id):
    furnish(store, job_id)
    made = HardwareForm(None)
    made.set_reader(services.tape.reader(store, job_id))
    show(qtbot, made)
    made.setFocus()
    return made


def test_a_line_as_on_tape(form):
    write("4 bolts M6x30, 8 mm hex, 10 Nm, medium strength threadlocker")
    assert form.heard.text() == "4 bolts M6x30, 8 mm hex, 10 N·m, threadlocker medium strength"
    press(ENTER)
    assert form.lines == (
        HeldBy(4, "bolt", "M6", 30.0, "mm", "8 mm hex", Torque(10.0), "medium strength"),
    )
    assert form.tape.text() == ""


def test_two_lines_at_once(form):
    write("4 x M8x35, 25 Nm, 2 x M6x20, 10 Nm")
    press(ENTER)
    assert [line.size() for line in form.lines] == ["M8x35", "M6x20"]
    assert [str(line.torque) for line in form.lines] == ["25 N·m", "10 N·m"]


def test_a_word_that_is_not_read_stays_with_the_line(form):
    write("2 x M6x30, the long ones at the bottom")
    press(ENTER)
    assert form.lines[0].note == "the long ones at the bottom"


def test_what_holds_nothing_is_said_and_stays(form):
    write("something odd")
    press(ENTER)
    assert form.lines == ()
    assert form.tape.text() == "something odd"
    assert "4 x M6x30" in form.tape_field.wrong.text()


def test_field_by_field(form):
    form.by_fields.click()
    editor = form.editor
    for line, text in (
        (editor.count, "6"), (editor.kind, "screw"), (editor.thread_of, "5/16-18"),
        (editor.length, "1 1/4"), (editor.drive, "slot"), (editor.torque, "18"),
        (editor.threadlocker, "low strength"), (editor.note, "then 90°"),
    ):  # fmt: skip
        line.setText(text)
    editor.unit.choose("in")
    editor.torque_unit.choose(TorqueUnit.POUND_FOOT)
    editor.note.setFocus()
    press(ENTER)
    torque = Torque(18.0, TorqueUnit.POUND_FOOT)
    line = HeldBy(6, "screw", "5/16-18", 1.25, "in", "slot", torque, "low strength", "then 90°")
    assert form.lines == (line,)
    assert not form.frame.isVisible()


def test_a_torque_that_is_none_is_said_beside_it(form):
    form.add()
    form.editor.torque.setText("tight")
    form.editor.torque.setFocus()
    press(ENTER)
    assert "above zero" in form.editor.fields["torque"].wrong.text()
    assert form.frame.isVisible()
    assert not form.is_whole()
    assert form.editor.torque.text() == "tight"


@pytest.mark.parametrize("typed", ["0", "-1", "1.5", "many"])
def test_a_count_that_is_none_is_said(form, typed):
    form.add()
    form.editor.count.setText(typed)
    assert form.editor.line() is None
    assert form.editor.fields["count"].wrong.text()


def test_what_nobody_has_counted_graded_and_locked(form):
    form.add()
    form.editor.count.setText("")
    form.editor.grade.setText("8.8")
    form.editor.locking.setFocus()
    write("st")
    press(Qt.Key.Key_Down)
    press(ENTER)
    assert form.lines == (HeldBy(None, "bolt", grade="8.8", locking="staked"),)
    form.edit(0)
    assert (form.editor.count.text(), form.editor.grade.text()) == ("", "8.8")
    assert form.editor.locking.text() == "staked"


def test_a_slip_opens_and_escape_leaves_it_as_it_was(form):
    before = (HeldBy(4, "bolt", "M6", 30.0),)
    form.set_lines(before)
    form.rows.slip(0).setFocus()
    press(ENTER)
    form.editor.count.setText("5")
    assert form.lines[0].count == 5
    form.editor.count.setFocus()
    press(ESC)
    assert form.lines == before


def test_tab_comes_from_the_tape_line_over_the_slips_to_the_fields(form):
    """The card goes on after them; it must not go round between them and what is before."""
    form.set_lines((HeldBy(4, "bolt", "M6", 30.0), HeldBy(1, "circlip")))
    slips = [form.rows.slip(place) for place in range(2)]
    form.tape.setFocus()
    for wanted in (*slips, form.by_fields):
        press(Qt.Key.Key_Tab)
        assert wanted.hasFocus()


def test_a_slip_goes_with_delete(form):
    form.set_lines((HeldBy(4, "bolt", "M6", 30.0), HeldBy(1, "circlip")))
    form.rows.slip(0).setFocus()
    press(Qt.Key.Key_Delete)
    assert form.lines == (HeldBy(1, "circlip"),)


def test_down_takes_a_word_that_goes_with_what_is_typed(form):
    form.add()
    form.editor.kind.clear()
    form.editor.kind.setFocus()
    write("st")
    press(Qt.Key.Key_Down)
    assert form.editor.kind.text() == "stud"


def test_the_makers_manual_overrides_wherever_a_torque_can_be_typed(form):
    said = [label.text() for label in form.findChildren(type(form.override)) if label.isVisible()]
    assert OVERRIDE in said
    form.add()
    said = [label.text() for label in form.findChildren(type(form.override)) if label.isVisible()]
    assert OVERRIDE in said


def test_it_can_be_let_go(qtbot, qapp):
    made = HardwareForm(None)
    made.add()
    seen = weakref.ref(made)
    made.deleteLater()
    qtbot.wait(1)
    del made
    assert seen() is None
