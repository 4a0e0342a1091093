"""Containers: one in another, with what lies in them; put in, taken out, renamed, labelled."""

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent

from bagtag import services
from bagtag.domain.codes import show
from bagtag.domain.measuring.sheet import Limits, Reading, SheetKind
from bagtag.domain.model import ContainerKind, TagRole
from bagtag.ui.containers.containers_stage import ContainersStage
from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.sheets.label_dialog import LabelDialog
from bagtag.ui.stages.stage_list import MIME
from tests.ui.stages_job import dies, nameless, sentence_of


@pytest.fixture
def stage(qtbot, desk, job, settle):
    made = ContainersStage(desk)
    qtbot.addWidget(made)
    desk.changed.connect(made.hear)
    made.resize(1100, 700)
    made.show()
    made.enter()
    settle(desk)
    return made


def lies_in(store, job, name: str) -> int | None:
    return services.strip.get_removal(store, job.parts[name]).container_id


def dragged(*ids: int) -> QMimeData:
    data = QMimeData()
    data.setData(MIME, " ".join(map(str, ids)).encode())
    return data


def test_containers_stand_in_one_another(stage, job) -> None:
    cards = stage.map.cards
    assert set(cards) == set(job.bags.values())
    assert cards[job.bags["shelf B"]].isAncestorOf(cards[job.bags["tray 3"]])
    assert cards[job.bags["tray 3"]].isAncestorOf(cards[job.bags["bag 12"]])
    assert not cards[job.bags["shelf B"]].isAncestorOf(cards[job.bags["tote 2"]])


def test_none_lies_over_another(stage, qtbot, job) -> None:
    for width in (820, 1100, 1700):
        stage.resize(width, 700)
        qtbot.wait(1)
        leaves = [job.bags[name] for name in ("bag 9", "bag 11", "bag 12", "tote 2")]
        places = [
            stage.map.cards[id_]
            .rect()
            .translated(stage.map.cards[id_].mapTo(stage.map.body, QPoint(0, 0)))
            for id_ in leaves
        ]
        assert not any(
            one.intersects(other) for n, one in enumerate(places) for other in places[:n]
        )
        for card in stage.map.cards.values():
            assert card.parentWidget().rect().contains(card.geometry())


def test_each_says_its_code_and_what_lies_in_it(stage, store, job) -> None:
    rows = {row.container.id: row for row in services.containers.list_containers(store, job.id)}
    for id_, card in stage.map.cards.items():
        assert card.code.text() == show(rows[id_].code)
    assert stage.map.cards[job.bags["bag 12"]].contents == "5 shift fork L, 6 shift fork R"
    assert "empty" in stage.map.cards[job.bags["tray 3"]].contents


def test_the_bench_lists_what_lies_loose(stage) -> None:
    names = [stage.panel.parts.parts.index(row).data() for row in range(2)]
    assert names == ["2   gasket, cover", "8   main shaft"]
    assert stage.panel.head.text() == "On the bench, 2"


def test_chosen_parts_go_into_the_container_that_is_pressed(stage, qtbot, desk, settle, store, job):
    stage.panel.parts.setFocus()
    qtbot.keyClick(stage.panel.parts, Qt.Key.Key_Down)
    qtbot.keyClick(stage.panel.parts, Qt.Key.Key_Space)
    assert "1 chosen" in stage.panel.hint.text()
    (chosen,) = stage.panel.parts.chosen()
    head = stage.map.cards[job.bags["bag 9"]].head
    head.setFocus()
    qtbot.keyClick(head, Qt.Key.Key_Return)
    settle(desk)
    assert services.strip.get_removal(store, chosen).container_id == job.bags["bag 9"]
    assert stage.panel.parts.chosen() == []
    assert stage.map.cards[job.bags["bag 9"]].head.isChecked() is False


def test_parts_can_be_dragged_onto_a_container(stage, desk, settle, store, job) -> None:
    card = stage.map.cards[job.bags["tray 3"]]
    data = dragged(job.parts["main shaft"], job.parts["gasket, cover"])
    buttons, keys = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(QPoint(5, 5), Qt.DropAction.CopyAction, data, buttons, keys)
    card.dragEnterEvent(enter)
    assert enter.isAccepted()
    card.dropEvent(QDropEvent(QPointF(5, 5), Qt.DropAction.CopyAction, data, buttons, keys))
    settle(desk)
    assert lies_in(store, job, "main shaft") == job.bags["tray 3"]
    assert lies_in(store, job, "gasket, cover") == job.bags["tray 3"]
    assert stage.panel.head.text() == "Nothing lies loose"


def test_the_list_hands_over_what_is_chosen(stage, job) -> None:
    parts = stage.panel.parts
    data = parts.parts.mimeData([parts.parts.index(0), parts.parts.index(1)])
    ids = [int(word) for word in bytes(data.data(MIME).data()).decode().split()]
    assert ids == [job.parts["gasket, cover"], job.parts["main shaft"]]


