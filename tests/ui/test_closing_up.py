"""Closing up: a cover that goes on over something missing is asked about, and left open first."""

import pytest
from PIL import Image
from PySide6.QtCore import Qt

from bagtag import services
from bagtag.domain.fitting import Ref, part
from bagtag.domain.model import Fate, Replacement
from bagtag.ui.card.closing_up import ROW
from tests.ui.sign_kit import enter, signed
from tests.ui.stages_job import nameless, sentence_of

COVER = "cover, clutch side"


@pytest.fixture
def cover(job) -> Ref:
    """The opener of the gearbox; six bolts of 10 N·m hold it."""
    return part(job.parts[COVER])


@pytest.fixture
def closing(bench_card, desk, settle, cover):
    """The cover on the card, and F6 pressed."""
    bench_card.activateWindow()
    bench_card.show_removal(cover.id)
    settle(desk)
    bench_card.acts.fitted.click()
    settle(desk)
    return bench_card.signing


def lines(panel) -> list[str]:
    return [line.title for line in panel.closing.list.steps.lines]


def test_everything_behind_it_that_is_not_in_is_listed(closing, job) -> None:
    assert closing.closing.isVisible()
    assert closing.closing.head.text() == "Close it over 7 missing?"
    assert lines(closing)[:7] == [
        "9 oil jets",
        "8 main shaft",
        "7 main shaft bearing",
        "6 shift fork R",
        "5 shift fork L",
        "4 shift drum",
        "3 retainer plate",
    ]
    first = closing.closing.list.steps.lines[0]
    assert "Lower case > Gearbox" in first.detail
    assert "the new part is not here yet" in first.detail


def test_to_leave_it_open_is_the_first_choice(closing, qtbot, store, job, cover) -> None:
    assert closing.closing.leave.hasFocus()
    assert closing.closing.leave.property("role") == "primary"
    qtbot.keyClick(closing.closing.leave, Qt.Key.Key_Return)
    assert not closing.isVisible()
    assert signed(store, job, cover) is None


@pytest.mark.parametrize("where", ["leave", "line", "list"])
def test_escape_leaves_it_open_from_anywhere(closing, qtbot, store, job, cover, where) -> None:
    widget = getattr(closing.closing, where)
    widget.setFocus()
    qtbot.keyClick(widget, Qt.Key.Key_Escape)
    assert not closing.isVisible()
    assert signed(store, job, cover) is None


def test_it_is_not_closed_without_a_reason(closing, qtbot, store, job, cover) -> None:
    closing.closing.close_it.click()
    assert "why it is closed over what is missing" in closing.closing.reason.wrong.text()
    assert closing.closing.line.hasFocus()
    enter(qtbot, closing.closing.line, "   ")
    assert closing.closing.isVisible()
    assert signed(store, job, cover) is None


def test_with_a_reason_what_else_is_asked_comes_next(
    closing, qtbot, desk, settle, store, job, cover
) -> None:
    enter(qtbot, closing.closing.line, "only to try the gasket")
    fields = closing.fields
    assert fields.isVisible()
    assert not closing.closing.isVisible()
    assert "7 behind it are not in yet" in fields.waits.text
    assert fields.reason.line.text() == "only to try the gasket"
    assert fields.counts[0].line.hasFocus()
    enter(qtbot, fields.counts[0].line)
    settle(desk)
    assert signed(store, job, cover).reason == "only to try the gasket"


def test_where_nothing_else_is_asked_the_reason_signs_it(
    bench_card, desk, settle, store, job, qtbot
) -> None:
    gasket = part(job.parts["gasket, cover"])
    services.fates.set_replacement(store, [gasket.id], Replacement.HERE)
    services.jobs.set_opener(store, job.areas["Gearbox"], gasket.id)
    bench_card.show_removal(gasket.id)
    settle(desk)
    bench_card.acts.fitted.click()
    settle(desk)
    enter(qtbot, bench_card.signing.closing.line, "a dry run")
    settle(desk)
    assert signed(store, job, gasket).reason == "a dry run"


