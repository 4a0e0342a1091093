"""The entry of one removal, by keyboard alone, with every wrong input said beside its field."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from bagtag import services
from bagtag.domain.datum import Side
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Faces, Hand, Place
from bagtag.ui.entry.entry_draft import Draft
from tests.ui.forms_kit import (
    CONTROL,
    ENTER,
    TAB,
    press,
    removals,
    write,
)


def said(card) -> list[str]:
    """Every sentence that stands beside a field."""
    fields = [*card.head.fields.values(), *card.fields.fields.values()]
    fields.append(card.fields.hardware.tape_field)
    return [field.wrong.text() for field in fields if field.wrong.isVisible()]


def test_name_and_enter_log_it(qtbot, card, desk, settle, store, job_id):
    with qtbot.waitSignal(card.logged) as logged:
        write("main shaft")
        press(ENTER)
    last = removals(store, job_id)[-1]
    assert (last.id, last.number, last.name, last.quantity) == (*logged.args, "4", "main shaft", 1)
    assert last.logged_by == "Ada"
    settle(desk)
    assert card.draft == Draft()
    assert QApplication.focusWidget() is card.head.name


def test_a_whole_removal_by_keyboard_alone(card, desk, settle, store, job_id, ids):
    write("shift fork R")
    go_to(card.head.quantity)  # past what its kind asks
    press(Qt.Key.Key_Up)
    press(TAB)  # which way
    press(Qt.Key.Key_H)
    press(Qt.Key.Key_2)
    press(ENTER)
    press(Qt.Key.Key_F)
    write("C")
    press(ENTER)
    press(Qt.Key.Key_2)
    press(ENTER)
    press(Qt.Key.Key_P)
    write("2")
    press(TAB)
    write("3")
    press(TAB)
    press(Qt.Key.Key_1)
    press(ENTER)
    go_to(card.fields.area)
    write("gear")
    press(Qt.Key.Key_Down)
    press(TAB)
    write("bag 14")
    press(TAB)
    write("2 bolts M6x30, 8 mm hex, 10 Nm")
    press(ENTER)
    go_to(card.fields.fate)
    press(Qt.Key.Key_3)
    press(TAB)
    write("pads worn")
    press(TAB)
    write("engine oil")
    press(TAB)
    write("measure the pads")
    press(ENTER, CONTROL)
    settle(desk)
    last = removals(store, job_id)[-1]
    assert (last.name, last.quantity, last.area_id) == ("shift fork R", 2, ids["gearbox"])
    assert last.which_way == (Hand("R", True), Faces("C", Side.RIGHT), Place(2, 3, Side.LEFT))
    assert last.held_by == (HeldBy(2, "bolt", "M6", 30.0, "mm", "8 mm hex", Torque(10.0)),)
    assert (last.fate, last.condition) == (Fate.DECIDE, "pads worn")
    assert (last.goes_on, last.note) == ("engine oil", "measure the pads")
    assert services.containers.get_container(store, last.container_id).label == "bag 14"


def go_to(field: QWidget) -> None:
    """Tab until the focus is there: everything can be reached."""
    wanted = field.focusProxy() or field
    for _ in range(40):
        if QApplication.focusWidget() is wanted:
            return
        press(TAB)
    pytest.fail(f"Tab never comes to {field.accessibleName()}")


@pytest.mark.parametrize("lines", [(), (HeldBy(4, "bolt", "M6", 30.0), HeldBy(1, "circlip"))])
def test_tab_goes_through_all_of_it_and_comes_back(card, lines):
    card.fields.hardware.set_lines(lines)
    card.head.name.setFocus()
    seen = []
    for _ in range(60):
        seen.append(QApplication.focusWidget())
        press(TAB)
        if QApplication.focusWidget() is card.head.name:
            break
    assert QApplication.focusWidget() is card.head.name
    order = [
        card.head.name, card.head.quantity, card.fields.which_way._buttons["F"],
        card.fields.area, card.fields.container, card.fields.hardware.tape,
        *(card.fields.hardware.rows.slip(place) for place in range(len(lines))),
        card.fields.fate.focusProxy(), card.fields.condition.line, card.fields.goes_on.line,
        card.fields.note, card.fields.photos.acts.choose, card.acts.log, card.head.shut,
    ]  # fmt: skip
    assert [seen.index(widget) for widget in order] == sorted(map(seen.index, order))


def test_the_acts_stay_in_sight_on_a_small_screen(card, qtbot):
    card.resize(600, 400)
    card.fields.which_way.add("F")
    for press_ in (card.acts.log, card.acts.again, card.acts.forgotten):
        at = press_.mapTo(card, press_.rect().bottomRight())
        assert card.rect().contains(at)
    feature = card.fields.which_way.editor.feature.line
    qtbot.waitUntil(lambda: not feature.visibleRegion().isEmpty())


def test_no_name_is_said_beside_it(card, desk, settle, store, job_id):
    press(ENTER)
    settle(desk)
    assert "name" in card.head.fields["name"].wrong.text()
    assert len(removals(store, job_id)) == 3


@pytest.mark.parametrize("typed", ["0", "-1", "ten", "", "12345", "1.5"])
def test_a_quantity_that_is_none_is_said_beside_it(card, desk, settle, store, job_id, typed):
    write("washer")
    card.head.quantity.setText(typed)
    press(ENTER)
    settle(desk)
    assert said(card) == [card.head.fields["quantity"].wrong.text()]
    assert card.head.quantity.text() == typed
    assert card.head.name.text() == "washer"
    assert len(removals(store, job_id)) == 3


def test_an_area_the_job_does_not_have_is_said_beside_it(card, desk, settle, store, job_id):
    write("washer")
    card.fields.area.setText("clutch")
    press(ENTER)
    settle(desk)
    assert "no area clutch" in card.fields.area_field.wrong.text()
    assert len(removals(store, job_id)) == 3


def test_what_names_no_container_is_said_beside_it_and_nothing_is_lost(card, desk, settle):
    write("washer")
    card.fields.container.setText("box 3")
    card.fields.note.setPlainText("thin")
    before = card.draft
    press(ENTER)
    settle(desk)
    assert "bag 12" in card.fields.container_field.wrong.text()
    assert card.draft == before
    card.fields.container.setText("bag 3")
    press(ENTER)
    settle(desk)
    assert card.draft == Draft()


@pytest.mark.parametrize(("name", "field"), [("condition", "condition"), ("goes_on", "goes_on")])
def test_too_long_a_text_is_said_beside_it(card, desk, settle, name, field):
    write("washer")
    getattr(card.fields, name).set_text("x" * 600)
    press(ENTER)
    settle(desk)
    assert "600" in card.fields.fields[field].wrong.text()


def test_a_fact_half_filled_in_is_not_left_behind(card, desk, settle, store, job_id):
    write("seal")
    card.fields.which_way.add("F")
    write("lip")
    card.acts.log.click()
    settle(desk)
    assert card.fields.wrong_way.isVisible()
    assert len(removals(store, job_id)) == 3
    card.fields.which_way.editor.toward.choose(Side.RIGHT)
    card.acts.log.click()
    settle(desk)
    assert removals(store, job_id)[-1].which_way == (Faces("lip", Side.RIGHT),)


def test_hardware_still_in_its_line_is_logged_too(card, desk, settle, store, job_id):
    write("lid")
    card.fields.hardware.tape.setText("4 x M6x30")
    card.acts.log.click()
    settle(desk)
    assert removals(store, job_id)[-1].held_by == (HeldBy(4, "fastener", "M6", 30.0),)


def test_hardware_that_cannot_be_read_is_said_and_stays(card, desk, settle, store, job_id):
    write("lid")
    card.fields.hardware.tape.setText("the usual")
    card.acts.log.click()
    settle(desk)
    assert said(card) == [card.fields.hardware.tape_field.wrong.text()]
    assert card.fields.hardware.tape.text() == "the usual"
    assert len(removals(store, job_id)) == 3


def test_fate_from_anywhere(card):
    write("gasket")
    press(Qt.Key.Key_2, CONTROL)
    assert card.draft.fate is Fate.RENEW
    press(Qt.Key.Key_4, CONTROL)
    assert card.draft.fate is Fate.SCRAP


def test_what_was_wrong_is_no_longer_said_once_it_is_put_right(card, desk, settle):
    press(ENTER)
    settle(desk)
    assert len(said(card)) == 1
    write("w")
    assert said(card) == []
