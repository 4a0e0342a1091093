"""What fills an entry beside typing: tape, the last one, pictures; and where it goes in."""

import weakref

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent, QGuiApplication, QImage
from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.datum import Side
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Place
from bagtag.ui.entry.entry_card import EntryCard
from bagtag.ui.entry.entry_draft import Draft
from bagtag.ui.theme import DARK, LIGHT, Theme
from tests.ui.forms_kit import (
    ALT,
    CONTROL,
    ENTER,
    ESC,
    picture,
    press,
    removals,
    settings,
    show,
    write,
)


def test_as_the_last_one(card, desk, settle):
    write("shift fork R")
    press(Qt.Key.Key_D, CONTROL)
    settle(desk)
    assert card.draft == Draft(
        "shift fork R", area="lower case > gearbox", container="bag 12", fate=Fate.DECIDE,
        goes_on="engine oil",
    )  # fmt: skip


def test_as_the_last_one_writes_nothing_over(card, desk, settle):
    card.fields.container.setText("tray 3")
    card.acts.again.click()
    settle(desk)
    assert card.draft.container == "tray 3"
    assert card.draft.area == "lower case > gearbox"


def test_as_the_last_one_in_an_empty_log(qtbot, desk, job_id, settle, tmp_path):
    made = EntryCard(desk, settings=settings(tmp_path))
    show(qtbot, made)
    made.start_new()
    settle(desk)
    press(Qt.Key.Key_D, CONTROL)
    settle(desk)
    assert "no entry yet" in made.acts.said.text()


def test_one_forgotten_goes_in_before_a_line_found_by_name(card, desk, settle, store, job_id):
    write("detent spring")
    card.acts.forgotten.click()
    write("fork")
    settle(desk)
    press(ENTER)
    settle(desk)
    assert card.acts.before.text() == "Goes in before 3 shift fork L."
    press(ENTER)
    settle(desk)
    names = [(removal.number, removal.name) for removal in removals(store, job_id)]
    assert names == [
        ("1", "cover, clutch side"), ("2", "shift drum"), ("2a", "detent spring"),
        ("3", "shift fork L"),
    ]  # fmt: skip
    assert not card.acts.before.isVisible()


def test_one_forgotten_before_the_one_shown(card, desk, settle, store, job_id, ids):
    card.open(ids["shift drum"])
    settle(desk)
    card.acts.forgotten.click()
    settle(desk)
    assert card.acts.before.text() == "Goes in before 2 shift drum."
    write("washer")
    press(ENTER)
    settle(desk)
    assert [r.number for r in removals(store, job_id)] == ["1", "1a", "2", "3"]


def test_a_line_that_is_not_there_is_said(card, desk, settle):
    card.acts.forgotten.click()
    write("flux capacitor")
    settle(desk)
    assert "flux capacitor" in card.acts.picker.field.wrong.text()
    press(ESC)
    assert not card.acts.picker.isVisible()


def test_a_line_is_found_by_its_number_and_with_the_arrows(card, desk, settle):
    card.acts.forgotten.click()
    write("2")
    settle(desk)
    press(Qt.Key.Key_Down)
    press(ENTER)
    settle(desk)
    assert card.acts.before.text() == "Goes in before 2 shift drum."


def test_a_tape_line_fills_the_fields(card, desk, settle, store, job_id, ids):
    reader = services.tape.reader(store, job_id)
    line = "shift fork R, 2nd of 3 from flywheel, bag 12, gearbox, 2 x M6x30, renew"
    card.take_tape(reader.read(line))
    assert card.draft.name == "shift fork R"
    assert card.draft.container == "bag 12"
    assert card.draft.area == "lower case > gearbox"
    assert Place(2, 3, Side.LEFT) in card.draft.which_way
    assert card.draft.fate is Fate.RENEW
    assert [line.size() for line in card.draft.held_by] == ["M6x30"]