def test_a_row_shows_its_part_and_the_reason_is_there_again(
    closing, qtbot, bench_card, desk, settle, cover, job
) -> None:
    shown = []
    desk.show_step.connect(shown.append)
    closing.closing.line.setText("a trial")
    rows = closing.closing.list
    rows.setFocus()
    qtbot.keyClick(rows, Qt.Key.Key_Down)
    qtbot.keyClick(rows, Qt.Key.Key_Return)
    assert shown == [part(job.parts["main shaft"])]
    assert closing.isVisible()  # Enter in the list is for its row alone
    at = rows.visualRect(rows.steps.index(2)).center()
    qtbot.mouseClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert shown[-1] == part(job.parts["main shaft bearing"])
    bench_card.show_removal(shown[-1].id)
    settle(desk)
    assert not closing.isVisible()
    bench_card.show_removal(cover.id)
    settle(desk)
    bench_card.acts.fitted.click()
    settle(desk)
    assert closing.closing.line.text() == "a trial"


def test_the_list_follows_what_is_fitted_meanwhile(
    closing, qtbot, desk, settle, store, job
) -> None:
    closing.closing.line.setText("a trial")
    closing.closing.line.setFocus()
    ref = part(job.parts["main shaft"])
    desk.act(services.signing.sign, ref, services.signing.SignForm(reason="dry"))
    settle(desk)
    assert closing.closing.head.text() == "Close it over 6 missing?"
    assert "8 main shaft" not in lines(closing)
    assert closing.closing.line.text() == "a trial"
    assert closing.closing.line.hasFocus()


def test_once_all_is_in_it_is_not_asked(bench_card, desk, settle, store, job, cover) -> None:
    board = services.board.board(store, job.id)
    for step in board.steps[: board.step(cover).place - 1]:
        form = services.signing.SignForm(reason="so it is")
        services.signing.sign(store, step.ref, form, who="Ada")
    bench_card.show_removal(cover.id)
    settle(desk)
    bench_card.acts.fitted.click()
    settle(desk)
    assert bench_card.signing.fields.isVisible()
    assert "behind it" not in sentence_of(bench_card.signing)


def test_what_else_it_waits_for_is_in_the_list_too(closing, desk, settle, store, job) -> None:
    last = closing.closing.list.steps.lines[-1]
    assert last.detail == "it waits for this too"
    assert last.title == "2 gasket, cover must go in first"
    assert last.ref == part(job.parts["gasket, cover"])


def test_pictures_are_painted_with_their_rows(closing, qtbot, desk, settle, store, job, tmp_path):
    rows = closing.closing.list
    before = rows.grab().toImage()
    red = tmp_path / "jets.png"
    Image.new("RGB", (80, 80), (200, 30, 30)).save(red)
    desk.act(services.photos.add, job.parts["oil jets"], [red])
    settle(desk)
    qtbot.waitUntil(lambda: rows.grab().toImage() != before)
    settle(desk)
    after = rows.grab().toImage()
    spot = after.pixelColor(30, ROW // 2)
    assert spot.red() > 150
    assert spot.green() < 90


def test_ten_thousand_behind_a_cover_stay_live(
    bench_card, desk, settle, store, job, cover, qtbot
) -> None:
    """Rows are painted when they come into sight, none is a widget."""
    from bagtag.services.signing import Missing, SignSheet

    missing = tuple(Missing(part(n), f"{n} roller", "Gearbox", "", "") for n in range(10_000))
    panel = bench_card.signing.closing
    widgets = len(panel.findChildren(object))
    panel.show_sheet(SignSheet(cover, job.id, COVER, missing=missing), "")
    assert panel.list.model().rowCount() == 10_000
    assert len(panel.findChildren(object)) == widgets


@pytest.mark.parametrize("size", [(560, 320), (900, 600)])
def test_all_is_in_sight_and_named(closing, bench_card, qtbot, size) -> None:
    bench_card.resize(*size)
    qtbot.wait(1)
    assert nameless(closing) == []
    inside = closing.closing.rect()
    for widget in (closing.closing.leave, closing.closing.close_it, closing.closing.line):
        place = widget.mapTo(closing.closing, widget.rect().bottomRight())
        assert inside.contains(place)
        assert widget.height() >= 44
    assert closing.closing.list.height() >= ROW


def test_a_scrapped_part_behind_it_is_not_missing(closing, desk, settle, job) -> None:
    desk.act(services.fates.set_fate, [job.parts["shift drum"]], Fate.SCRAP)
    settle(desk)
    assert closing.closing.head.text() == "Close it over 6 missing?"
