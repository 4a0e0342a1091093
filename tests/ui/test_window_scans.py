"""Scans in the window: a card, a container, a blank tag, twins."""

import pytest
from PySide6.QtWidgets import QPushButton

from bagtag import services
from bagtag.domain import codes
from bagtag.ui.scanning.blank_tag_dialog import BlankTagDialog
from tests.ui.shell_kit import NAMES, close_window, key, log, open_window, rest, scan, type_line


@pytest.fixture
def ids(store, job_id):
    return log(store, job_id, *NAMES)


@pytest.fixture
def window(qtbot, store, ids, settle):
    made = open_window(qtbot, store, settle)
    yield made
    close_window(made)


def code_of(store, removal_id):
    return services.views.card(store, removal_id).code


@pytest.mark.parametrize("stage", ["Strip", "Build", "Renew"])
def test_a_scan_anywhere_opens_the_card(qtbot, window, store, ids, settle, stage):
    window.work.go_to(stage)
    settle(window.desk)
    window.work.focus_field()
    scan(window.windowHandle(), code_of(store, ids[3]))
    rest(qtbot, window, settle)
    bench = window.work.bench
    assert window.work.page is bench
    assert bench.card.removal_id == ids[3]
    assert bench.right.currentWidget() is bench.card
    assert bench.strip.chosen_id == ids[3]
    assert window.field.text == ""


def test_a_scanned_container_is_shown_among_the_containers(window, store, job_id, settle):
    from bagtag.domain.model import ContainerKind

    bag = services.containers.add_container(store, job_id, ContainerKind.BAG, "12").new_id
    code = services.containers.list_containers(store, job_id)[0].code
    scan(window.windowHandle(), code)
    settle(window.desk)
    assert window.stages.current == "Containers"
    assert window.work.page.chosen == bag


def blank_dialog(qtbot, window):
    qtbot.waitUntil(lambda: bool(window.findChildren(BlankTagDialog)))
    return window.findChildren(BlankTagDialog)[0]


def press(dialog, words):
    next(b for b in dialog.findChildren(QPushButton) if b.text().startswith(words)).click()


def test_a_blank_tag_is_hung_on_the_open_part(qtbot, window, store, ids, settle):
    window.work.show_removal(ids[1])
    rest(qtbot, window, settle)
    _, made = services.tags.make_blank(store, 1)
    scan(window.windowHandle(), made[0])
    settle(window.desk)
    press(blank_dialog(qtbot, window), "On 2 shift shaft")
    settle(window.desk)
    assert services.tags.look_up(store, made[0]).removal_id == ids[1]


def test_a_blank_tag_waits_for_the_next_line(qtbot, window, store, settle):
    _, made = services.tags.make_blank(store, 1)
    scan(window.windowHandle(), made[0])
    settle(window.desk)
    press(blank_dialog(qtbot, window), "On the next entry")
    window.activateWindow()  # no window manager does it here
    qtbot.waitUntil(window.isActiveWindow)
    settle(window.desk)
    type_line(window, "dowel")
    key(window, "Return")
    settle(window.desk)
    found = services.tags.look_up(store, made[0])
    assert services.strip.get_removal(store, found.removal_id).name == "dowel"


def test_a_blank_tag_makes_a_bag(qtbot, window, store, job_id, settle):
    _, made = services.tags.make_blank(store, 1)
    scan(window.windowHandle(), made[0])
    settle(window.desk)
    press(blank_dialog(qtbot, window), "On a new bag")
    settle(window.desk)
    found = services.tags.look_up(store, made[0])
    assert services.containers.get_container(store, found.container_id).label == "bag 1"
    (row,) = services.containers.list_containers(store, job_id)
    assert row.code == made[0], "the bag has this tag and no other"


def test_a_blank_tag_waits_for_the_entry_on_the_card(qtbot, window, store, settle):
    _, made = services.tags.make_blank(store, 1)
    scan(window.windowHandle(), made[0])
    settle(window.desk)
    press(blank_dialog(qtbot, window), "On the next entry")
    settle(window.desk)
    entry = window.work.bench.entry
    entry.head.name.setText("thrust washer")
    entry.log()
    settle(window.desk)
    found = services.tags.look_up(store, made[0])
    card = services.views.card(store, found.removal_id)
    assert card.removal.name == "thrust washer"
    assert [tag.code for tag in card.tags] == made, "this tag and no other"
    entry.head.name.setText("circlip")
    entry.log()
    settle(window.desk)
    newest = services.views.last_page(store, card.removal.job_id).rows[-1]
    assert newest.removal.name == "circlip"
    assert newest.code != made[0]


def test_a_strange_code_is_said_and_stays_until_it_is_put_away(window, settle):
    scan(window.windowHandle(), "A2C4ER")
    settle(window.desk)
    assert "no tag of this store" in window.message.text
    assert window.message.is_trouble
    window.message.dismiss.click()
    assert window.message.text == ""


@pytest.mark.parametrize("fits", [True, False])
def test_twins_are_compared_by_two_scans(qtbot, window, store, ids, settle, fits):
    _, (first, second) = services.tags.make_twins(store, ids[0])
    _, (_, other) = services.tags.make_twins(store, ids[1])
    scan(window.windowHandle(), first)
    rest(qtbot, window, settle)
    assert "Scan the other one" in window.message.text
    scan(window.windowHandle(), second if fits else other, start=20_000)
    rest(qtbot, window, settle)
    card = window.work.bench.card
    assert window.work.bench.right.currentWidget() is card
    assert card.match.isVisible()
    assert card.match.word.text() == ("Match" if fits else "No match")
    assert window.message.text == "", "nothing asks for a tag that has come"


def test_a_typed_code_does_the_same_as_a_scan(qtbot, window, store, ids, settle):
    type_line(window, codes.show(code_of(store, ids[2])).lower())
    key(window, "Return")
    rest(qtbot, window, settle)
    assert window.work.bench.card.removal_id == ids[2]
    assert window.field.text == ""
