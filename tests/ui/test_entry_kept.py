"""Nothing typed in the entry card is lost, whoever changes what meanwhile."""

from dataclasses import replace

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.ui.entry.entry_draft import Draft, merge
from tests.ui.forms_kit import (
    ENTER,
    ESC,
    picture,
    press,
    removals,
    write,
)


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


def test_a_new_entry_after_one_that_was_still_being_opened(card, desk, settle, ids):
    card.open(ids["shift drum"])
    card.start_new()
    settle(desk)
    assert card.isEnabled()
    assert card.removal_id is None
    assert card.draft == Draft()


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