def test_a_tape_line_leaves_what_was_typed_by_hand(card, store, job_id):
    reader = services.tape.reader(store, job_id)
    card.fields.note.setPlainText("by hand")
    card.take_tape(reader.read("shift fork"))
    card.take_tape(reader.read("shift fork R, bag 14"))
    assert card.draft.note == "by hand"
    assert card.draft.container == "bag 14"
    card.take_tape(reader.read("shift fork R"))
    assert card.draft.container == ""
    assert card.draft.note == "by hand"


def test_pictures_of_a_new_entry_are_its_own(card, desk, settle, store, job_id, tmp_path):
    write("washer")
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(picture(tmp_path / "a.jpg")))])
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    place = QPointF(card.rect().center())
    card.dropEvent(QDropEvent(place, Qt.DropAction.CopyAction, mime, left, none))
    settle(desk)
    press(ENTER)
    settle(desk)
    logged = removals(store, job_id)[-1]
    assert [p.name for p in services.views.card(store, logged.id).photos] == ["a.jpg"]
    assert card.fields.photos.count == 0


def test_a_picture_pasted_over_a_field(card, desk, settle):
    image = QImage(64, 48, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.blue)
    QGuiApplication.clipboard().setImage(image)
    press(Qt.Key.Key_V, CONTROL)
    settle(desk)
    assert card.fields.photos.count == 1
    assert card.head.name.text() == ""


def test_text_is_still_pasted_as_text(card):
    QGuiApplication.clipboard().setText("main shaft")
    press(Qt.Key.Key_V, CONTROL)
    assert card.head.name.text() == "main shaft"


@pytest.mark.parametrize("name", ["<b>nut</b> & bolt", "шайба", "ροδέλα", "a & b"])
def test_names_stay_as_typed(card, desk, settle, store, job_id, name):
    card.head.name.setText(name)
    press(ENTER)
    settle(desk)
    last = removals(store, job_id)[-1]
    assert last.name == name
    card.open(last.id)
    settle(desk)
    assert card.head.name.text() == name


def test_new_areas_and_containers_are_offered(card, desk, settle, store, job_id):
    desk.act(services.jobs.add_area, job_id, "clutch")
    settle(desk)
    assert "clutch" in card.fields.area.words
    card.fields.area.setText("clutch")
    card.head.name.setText("drum")
    press(ENTER)
    settle(desk)
    last = removals(store, job_id)[-1]
    areas = {area.id: area.name for area in services.jobs.areas_of(store, job_id)}
    assert areas[last.area_id] == "clutch"


def test_every_control_has_a_name(card):
    nameless = [
        widget
        for widget in card.findChildren(QWidget)
        if widget.focusPolicy() != Qt.FocusPolicy.NoFocus
        and widget.focusProxy() is None
        and not widget.accessibleName()
    ]
    assert nameless == []


def test_it_can_be_let_go(qtbot, desk, ids, settle, tmp_path):
    made = EntryCard(desk, settings=settings(tmp_path))
    made.show()
    made.start_new()
    settle(desk)
    made.open(ids["shift drum"])
    settle(desk)
    seen = weakref.ref(made)
    made.close()
    made.deleteLater()
    qtbot.wait(1)
    del made
    assert seen() is None


def test_the_letters_of_the_facts_are_no_other_buttons(card):
    """Two buttons with one Alt key would make neither work."""
    card.fields.container.setFocus()
    for key, first in zip("HPCSMFWN", "HPCSMFSW", strict=True):  # SameWay, Without
        press(Qt.Key(ord(key)), ALT)
        assert type(card.fields.which_way.editor).__name__[0] == first


def test_only_a_hint_is_slanted_also_after_the_light_changed(card, qapp):
    """A hint must not look filled in, nor what is filled in like a hint."""
    card.head.name.setText("main shaft")
    theme = next(child for child in qapp.children() if isinstance(child, Theme))
    for colours in (DARK, LIGHT):
        theme.wear(colours)
        assert not card.head.name.font().italic()
        assert card.head.name.font().bold()
        assert card.fields.container.font().italic()
