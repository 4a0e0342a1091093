"""Which way: every kind of fact by keys alone, drawn and said at once, and what contradicts."""

import weakref

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from bagtag.domain.datum import Side
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)
from bagtag.ui.entry.clock_face import ClockFace, hour_at, turned
from bagtag.ui.entry.fact_clocking import hour_of, written
from bagtag.ui.entry.which_way_form import WhichWayForm
from bagtag.ui.forms.figures import figure
from tests.ui.forms_kit import ALT, DATUM, ENTER, ESC, TAB, press, show, write


@pytest.fixture
def form(qtbot, desk):
    made = WhichWayForm(desk)
    made.set_datum(DATUM)
    show(qtbot, made)
    made.setFocus()
    return made


def test_faces_by_keys_alone(form):
    press(Qt.Key.Key_F)
    write("OUT")
    press(ENTER)  # to the direction, which is still missing
    press(Qt.Key.Key_2)
    press(ENTER)
    assert form.facts == (Faces("OUT", Side.RIGHT),)
    assert form.view.words.text() == "OUT faces the clutch side."
    assert form.editor is None


def test_the_picture_and_the_sentence_follow_every_key(form):
    press(Qt.Key.Key_F)
    write("lip")
    assert form.view.picture.picture.items == ()
    press(TAB)
    press(Qt.Key.Key_8)
    assert form.facts == (Faces("lip", Outness.INWARD),)
    assert form.view.picture.picture.items
    assert form.view.words.text() == "The lip faces inward."
    press(Qt.Key.Key_7)
    assert form.view.words.text() == "The lip faces outward."


def test_faces_another_part(form):
    press(Qt.Key.Key_F)
    write("chamfer")
    press(ENTER)
    press(Qt.Key.Key_9)
    assert form.facts == ()
    press(ENTER)  # to which part it is
    write("gear 3")
    press(ENTER)
    assert form.facts == (Faces("chamfer", OtherPart("gear 3")),)


@pytest.mark.parametrize(
    ("key", "fact"),
    [("1", Hand("L", True)), ("2", Hand("R", True)), ("3", Hand("L")), ("4", Hand("R"))],
)
def test_hand_is_two_keys(form, key, fact):
    press(Qt.Key.Key_H)
    write(key)
    press(ENTER)
    assert form.facts == (fact,)


def test_place_in_a_row(form):
    press(Qt.Key.Key_P)
    write("2")
    press(TAB)
    write("3")
    press(TAB)
    write("1")
    press(ENTER)
    assert form.facts == (Place(2, 3, Side.LEFT),)
    assert form.view.words.text() == "2nd of 3, counted from the flywheel side."


def test_place_of_a_cylinder_and_of_a_hole(form):
    form.add("P")
    form.editor.index.setText("14")
    form.editor.what.set_text("hole")
    press(ENTER)
    assert form.facts == (Place(14, what="hole"),)


def test_a_number_that_is_none_is_said_beside_it(form):
    press(Qt.Key.Key_P)
    write("two")
    press(ENTER)
    assert form.facts == ()
    assert form.editor is not None
    assert "whole number" in form.editor._index_field.wrong.text()


def test_clocking_typed(form):
    press(Qt.Key.Key_C)
    write("gap")
    press(ENTER)
    write("4:30")
    press(ENTER)
    assert form.facts == (Clocking("gap", 4.5),)


def test_clocking_in_the_notch(form):
    press(Qt.Key.Key_C)
    write("tab")
    form.editor.target.setText("in the notch")
    form.editor.seen_from.choose(Side.RIGHT)
    press(ENTER)
    assert form.facts == (Clocking("tab", None, "in the notch", Side.RIGHT),)


