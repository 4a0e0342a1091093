"""The entry of one removal, by keyboard alone, with nothing typed ever lost."""

import weakref
from dataclasses import replace

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent, QGuiApplication, QImage
from PySide6.QtWidgets import QApplication, QWidget

from bagtag import services
from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Faces, Hand, Place
from bagtag.ui.entry_card import EntryCard
from bagtag.ui.entry_draft import Draft, merge
from bagtag.ui.theme import DARK, LIGHT, Theme
from tests.ui.forms_kit import (
    ALT,
    CONTROL,
    ENTER,
    ESC,
    TAB,
    furnish,
    picture,
    press,
    removals,
    settings,
    show,
    write,
)


@pytest.fixture
def ids(store, job_id) -> dict[str, int]:
    return furnish(store, job_id)


@pytest.fixture
def card(qtbot, desk, ids, settle, tmp_path):
    made = EntryCard(desk, settings=settings(tmp_path))
    show(qtbot, made)
    made.start_new()
    settle(desk)
    return made


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
    press(TAB)
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


def test_tab_goes_through_all_of_it_and_comes_back(card):
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


def test_correcting(qtbot, card, desk, settle, store, ids):
    card.open(ids["shift fork L"])
    settle(desk)
    assert card.head.fields["name"].caption.text() == "Correct 3"
    assert card.draft.container == "bag 12"
    card.head.name.selectAll()
    write("shift fork L, long")
    with qtbot.waitSignals([card.logged, card.closed]):
        press(ENTER)
    now = services.strip.get_removal(store, ids["shift fork L"])
    assert (now.name, now.number, now.version) == ("shift fork L, long", "3", 2)


def test_a_container_can_be_taken_off(card, desk, settle, store, ids):
    card.open(ids["shift fork L"])
    settle(desk)
    card.fields.container.clear()
    press(ENTER)
    settle(desk)
    assert services.strip.get_removal(store, ids["shift fork L"]).container_id is None


def test_two_people_change_different_fields_and_both_are_kept(card, desk, settle, store, ids):
    removal_id = ids["shift fork L"]
    card.open(removal_id)
    settle(desk)
    card.fields.condition.set_text("pads worn")
    change_elsewhere(store, removal_id, note="second from the left")
    press(ENTER)
    settle(desk)
    now = services.strip.get_removal(store, removal_id)
    assert (now.condition, now.note) == ("pads worn", "second from the left")


def test_two_people_change_one_field_and_it_is_said(qtbot, card, desk, settle, store, ids):
    removal_id = ids["shift fork L"]
    card.open(removal_id)
    settle(desk)
    card.head.name.setText("fork, mine")
    change_elsewhere(store, removal_id, name="fork, theirs", note="theirs too")
    press(ENTER)
    settle(desk)
    assert "changed elsewhere" in card.acts.said.text()
    assert card.head.name.text() == "fork, mine"
    assert card.draft.note == "theirs too"
    assert services.strip.get_removal(store, removal_id).name == "fork, theirs"
    press(ENTER)
    settle(desk)
    now = services.strip.get_removal(store, removal_id)
    assert (now.name, now.note) == ("fork, mine", "theirs too")


def test_theirs_can_be_taken(card, desk, settle, store, ids):
    removal_id = ids["shift fork L"]
    card.open(removal_id)
    settle(desk)
    card.head.name.setText("fork, mine")
    change_elsewhere(store, removal_id, name="fork, theirs")
    press(ENTER)
    settle(desk)
    card.acts.theirs.click()
    assert card.head.name.text() == "fork, theirs"
    press(ENTER)
    settle(desk)
    assert services.strip.get_removal(store, removal_id).name == "fork, theirs"


def change_elsewhere(store, removal_id: int, **fields) -> None:
    strip = services.strip
    entry = replace(strip.entry_of(strip.get_removal(store, removal_id)), **fields)
    strip.correct_removal(store, removal_id, entry, who="Ben")


def test_a_removal_taken_out_meanwhile_is_said(card, desk, settle, store, ids):
    card.open(ids["shift fork L"])
    settle(desk)
    card.head.name.setText("mine")
    services.strip.delete_removal(store, ids["shift fork L"], who="Ben")
    press(ENTER)
    settle(desk)
    assert "no longer in the log" in card.acts.said.text()
    assert card.head.name.text() == "mine"


def test_the_merge_keeps_both():
    opened = Draft("fork", note="")
    mine, theirs = replace(opened, name="mine"), replace(opened, note="theirs")
    both = merge(opened, mine, theirs)
    assert both.draft == replace(opened, name="mine", note="theirs")
    assert (both.theirs, both.clashes) == (("note",), ())
    clash = merge(opened, mine, replace(opened, name="theirs"))
    assert clash.draft.name == "mine"
    assert clash.clashes == ("name",)
    assert merge(opened, mine, mine).clashes == ()


def test_what_was_typed_waits_while_another_is_looked_at(card, desk, settle, ids):
    write("half typed")
    card.fields.note.setPlainText("not logged yet")
    before = card.draft
    card.open(ids["shift drum"])
    settle(desk)
    card.head.name.setText("drum, half corrected")
    card.start_new()
    settle(desk)
    assert card.draft == before
    card.open(ids["shift drum"])
    settle(desk)
    assert card.head.name.text() == "drum, half corrected"
    assert "here again" in card.acts.said.text()


