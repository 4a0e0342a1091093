"""What few lines of hardware need, in the editor: unfolded, read back the same, said when wrong."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.hardware import Adapter, HeldBy, Length, Stretch, Torque, TorqueUnit
from bagtag.ui.entry.hardware_editor import HardwareEditor
from bagtag.ui.entry.hardware_form import HardwareForm
from bagtag.ui.forms.basics import is_inside
from tests.ui.forms_kit import ENTER, TAB, furnish, press, show, write

FULL = HeldBy(
    10, "bolt", "M10x1.25", 95.0, "mm", "14 mm hex", Torque(53.0), "", "", "10.9", "",
    "flanged hexagon", "hardened", 1, "oil", True, 90.0, Stretch(0.13, 0.15),
    Torque(39.0, TorqueUnit.POUND_FOOT), Torque(2.5), Adapter(Length(50.0), 30.0), "crowfoot", "B",
)  # fmt: skip


@pytest.fixture
def editor(qtbot, store):
    made = HardwareEditor(None)
    show(qtbot, made, 820, 900)
    return made


def test_all_that_a_line_says_is_read_back_the_same(editor):
    editor.load(FULL)
    assert editor.line() == FULL


def test_the_letter_on_the_hole_map_stays_when_the_line_is_edited(qtbot, store, job_id):
    furnish(store, job_id)
    form = HardwareForm(None)
    show(qtbot, form)
    form.set_lines(
        (HeldBy(6, "bolt", "M8", 35.0, mark="A"), HeldBy(1, "bolt", "M8", 50.0, mark="B"))
    )
    form.edit(1)
    form.editor.count.setText("2")
    assert [(line.count, line.mark) for line in form.lines] == [(6, "A"), (2, "B")]


_words = st.text(st.sampled_from("abc 8.×°"), max_size=6).map(str.strip)
_figures = st.floats(0.001, 5000, allow_nan=False)
_torques = st.builds(Torque, _figures, st.sampled_from(TorqueUnit))
_lengths = st.builds(Length, _figures, st.sampled_from(("mm", "in")))
_spans = st.tuples(_figures, _figures, st.sampled_from(("mm", "in"))).map(
    lambda said: Stretch(*sorted(said[:2]), said[2])
)
_adapters = st.builds(Adapter, _lengths, st.floats(0, 180).filter(lambda angle: angle > 0.001))
_lines = st.builds(
    HeldBy,
    count=st.none() | st.integers(1, 9999), kind=_words, thread=_words,
    length=st.none() | _figures, length_unit=st.sampled_from(("mm", "in")), drive=_words,
    torque=st.none() | _torques, threadlocker=_words, note=_words, grade=_words, locking=_words,
    head=_words, washer=_words, washers=st.integers(0, 99), lubrication=_words,
    one_time=st.booleans(), angle=st.none() | st.floats(0.1, 360), stretch=st.none() | _spans,
    also=st.none() | _torques, drag=st.none() | _torques, adapter=st.none() | _adapters,
    tool=_words, mark=st.sampled_from(("", "A", "B")),
)  # fmt: skip


@given(line=_lines)
@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_no_digit_of_any_line_is_lost(editor, line):
    editor.load(line)
    assert editor.line() == line


def test_it_is_folded_away_until_something_is_filled_in(editor):
    assert editor.more.fold.isHidden()
    editor.more.press.click()
    assert editor.more.fold.isVisible()
    assert editor.more.head.hasFocus()
    editor.more.press.click()
    editor.load(HeldBy(angle=90.0))
    assert editor.more.fold.isVisible()
    editor.load(HeldBy())
    assert editor.more.fold.isHidden()


def test_filled_in_by_keyboard(editor):
    editor.torque.setFocus()
    write("40")
    editor.more.press.click()
    for line, text in (
        (editor.more.angle, "90°"), (editor.more.stretch, "0,13 - 0,15"),
        (editor.more.also, "29.5 ft-lb"), (editor.more.drag, "3"),
        (editor.more.adapter, "2 in"), (editor.more.adapter_angle, "0"),
        (editor.more.washers, "2"), (editor.more.washer, "copper"), (editor.more.tool, "pin key"),
    ):  # fmt: skip
        line.setFocus()
        write(text)
    line = editor.line()
    assert (line.angle, line.stretch) == (90.0, Stretch(0.13, 0.15))
    assert line.also == Torque(29.5, TorqueUnit.POUND_FOOT)
    assert line.drag == Torque(3.0)
    assert line.adapter == Adapter(Length(2.0, "in"))
    assert (line.washers, line.washer, line.tool) == (2, "copper", "pin key")


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("washers", "100", "99"),
        ("washers", "two", "whole number"),
        ("angle", "0", "above 0"),
        ("angle", "361", "one turn"),
        ("stretch", "0.15 to 0.13", "from below"),
        ("stretch", "a little", "0.13 to 0.15"),
        ("also", "29.5", "unit"),
        ("drag", "-2", "above zero"),
        ("adapter", "0 mm", "above zero"),
        ("adapter_angle", "181", "180"),
    ],
)
def test_a_figure_that_cannot_be_is_said_below_it(editor, name, typed, said):
    field = editor.more.fields[name]
    editor.more.open(True)
    field.editor.setText(typed)
    assert said in field.wrong.text()
    assert editor.line() is None
    assert field.editor.text() == typed
    field.editor.clear()
    assert not field.wrong.text()


def test_an_angle_without_an_adapter_asks_for_its_length(editor):
    editor.more.adapter_angle.setText("30")
    assert editor.more.fields["adapter"].wrong.text()
    assert editor.line() is None


def test_what_is_wrong_is_unfolded_when_the_line_is_done(qtbot, store, job_id):
    furnish(store, job_id)
    form = HardwareForm(None)
    show(qtbot, form)
    form.add()
    form.editor.more.open(True)
    form.editor.more.angle.setText("400")
    form.editor.more.open(False)
    form.editor.count.setFocus()
    press(ENTER)
    assert form.editor.more.angle.hasFocus()
    assert "one turn" in form.editor.fields["angle"].wrong.text()


def test_a_unit_typed_with_the_figure_is_the_unit_and_one_chosen_stands_over_it(editor):
    editor.torque.setFocus()
    write("40 ft-lb")
    assert editor.torque_unit.value is TorqueUnit.POUND_FOOT
    assert editor.line().torque == Torque(40.0, TorqueUnit.POUND_FOOT)
    editor.torque_unit.choose(TorqueUnit.NEWTON_METRE)
    assert editor.torque.text() == "40"
    assert editor.line().torque == Torque(40.0)


def test_known_threads_are_offered(editor):
    editor.thread_of.setFocus()
    write("M10x1")
    press(Qt.Key.Key_Down)
    assert editor.thread_of.text() in services.torque.threads().names()
    assert editor.thread_of.text().startswith("M10x1")


def test_all_units_and_the_sense_of_a_torque_stand_below_it(editor):
    assert editor.told.isHidden()
    editor.load(HeldBy(6, "bolt", "M8", 35.0, torque=Torque(25.0), grade="8.8", lubrication="dry"))
    assert editor.told.isVisible()
    assert editor.told.units.text() == "25 N·m = 18.4 lbf·ft = 221 lbf·in = 2.55 kgf·m"
    assert "kN" in editor.told.sense.text()
    assert "proof load" in editor.told.sense.text()
    assert editor.told.asked.sentences == ()


def test_pounds_typed_as_newton_metres_are_asked_about_and_taken_all_the_same(editor):
    """M6 8.8 takes about 10 N·m: 90 are lbf·in, read off as N·m."""
    editor.load(HeldBy(4, "bolt", "M6", 20.0, torque=Torque(90.0), grade="8.8"))
    (asked,) = editor.told.asked.sentences
    assert "lbf·in" in asked
    assert editor.told.asked.isVisible()
    assert editor.line().torque == Torque(90.0)


def test_two_printed_figures_that_do_not_agree_are_asked_about(editor):
    """A lift-truck manual prints 95 N·m as 60 lbf·ft; it is 70.1."""
    also = Torque(60.0, TorqueUnit.POUND_FOOT)
    editor.load(HeldBy(1, "nut", "M12", torque=Torque(95.0), grade="10.9", also=also))
    assert any("70.1 lbf·ft" in sentence for sentence in editor.told.asked.sentences)


def test_every_caution_stands_where_a_torque_is_typed(editor):
    from PySide6.QtWidgets import QLabel

    said = " ".join(one.text() for one in editor.findChildren(QLabel) if one.isVisible())
    assert all(caution in said for caution in TORQUE_CAUTIONS)


def test_what_is_written_as_on_tape_is_asked_about_too(qtbot, store, job_id):
    furnish(store, job_id)
    form = HardwareForm(None)
    form.set_reader(services.tape.reader(store, job_id))
    show(qtbot, form)
    form.setFocus()
    write("4 bolts M6x20, 8.8, 90 Nm")
    (asked,) = form.asked.sentences
    assert "lbf·in" in asked
    press(ENTER)
    assert form.lines[0].torque == Torque(90.0)
    assert form.asked.isHidden()


def test_a_long_line_is_shown_to_its_end(qtbot):
    form = HardwareForm(None)
    form.set_lines((FULL,))
    show(qtbot, form, 420, 400)
    slip = form.rows.slip(0)
    assert slip.width() <= form.width()
    assert slip.height() >= slip.heightForWidth(slip.width()) > 2 * 44


def test_tab_goes_through_the_line_then_its_acts_then_what_stands_below(card, qtbot):
    form = card.fields.hardware
    form.add()
    editor = form.editor
    editor.unit.choose("in")
    editor.torque_unit.choose(TorqueUnit.KILOGRAM_METRE)
    seen = []
    for _ in range(40):
        seen.append(QApplication.focusWidget())
        press(TAB)
    names = [one.accessibleName() for one in seen]
    fields = [
        editor.count,
        editor.kind,
        editor.thread_of,
        editor.length,
        editor.torque,
        editor.note,
    ]
    places = [seen.index(one) for one in fields]
    assert places == sorted(places)
    acts = ["Done with this line", "Leave this line as it was", "Take this line out"]
    first = names.index(acts[0])
    assert seen[first - 1] is editor.more.press
    assert names[first : first + 3] == acts
    assert is_inside(seen[first + 3], card.fields)
    assert not is_inside(seen[first + 3], form)