def test_clocking_by_a_click_on_the_face(form):
    form.add("C")
    form.editor.feature.set_text("gap")
    face = form.editor.face
    at_three = QPoint(face.width() - 30, face.height() // 2)
    QTest.mouseClick(face, Qt.MouseButton.LeftButton, pos=at_three)
    assert form.facts == (Clocking("gap", 3.0),)


def test_the_face_turns_by_arrows(qtbot, form):
    face = ClockFace(form)
    face.set_hour(12.0)
    QTest.keyClick(face, Qt.Key.Key_Right)
    assert face.hour == 12.5
    QTest.keyClick(face, Qt.Key.Key_Right)
    assert face.hour == 1.0
    QTest.keyClick(face, Qt.Key.Key_Left)
    QTest.keyClick(face, Qt.Key.Key_Left)
    assert face.hour == 12.0


@pytest.mark.parametrize(
    ("across", "down", "hour"),
    [(0, -50, 12), (50, 0, 3), (0, 50, 6), (-50, 0, 9), (13, -49, 12.5), (35, 35, 4.5)],
)
def test_hours_lie_where_they_lie_on_a_clock(across, down, hour):
    assert hour_at(across, down) == hour


@given(st.integers(2, 25))
def test_every_half_hour_is_read_as_it_is_written(halves):
    hour = halves / 2
    assert hour_of(written(hour)) == hour
    assert turned(turned(hour, 0.5), -0.5) == hour


@pytest.mark.parametrize("typed", ["", "0", "13", "4:15", "four", "12:60", "-3"])
def test_what_is_no_hour_is_none(typed):
    assert hour_of(typed) is None


def test_seat_with_its_depth(form):
    press(Qt.Key.Key_S)
    press(Qt.Key.Key_2)
    form.editor.how_far.setFocus()
    write("0,5")
    press(ENTER)
    assert form.facts == (Seat(SeatKind.PROUD, 0.5),)


def test_seat_without_a_depth(form):
    press(Qt.Key.Key_S)
    press(Qt.Key.Key_5)
    press(ENTER)
    assert form.facts == (Seat(SeatKind.SHOULDER),)


def test_a_depth_that_is_none_keeps_the_editor_open(form):
    press(Qt.Key.Key_S)
    press(Qt.Key.Key_3)
    form.editor.how_far.setText("deep")
    press(ENTER)
    assert form.editor is not None
    assert form.half_done


def test_match_mark(form):
    press(Qt.Key.Key_M)
    write("two punch dots")
    press(TAB)
    write("crank gear")
    press(ENTER)
    assert form.facts == (MatchMark("two punch dots", "crank gear"),)


def test_the_same_way_as_another_part(form):
    press(Qt.Key.Key_W)
    press(ENTER)  # nothing is named yet
    assert form.facts == ()
    write("the other fork")
    press(TAB)
    press(Qt.Key.Key_2)
    press(ENTER)
    assert form.facts == (SameWay(OtherPart("the other fork"), True),)
    assert form.editor is None


def test_there_is_none_of_something(form):
    press(Qt.Key.Key_N)
    write("match mark")
    press(ENTER)
    assert form.facts == (Without("match mark"),)


def test_it_goes_either_way_round(form):
    press(Qt.Key.Key_N)
    press(ENTER)
    assert form.facts == (Without(),)
    form.edit(0)
    form.leave()
    assert form.facts == (Without(),)
    press(Qt.Key.Key_N)
    press(ESC)
    assert form.facts == (Without(),)


@pytest.mark.parametrize(
    "fact",
    [
        Faces("lip", Outness.INWARD), Faces("C", OtherPart("gear 3", "uid")), Hand("R", True),
        Place(2, 3, Side.LEFT, "cylinder"), Clocking("gap", 4.5, "", Side.RIGHT),
        Seat(SeatKind.PROUD, 0.5), MatchMark("paint line", "rod"), Without("lip"),
        SameWay(OtherPart("fork", "uid"), True),
    ],
)  # fmt: skip
def test_a_fact_that_is_opened_and_shut_is_the_same(form, fact):
    form.set_facts([fact])
    form.edit(0)
    form.editor.edited.emit()
    form.finish()
    assert form.facts == (fact,)


def test_the_side_it_sat_on_says_which_side_outward_is(form):
    form.set_facts([Faces("lip", Outness.OUTWARD), Faces("lip", Side.LEFT)])
    form.set_side(Side.RIGHT)
    assert "clutch side" in form.view.words.text()
    assert "clutch side" in form.view.wrong.text()


def test_a_word_can_be_clicked(form):
    form.add("F")
    chip = form.editor.feature.words.findChildren(type(form.editor.feature.words.children()[1]))[1]
    QTest.mouseClick(chip, Qt.MouseButton.LeftButton)
    assert form.editor.feature.text == "sealed side"


def test_escape_leaves_the_fact_as_it_was(form):
    form.set_facts([Hand("L")])
    form.edit(0)
    press(Qt.Key.Key_2)
    assert form.facts == (Hand("R", True),)
    press(ESC)
    assert form.facts == (Hand("L"),)
    assert form.editor is None


def test_a_fact_emptied_while_it_is_changed_is_not_lost(form):
    form.set_facts([MatchMark("paint line")])
    form.edit(0)
    form.editor.mark.set_text("")
    form.finish()
    assert form.facts == (MatchMark("paint line"),)


def test_a_slip_opens_with_enter_and_goes_with_delete(form):
    form.set_facts([Hand("L"), Seat(SeatKind.FLUSH)])
    form.rows.slip(1).setFocus()
    press(ENTER)
    press(Qt.Key.Key_4)
    press(ENTER)
    assert form.facts == (Hand("L"), Seat(SeatKind.BOTTOMED))
    form.rows.slip(0).setFocus()
    press(Qt.Key.Key_Delete)
    assert form.facts == (Seat(SeatKind.BOTTOMED),)


def test_the_open_fact_can_be_taken_out(form):
    form.set_facts([Hand("L"), Seat(SeatKind.FLUSH)])
    form.edit(0)
    form._acts[2].click()
    assert form.facts == (Seat(SeatKind.FLUSH),)


def test_alt_and_the_letter_from_anywhere(form):
    form.add("F")
    press(Qt.Key.Key_H, ALT)
    press(Qt.Key.Key_1)
    assert form.facts == (Hand("L", True),)


def test_letters_in_a_field_are_letters(form):
    press(Qt.Key.Key_F)
    write("hpcsmf")
    assert form.editor.feature.text == "hpcsmf"


def test_what_cannot_be_true_is_said_as_it_is_typed(form):
    form.set_facts([Hand("L", True)])
    assert not form.view.wrong.isVisible()
    form.add("H")
    press(Qt.Key.Key_2)
    assert "L and R" in form.view.wrong.text()
    assert form.view.wrong.isVisible()


def test_the_sides_have_the_machines_own_names(form):
    form.add("F")
    named = [choice.text() for choice in form.editor.toward._choices[:3]]
    assert named == ["flywheel side", "clutch side", "front"]


def test_arrows_go_from_choice_to_choice(form):
    press(Qt.Key.Key_H)
    press(Qt.Key.Key_1)
    press(Qt.Key.Key_Right)
    assert form.facts == (Hand("R", True),)
    press(Qt.Key.Key_Down)
    assert form.facts == (Hand("R"),)


def test_a_block_of_choices_is_one_stop_for_tab(form):
    press(Qt.Key.Key_F)
    write("arrow")
    press(TAB)
    press(Qt.Key.Key_5)
    press(TAB)
    assert QApplication.focusWidget().accessibleName() == "Done with this fact"


@pytest.mark.parametrize(
    ("typed", "value"),
    [("0.5", 0.5), ("0,5", 0.5), ("1/2", 0.5), ("1 1/4", 1.25), ("1-1/4", 1.25), ("30", 30)],
)
def test_figures_as_people_write_them(typed, value):
    assert figure(typed) == value


@pytest.mark.parametrize("typed", ["", "x", "0", "-1", "nan", "inf", "1/0", "0/2"])
def test_what_is_no_figure_is_none(typed):
    assert figure(typed) is None


def test_every_control_has_a_name(form):
    for key in "FHPCSMWN":
        form.add(key)
        nameless = [
            widget
            for widget in form.findChildren(QWidget)
            if widget.focusPolicy() != Qt.FocusPolicy.NoFocus
            and widget.focusProxy() is None
            and not widget.accessibleName()
        ]
        assert nameless == []


def test_it_can_be_let_go(qtbot, desk):
    made = WhichWayForm(desk)
    made.add("C")
    made.finish()
    seen = weakref.ref(made)
    made.close()
    made.deleteLater()
    qtbot.wait(1)
    del made
    assert seen() is None