def test_anything_else_that_is_dragged_is_let_be(stage, job) -> None:
    data = QMimeData()
    data.setText("12")
    buttons, keys = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(QPoint(5, 5), Qt.DropAction.CopyAction, data, buttons, keys)
    enter.ignore()
    stage.map.cards[job.bags["tray 3"]].dragEnterEvent(enter)
    assert not enter.isAccepted()


def test_a_container_shows_its_parts_and_gives_them_back(stage, desk, settle, store, job) -> None:
    stage.press(job.bags["bag 12"])
    assert stage.panel.head.text() == "Bag 12, 2"
    stage.panel.parts.choose({job.parts["shift fork R"]})
    stage.panel.bench.click()
    settle(desk)
    assert lies_in(store, job, "shift fork R") is None
    assert lies_in(store, job, "shift fork L") == job.bags["bag 12"]


@pytest.mark.parametrize(
    ("kind", "key"), [("bag", "B"), ("tray", "T"), ("tote", "O"), ("shelf", "S")]
)
def test_one_key_adds_one(stage, qtbot, desk, settle, store, job, kind, key) -> None:
    before = len(services.containers.list_containers(store, job.id))
    stage.activateWindow()
    qtbot.waitUntil(stage.isActiveWindow)
    stage.labels.setFocus()
    qtbot.keyClick(stage.labels, getattr(Qt.Key, f"Key_{key}"))
    settle(desk)
    qtbot.waitUntil(lambda: stage.chosen != 0)
    settle(desk)
    rows = services.containers.list_containers(store, job.id)
    assert len(rows) == before + 1
    new = next(row.container for row in rows if row.container.id == stage.chosen)
    assert new.kind is ContainerKind(kind)
    assert stage.panel.name.text() == new.name


def test_a_scanner_that_types_adds_nothing(stage, qtbot, desk, settle, store, job) -> None:
    before = services.containers.list_containers(store, job.id)
    for widget in (stage.labels, stage.panel.parts, stage.map.cards[job.bags["bag 9"]].head):
        widget.setFocus()
        qtbot.keyClicks(widget, "BTS7BS")
        qtbot.wait(QUIET + 30)
    settle(desk)
    assert services.containers.list_containers(store, job.id) == before


def test_rename_and_stand_in_another(stage, desk, settle, store, job) -> None:
    stage.press(job.bags["bag 9"])
    stage.panel.name.setText("9a")
    labels = [stage.panel.parent_box.itemText(n) for n in range(stage.panel.parent_box.count())]
    stage.panel.parent_box.setCurrentIndex(labels.index("shelf B"))
    stage.panel.save.click()
    settle(desk)
    container = services.containers.get_container(store, job.bags["bag 9"])
    assert (container.label, container.parent_id) == ("bag 9a", job.bags["shelf B"])
    assert stage.panel.head.text().startswith("Bag 9a")


def test_a_name_that_is_taken_is_said_beside_it_and_stays(stage, desk, settle, job) -> None:
    stage.press(job.bags["bag 9"])
    stage.panel.name.setText("12")
    stage.panel.save.click()
    settle(desk)
    assert "bag 12 in this job already" in stage.panel.fields["name"].wrong.text()
    assert stage.panel.name.text() == "12"


def test_it_cannot_stand_inside_itself(stage, desk, settle, job) -> None:
    stage.press(job.bags["shelf B"])
    labels = [stage.panel.parent_box.itemText(n) for n in range(stage.panel.parent_box.count())]
    stage.panel.parent_box.setCurrentIndex(labels.index("tray 3"))
    stage.panel.save.click()
    settle(desk)
    assert "cannot stand inside itself" in stage.panel.fields["parent"].wrong.text()


def test_only_an_empty_one_can_be_deleted(stage, desk, settle, store, job) -> None:
    stage.press(job.bags["bag 12"])
    assert not stage.panel.delete.isEnabled()
    stage.press(job.bags["tray 3"])
    assert not stage.panel.delete.isEnabled()
    desk.act(services.containers.add_container, job.id, ContainerKind.TOTE, "77", then=stage._added)
    settle(desk)
    made = stage.chosen
    assert stage.panel.delete.isEnabled()
    stage.panel.delete.click()
    settle(desk)
    assert made not in stage.map.cards
    assert stage.panel.head.text().startswith("On the bench")


def test_a_scanned_one_is_shown(stage, desk, settle, job) -> None:
    stage.show_container(job.bags["bag 12"])
    settle(desk)
    assert stage.map.cards[job.bags["bag 12"]].head.isChecked()
    assert stage.panel.head.text() == "Bag 12, 2"


