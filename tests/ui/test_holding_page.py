"""What is holding the job up: what the page says, how it is walked, where each key leads."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPixmap
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.days import day_words
from bagtag.domain.entry import Entry
from bagtag.domain.model import Fate
from bagtag.ui.holding import holding_words as words
from bagtag.ui.holding.holding_page import HoldingPage
from bagtag.ui.late_words import late, late_words
from tests.ui.stages_job import dies, nameless

KEYS = Qt.Key
TODAY = date.today()


@pytest.fixture
def parts(store, job_id):
    """A case, a bearing at a shop two days late, a gasket to buy, a shaft to decide."""
    ids = {
        name: services.strip.log_removal(store, job_id, Entry(name)).new_id
        for name in ("case", "bearing", "gasket", "shaft")
    }
    due = TODAY - timedelta(days=2)
    services.fates.send_away(store, [ids["bearing"]], shop="Mill Lane", due=due)
    services.fates.set_fate(store, [ids["gasket"]], Fate.RENEW)
    services.fates.set_fate(store, [ids["shaft"]], Fate.DECIDE)
    return ids


@pytest.fixture
def page(entered, desk, settle):
    yield entered(HoldingPage, 1000, 600)
    settle(desk)


def again(page, settle):
    page.enter()
    settle(page.desk)


def press(page, key):
    QTest.keyClick(QApplication.focusWidget(), key)


def test_a_job_without_steps_or_hindrances_says_so(page, store, job_id, settle):
    assert page.empty.head.text() == words.ALL_IN[0]
    services.strip.log_removal(store, job_id, Entry("case"))
    again(page, settle)
    assert page.empty.head.text() == words.CALM[0]
    assert not page.list.isVisibleTo(page)
    assert not page.go.isVisibleTo(page)


def test_what_frees_the_most_stands_first_and_says_what_to_do(page, parts, settle):
    again(page, settle)
    assert page.head.text() == "4 of 4 steps left are held up"
    assert [(row.called, row.act) for row in page.found.rows] == [
        ("4 shaft", "Decide it."),
        ("3 gasket", "Order it."),
        ("2 bearing", "Ask Mill Lane: 2 days late."),
    ]
    assert "3 steps wait for something that nobody knows a day for." in page.help.text()
    assert page.ladder.accessibleName() == "from today: 1 step, no day known: 3 steps"


def test_each_step_stands_below_the_day_from_which_it_can_go_in(page, parts, store, settle):
    again(page, settle)
    assert [rung.names for rung in page.ladder.rungs] == ["4 shaft", "3 gasket, 2 bearing, 1 case"]
    due = TODAY + timedelta(days=3)
    gasket = services.renewals.lines(store, page.desk.job_id)[0].new_part
    services.renewals.order(store, [gasket], TODAY, due)
    services.fates.came_back(store, [parts["bearing"]])
    again(page, settle)
    assert [rung.count for rung in page.ladder.rungs] == [1, 3]
    assert page.help.text() == f"The last of them can go in from {day_words(due, TODAY)}."


@pytest.mark.parametrize("width", [760, 1000, 1280])
def test_every_name_below_a_day_has_its_room(qtbot, page, store, job_id, settle, width):
    for number in range(30):
        name = f"part number {number} with a long name"
        services.strip.log_removal(store, job_id, Entry(name, fate=Fate.RENEW))
    page.resize(width, 420)
    again(page, settle)
    qtbot.wait(20)
    painted = QPixmap(page.ladder.size())
    painted.fill(Qt.GlobalColor.white)
    page.ladder.render(painted)
    ink = painted.toImage()
    rows = [y for y in range(ink.height()) if _has_ink(ink, y)]
    assert ink.height() - 30 < rows[-1] < ink.height() - 4
    assert page.days.verticalScrollBar().maximum() > 0


def _has_ink(image, y: int) -> bool:
    ground = image.pixelColor(image.width() - 1, image.height() - 1)
    return any(image.pixelColor(x, y) != ground for x in range(image.width()))


def test_very_many_steps_of_a_day_are_counted(store):
    assert words.named(["case", "shaft"], 2) == "case, shaft"
    assert words.named(["case", "shaft", "gear"], 1) == "case, and 2 more"


def test_arrows_walk_and_enter_goes_to_where_it_is_settled(qtbot, page, parts, settle):
    again(page, settle)
    page.setFocus()
    with qtbot.waitSignal(page.settle) as first:
        press(page, KEYS.Key_Return)
    assert words.stage_of(first.args[0]) == "Measure"
    press(page, KEYS.Key_Down)
    assert page.go.accessibleName() == "Go to Renew"
    press(page, KEYS.Key_Down)
    assert page.go.accessibleName() == "Open its send-out"
    with qtbot.waitSignal(page.settle) as last:
        press(page, KEYS.Key_Return)
    assert last.args[0].send_out_id


def test_escape_leaves_and_letters_go_into_the_one_field(qtbot, page, parts, settle):
    again(page, settle)
    page.setFocus()
    with qtbot.waitSignal(page.left):
        press(page, KEYS.Key_Escape)
    with qtbot.waitSignal(page.typed) as typed:
        press(page, KEYS.Key_K)
    assert typed.args == ["k"]


def test_the_chosen_one_stays_chosen_when_another_is_settled(page, parts, store, settle):
    again(page, settle)
    page.setFocus()
    press(page, KEYS.Key_Down)
    press(page, KEYS.Key_Down)
    services.fates.set_fate(store, [parts["shaft"]], Fate.REFIT)
    again(page, settle)
    assert page.list.here.called == "2 bearing"


def test_every_row_is_read_out_whole(page, parts, settle):
    again(page, settle)
    index = page.list.rows.index(2)
    said = page.list.rows.data(index, Qt.ItemDataRole.AccessibleTextRole)
    assert said.startswith("2 bearing, it is away at Mill Lane, Ask Mill Lane: 2 days late")


def test_every_control_has_a_name_and_no_page_is_left_behind(qtbot, desk, page, parts, settle):
    again(page, settle)
    assert nameless(page) == []

    def make() -> HoldingPage:
        other = HoldingPage(desk)
        again(other, settle)
        return other

    assert dies(qtbot, make)


def test_what_is_late_is_said_once_with_its_job(store, job_id, parts):
    found = late(store)
    assert late_words(found, job_id) == (
        f"Late: {found[0].called}, 2 days. Alt+4 shows what is away."
    )
    title = services.jobs.get_job(store, job_id).title
    assert late_words(found, job_id + 1) == (
        f"Late: {found[0].called} ({title}), 2 days. Ctrl+J goes to another job."
    )
    assert late_words((), job_id) == ""