def test_escape_leaves_and_what_was_typed_waits(qtbot, card, desk, settle):
    write("half typed")
    with qtbot.waitSignal(card.closed):
        press(ESC)
    card.start_new()
    settle(desk)
    assert card.head.name.text() == "half typed"


def test_saying_it_twice_logs_it_once(card, desk, settle, store, job_id):
    write("washer")
    press(ENTER)
    press(ENTER)
    settle(desk)
    assert [r.name for r in removals(store, job_id)][3:] == ["washer"]


def test_an_entry_whose_answer_was_lost_is_not_doubled(card, desk, settle, store, job_id):
    """The store wrote it and the answer never came: saying it again finds it there."""
    write("washer")
    services.strip.log_removal(store, job_id, Entry("washer", uid=card._uid), who="Ada")
    press(ENTER)
    settle(desk)
    assert [r.name for r in removals(store, job_id)].count("washer") == 1


def test_what_is_typed_while_it_is_being_logged_is_not_lost(card, desk, settle, store, job_id):
    write("washer")
    press(ENTER)
    write(", thin")
    settle(desk)
    assert card.head.name.text() == "washer, thin"
    assert card.removal_id == removals(store, job_id)[-1].id
    press(ENTER)
    settle(desk)
    assert [r.name for r in removals(store, job_id)][3:] == ["washer, thin"]


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


def test_pictures_wait_with_what_was_typed(card, desk, settle, ids, tmp_path):
    write("washer")
    card.fields.photos.add([picture(tmp_path / "a.jpg")])
    settle(desk)
    card.open(ids["shift drum"])
    settle(desk)
    assert card.fields.photos.count == 0
    card.start_new()
    settle(desk)
    assert card.fields.photos.count == 1


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


def test_new_areas_and_containers_are_offered(card, desk, settle, job_id):
    desk.act(services.jobs.add_area, job_id, "clutch")
    settle(desk)
    assert "clutch" in card.fields.area.words
    card.fields.area.setText("clutch")
    card.head.name.setText("drum")
    press(ENTER)
    settle(desk)
    assert said(card) == []


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


def test_an_undo_shows_in_an_entry_that_is_only_looked_at(card, desk, settle, store, job_id, ids):
    card.open(ids["shift fork L"])
    settle(desk)
    change_elsewhere(store, ids["shift fork L"], name="fork, wrong")
    desk.act(services.history.undo, job_id)
    settle(desk)
    assert card.head.name.text() == "shift fork L"
    desk.act(services.history.redo, job_id)
    settle(desk)
    assert card.head.name.text() == "fork, wrong"


def test_the_letters_of_the_facts_are_no_other_buttons(card):
    """Two buttons with one Alt key would make neither work."""
    card.fields.container.setFocus()
    for key in "HPCSMF":
        press(Qt.Key(ord(key)), ALT)
        assert type(card.fields.which_way.editor).__name__[0] == key


def test_a_new_entry_after_one_that_was_still_being_opened(card, desk, settle, ids):
    card.open(ids["shift drum"])
    card.start_new()
    settle(desk)
    assert card.isEnabled()
    assert card.removal_id is None
    assert card.draft == Draft()


def test_what_was_wrong_is_no_longer_said_once_it_is_put_right(card, desk, settle):
    press(ENTER)
    settle(desk)
    assert len(said(card)) == 1
    write("w")
    assert said(card) == []


def test_only_a_hint_is_slanted_also_after_the_light_changed(card, qapp):
    """A hint must not look filled in, nor what is filled in like a hint."""
    card.head.name.setText("main shaft")
    theme = next(child for child in qapp.children() if isinstance(child, Theme))
    for colours in (DARK, LIGHT):
        theme.wear(colours)
        assert not card.head.name.font().italic()
        assert card.head.name.font().bold()
        assert card.fields.container.font().italic()


def test_another_is_opened_while_one_is_being_logged(
    qtbot, card, desk, settle, store, job_id, ids, tmp_path
):
    write("washer")
    card.fields.photos.add([picture(tmp_path / "a.jpg")])
    settle(desk)
    with qtbot.waitSignal(card.logged) as logged:
        press(ENTER)
        card.open(ids["shift drum"])
    settle(desk)
    assert card.removal_id == ids["shift drum"]
    assert card.draft.name == "shift drum"
    (washer,) = logged.args
    assert services.strip.get_removal(store, washer).name == "washer"
    assert [p.name for p in services.views.card(store, washer).photos] == ["a.jpg"]
    card.start_new()
    settle(desk)
    assert card.draft == Draft()
    assert card.fields.photos.count == 0


def test_another_is_opened_while_a_correction_is_being_kept(card, desk, settle, store, ids):
    card.open(ids["shift fork L"])
    settle(desk)
    card.head.name.setText("fork")
    press(ENTER)
    card.open(ids["shift drum"])
    settle(desk)
    card.head.name.setText("drum")
    press(ENTER)
    settle(desk)
    assert services.strip.get_removal(store, ids["shift drum"]).name == "drum"
    card.open(ids["shift fork L"])
    settle(desk)
    assert card.head.name.text() == "fork"


def test_a_new_one_is_begun_while_one_is_being_logged(card, desk, settle, store, job_id):
    write("washer")
    press(ENTER)
    card.start_new()
    settle(desk)
    assert card.draft == Draft()
    assert [r.name for r in removals(store, job_id)][3:] == ["washer"]
