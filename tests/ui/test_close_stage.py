"""Close: off = back + renewed + scrapped, piece by piece, or what does not add up."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QAbstractItemModelTester, QTest

from bagtag import services
from bagtag.domain.closing_rows import (
    ContainerLine,
    FastenerLine,
    ItemLine,
    Likely,
    Outcome,
    Pieces,
)
from bagtag.domain.fitting import Counted, TaskKind, part, task
from bagtag.services.signing import SignForm
from bagtag.services.tasks import TaskForm
from bagtag.ui.stages import close_words as words
from bagtag.ui.stages.close_stage import CONTAINER, FASTENER, ITEM, LEFT, CloseStage
from bagtag.ui.stages.close_sum import HEIGHT, LEAST
from tests.ui.stages_job import dies, nameless, send_shaft, sentence_of


@pytest.fixture
def stage(job, entered):
    return entered(CloseStage, 900, 640)


@pytest.fixture
def fit(stage, store, desk, job, settle):
    """Sign parts by name, whatever they wait for."""

    def signed(*names, **form):
        for name in names:
            said = SignForm(reason="because", **form)
            services.signing.sign(store, part(job.parts[name]), said, who="MK")
        stage.enter()
        settle(desk)

    return signed


def finish(store, job, *, but=""):
    for step in services.board.board(store, job.id).steps:
        if step.ref != part(job.parts.get(but, 0)):
            services.signing.sign(store, step.ref, SignForm(reason="because"), who="MK")


def cells(table):
    return [row.cells for row in table.count.rows]


def spoken(view, row, column=0):
    """What a screen reader is told of a cell."""
    index = view.model().index(row, column)
    return index.data(Qt.ItemDataRole.AccessibleTextRole)


# The verdict and the sum


def test_pieces_are_counted_not_lines(stage) -> None:
    """Ten lines of the log: eight single parts, four oil jets and two split pins, 14 pieces."""
    assert stage.sum.text() == "14 off ≠ 0 back + 0 renewed + 2 scrapped"
    assert stage.verdict.text() == "12 pieces still to account for"
    assert stage.under.text() == "Counted in pieces: 12 still off. 5 containers not emptied."


def test_away_parts_are_told(stage, desk, settle, store, job) -> None:
    send_shaft(store, job)
    stage.enter()
    settle(desk)
    assert "1 part away, 5 containers not emptied" in stage.under.text()


def test_it_adds_up_when_all_is_in(stage, desk, settle, store, job) -> None:
    finish(store, job)
    stage.enter()
    settle(desk)
    assert stage.verdict.text() == "Nothing is left on the bench"
    assert stage.sum.text() == "14 off = 6 back + 6 renewed + 2 scrapped"
    assert stage.sum.accessibleName() == stage.sum.text()
    assert stage.left.leftovers.rowCount() == 0
    assert not stage.build.isVisible()
    assert stage.ways.value == ITEM


def test_a_finished_job_but_for_one_fork_names_the_fork(stage, desk, settle, store, job) -> None:
    finish(store, job, but="shift fork L")
    stage.enter()
    settle(desk)
    assert stage.verdict.text() == "1 piece still to account for"
    (one,) = stage.left.leftovers.lines
    assert one.removal_id == job.parts["shift fork L"]
    assert stage.left.leftovers.index(0).data() == (
        "5 shift fork L left out: 1 cover, clutch side is on over it. Most likely still in bag "
        "12, tray 3, shelf B."
    )


def test_what_is_only_to_be_signed_is_no_piece(stage, desk, settle, store, job) -> None:
    finish(store, job)
    services.tasks.add_task(store, job.id, TaskForm(TaskKind.FILL_OIL), who="MK")
    stage.enter()
    settle(desk)
    assert stage.verdict.text() == "Nothing is left, but 1 thing to settle"
    assert stage.sum.text().startswith("14 off = ")
    assert stage.build.isVisible()


def test_a_job_without_a_log_says_so(qtbot, desk, job_id, settle) -> None:
    stage = CloseStage(desk)
    qtbot.addWidget(stage)
    stage.show()
    stage.enter()
    settle(desk)
    assert stage.verdict.text() == "Nothing has come off yet"
    assert "Strip" in sentence_of(stage)
    assert not stage.ways.isVisible()
    assert not stage.pages.isVisible()


@pytest.mark.parametrize("height", [320, 640, 900])
def test_the_sum_is_painted_in_any_size(stage, qtbot, height) -> None:
    for width in (420, 900, 2400):
        stage.resize(width, height)
        qtbot.wait(1)
        shot = stage.sum.grab().toImage()
        middle = shot.height() // 2
        colours = {shot.pixel(x, middle) for x in range(0, shot.width(), 2)}
        assert len(colours) > 2
        assert LEAST <= stage.sum.height() <= HEIGHT
        assert stage.sum.width() <= width


def test_a_low_page_leaves_its_room_to_the_list(stage, qtbot) -> None:
    stage.resize(892, 372)
    qtbot.wait(1)
    assert stage.sum.height() == LEAST
    assert stage.left.viewport().height() >= 140


# What is open


def test_what_does_not_add_up_is_listed_with_what_it_most_likely_is(stage, fit) -> None:
    fit("cover, clutch side", counts=(Counted(0, 6, 5),))
    likely = [one.likely for one in stage.left.leftovers.lines]
    assert likely == [*[Likely.LEFT_OUT] * 7, Likely.SHORT, Likely.NOT_HERE]
    said = [stage.left.leftovers.index(row).data() for row in range(len(likely))]
    assert any("shift fork R" in text and "Not decided yet" in text for text in said)
    assert any("oil jets (4 pieces)" in text and "not ordered yet" in text for text in said)
    assert not any("split pins" in text for text in said)
    assert "1 M6x30 bolt short at 1 cover, clutch side" in said[7]


def test_pressing_one_shows_its_step(stage, qtbot, desk) -> None:
    row = stage.left.leftovers.lines[2]
    with qtbot.waitSignal(desk.show_step) as heard:
        place = stage.left.visualRect(stage.left.leftovers.index(2)).center()
        QTest.mouseClick(stage.left.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert heard.args == [part(row.removal_id)]


def test_enter_shows_the_step_of_a_task_too(stage, qtbot, desk, store, settle, job) -> None:
    change = services.tasks.add_task(store, job.id, TaskForm(TaskKind.FILL_OIL), who="MK")
    stage.enter()
    settle(desk)
    stage.left.setFocus()
    QTest.keyClick(stage.left, Qt.Key.Key_End, Qt.KeyboardModifier.ControlModifier)
    with qtbot.waitSignal(desk.show_step) as heard:
        QTest.keyClick(stage.left, Qt.Key.Key_Return)
    assert heard.args == [task(change.new_id)]


def test_the_place_is_kept_while_the_list_grows_shorter(stage, fit) -> None:
    stage.left.setCurrentIndex(stage.left.leftovers.index(3))
    fit("retainer plate")
    assert stage.left.currentIndex().row() == 3
    assert stage.left.leftovers.rowCount() == 8


def test_every_row_is_painted_however_narrow(stage, fit) -> None:
    fit("cover, clutch side")
    for width in (300, 900, 1400):
        stage.resize(width, 640)
        shot = stage.left.viewport().grab().toImage()
        line = {shot.pixel(x, 20) for x in range(0, shot.width(), 1)}
        assert len(line) > 3


def test_the_build_is_one_press_away(stage, qtbot, desk) -> None:
    with qtbot.waitSignal(desk.show_stage) as heard:
        stage.build.click()
    assert heard.args == ["Build"]


# The three tables


def test_by_item(stage, fit, desk, qtbot, job) -> None:
    fit("gasket, cover", "retainer plate")
    rows = cells(stage.items)
    assert rows[1:3] == [
        ("2", "gasket, cover", "1", "renewed"),
        ("3", "retainer plate", "1", "back in"),
    ]
    assert rows[8:] == [
        ("9", "oil jets", "4", "not accounted for"),
        ("10", "split pins", "2", "scrapped"),
    ]
    assert (
        spoken(stage.items, 8) == "9. Part oil jets, Pieces 4, What became of it not accounted for"
    )
    stage.ways.choose(ITEM)
    stage.items.setCurrentIndex(stage.items.count.index(2, 0))
    with qtbot.waitSignal(desk.show_step) as heard:
        QTest.keyClick(stage.items, Qt.Key.Key_Return)
    assert heard.args == [part(job.parts["retainer plate"])]


def test_by_fastener(stage, fit, qtbot, desk) -> None:
    fit("cover, clutch side", counts=(Counted(0, 6, 5),))
    stage.ways.choose(FASTENER)
    assert cells(stage.fasteners) == [
        ("M6x30 bolt", "6", "5", "–", "–", "1 left"),
        ("pin", "1", "–", "–", "–", "1 left"),
        ("shaft 14", "1", "–", "–", "–", "1 left"),
    ]
    assert spoken(stage.fasteners, 0) == ("M6x30 bolt. Off 6, Back 5, What does not add up 1 left")
    assert spoken(stage.fasteners, 0, 2) == "Back 5"
    with qtbot.assertNotEmitted(desk.show_step):
        QTest.keyClick(stage.fasteners, Qt.Key.Key_Return)  # a size is not one step


@pytest.mark.parametrize(
    ("line", "cells"),
    [
        (FastenerLine("M6x12", "bolt", Pieces(4, back=5, over=1)),
         ("M6x12 bolt", "4", "5", "–", "–", "1 too many")),
        (FastenerLine("M6x12", "", Pieces(9, renewed=3, scrapped=4, left=2), 1),
         ("M6x12 fastener", "9", "–", "3", "4", "2 left, never counted at 1 part")),
        (FastenerLine("", "circlip", Pieces(), 2),
         ("circlip", "?", "–", "–", "–", "never counted at 2 parts")),
    ],
)  # fmt: skip
def test_what_does_not_add_up_of_a_size_is_said_in_words(line, cells) -> None:
    assert words.fastener_row(line) == (cells, True, None)


def test_a_new_part_is_in_or_not_and_never_off() -> None:
    line = ItemLine(7, "7", "oil filter", 1, Outcome.LEFT, is_new=True)
    assert words.item_row(line).cells[-1] == "new, not in yet"
    assert words.item_row(replace(line, outcome=Outcome.BACK)).cells[-1] == "new, in"


def test_of_many_parts_in_a_container_some_are_named() -> None:
    line = ContainerLine(1, "bag 1", 0, tuple(range(6)), 6)
    row = words.container_row(line, {id_: f"{id_} gear" for id_ in range(6)})
    assert row.cells == ("bag 1", "6", "0 gear, 1 gear, 2 gear, 3 gear and 2 more")


def test_by_container_with_what_stands_in_it(stage, fit) -> None:
    fit("retainer plate", "cover, clutch side")
    stage.ways.choose(CONTAINER)
    said = [tuple(cell.replace("\u2003", "> ") for cell in row) for row in cells(stage.containers)]
    assert said == [
        ("bag 9", "5", "7 main shaft bearing, 9 oil jets"),
        ("shelf A", "–", "emptied"),
        ("shelf B", "2", "only what stands in it"),
        ("> tray 3", "2", "only what stands in it"),
        ("> > bag 11", "–", "emptied"),
        ("> > bag 12", "2", "5 shift fork L, 6 shift fork R"),
        ("tote 2", "1", "4 shift drum"),
    ]


def test_the_words_turn_the_page(stage, qtbot) -> None:
    pages = {
        LEFT: stage.left,
        ITEM: stage.items,
        FASTENER: stage.fasteners,
        CONTAINER: stage.containers,
    }
    assert stage.pages.currentWidget() is stage.left
    for way, page in pages.items():
        stage.ways.choose(way)
        assert stage.pages.currentWidget() is page
        assert page.isVisible()


def test_arrows_turn_the_page_and_what_is_chosen_stays(stage, desk, settle) -> None:
    stage.activateWindow()
    stage.ways.choice(LEFT).setFocus()
    QTest.keyClick(stage.ways.choice(LEFT), Qt.Key.Key_Right)
    assert stage.pages.currentWidget() is stage.items
    stage.enter()
    settle(desk)
    assert stage.pages.currentWidget() is stage.items


def test_models_keep_the_rules_of_models(stage, fit) -> None:
    warn = QAbstractItemModelTester.FailureReportingMode.Warning
    testers = [
        QAbstractItemModelTester(view.model(), warn)
        for view in (stage.left, stage.items, stage.fasteners, stage.containers)
    ]
    fit("retainer plate", "cover, clutch side")
    assert all(tester.model().rowCount() for tester in testers)


def test_tables_and_list_have_names(stage) -> None:
    for view in (stage.left, stage.items, stage.fasteners, stage.containers):
        face = QAccessible.queryAccessibleInterface(view)
        assert face.text(QAccessible.Text.Name)


def test_names_and_leaks(stage, qtbot, desk, settle) -> None:
    assert nameless(stage) == []

    def make() -> CloseStage:
        made = CloseStage(desk)
        made.enter()
        settle(desk)
        return made

    assert dies(qtbot, make)