@pytest.mark.parametrize("size", [(900, 300), (900, 420), (1240, 620)])
def test_what_is_to_be_known_takes_nothing_from_the_parts_and_the_form(
    qtbot, stage, desk, settle, job, size
) -> None:
    stage.resize(*size)
    stage.press(job.bags["tote 2"])
    settle(desk)
    panel = stage.panel
    panel.tell((job.bags["tote 2"], ("1 cover: worn, the joint face is out of true by far.",) * 3))
    qtbot.wait(20)
    for widget in (panel.before, panel.hint, *panel.fields.values()):
        assert widget.height() >= widget.heightForWidth(widget.width())
    for press in (panel.save, panel.print, panel.delete, panel.back):
        assert press.height() >= press.minimumSizeHint().height()
    lowest = panel.form.mapTo(panel.view.body, panel.form.rect().bottomLeft()).y()
    assert lowest <= panel.view.body.height()
    rows = panel.parts.model().rowCount()
    seen = panel.parts.viewport().height() / panel.parts.sizeHintForRow(0)
    assert rows
    assert seen >= min(rows, 3)


def test_a_scanned_bag_says_what_is_worn_before_it_goes_in(stage, desk, settle, store, job) -> None:
    worn = next(row for row in stage.where.inside(job.bags["bag 12"])).removal
    made = services.measuring.add_sheet(store, job.id, SheetKind.SIZE, worn.id)
    view = services.measuring.view(store, made.new_id)
    filled = replace(
        view.sheet,
        readings=tuple(Reading(place.key, Decimal("9.90")) for place in view.form.places),
        limits=(Limits("size", wear_low=Decimal("9.95")),),
    )
    services.measuring.save(store, filled)
    for name in ("bag 12", "tray 3", "shelf B"):
        stage.show_container(job.bags[name])
        settle(desk)
        assert stage.panel.before.text.startswith(f"{worn.number} {worn.name}: Worn: ")
        assert "Decide it before it goes in." in stage.panel.before.text
    stage.show_container(job.bags["bag 11"])
    settle(desk)
    assert worn.name not in stage.panel.before.text


def test_labels_for_all_and_for_a_family(stage, desk, settle, job) -> None:
    stage.labels.click()
    settle(desk)
    (dialog,) = stage.findChildren(LabelDialog)
    assert set(dialog.order().container_ids) == set(job.bags.values())
    dialog.close()
    stage.press(job.bags["shelf B"])
    stage.labels.click()
    settle(desk)
    dialog = stage.findChildren(LabelDialog)[-1]
    family = {job.bags[name] for name in ("shelf B", "tray 3", "bag 11", "bag 12")}
    assert set(dialog.order().container_ids) == family
    dialog.close()


def test_every_part_of_the_log_gets_a_tag(stage, desk, settle, job) -> None:
    stage.part_tags.click()
    settle(desk)
    (dialog,) = stage.findChildren(LabelDialog)
    assert list(dialog.order().removal_ids) == list(job.parts.values())
    dialog.close()


def test_blank_tags_are_made_and_printed(stage, desk, settle, store) -> None:
    stage.blank.click()
    stage.ask.number.setText("a few")
    stage.ask.yes.click()
    assert "whole number" in sentence_of(stage.ask)
    stage.ask.number.setText("99999")
    stage.ask.yes.click()
    settle(desk)
    assert "10,000" in sentence_of(stage.ask)
    stage.ask.number.setText("5")
    stage.ask.yes.click()
    settle(desk)
    (dialog,) = stage.findChildren(LabelDialog)
    codes = dialog.order().codes
    assert len(set(codes)) == 5
    assert all(services.tags.look_up(store, code).tag.role is TagRole.BLANK for code in codes)
    assert not stage.ask.isVisible()
    dialog.close()


def test_a_job_without_containers_says_what_to_do(qtbot, desk, job_id, settle) -> None:
    stage = ContainersStage(desk)
    qtbot.addWidget(stage)
    stage.enter()
    settle(desk)
    assert "No container yet" in sentence_of(stage)
    assert not stage.labels.isEnabled()


def test_an_ampersand_in_a_name_is_no_key(stage, desk, settle, store, job) -> None:
    services.containers.edit_container(store, job.bags["bag 9"], name="R&D", parent_id=None)
    stage.enter()
    settle(desk)
    head = stage.map.cards[job.bags["bag 9"]].head
    assert head.text() == "bag R&&D"
    assert head.accessibleName().startswith("bag R&D")
    assert head.shortcut().isEmpty()


def test_names_and_leaks(stage, qtbot, desk, settle, job) -> None:
    assert nameless(stage) == []
    stage.press(job.bags["bag 12"])
    assert nameless(stage) == []

    def make() -> ContainersStage:
        made = ContainersStage(desk)
        made.enter()
        settle(desk)
        return made

    assert dies(qtbot, make)
