"""Away in the window: a scan goes to what is open there, its keys press and type nothing."""

import pytest

from bagtag import services
from bagtag.ui.forms.lone_keys import QUIET
from tests.ui.away.away_kit import batch, called_out, code, days, send_cover, send_drum
from tests.ui.measure.measure_kit import at_pace
from tests.ui.shell_kit import close_window, key, open_window, rest, scan, type_line
from tests.ui.stages_job import gearbox, own_settings


@pytest.fixture
def there(store, job_id, tmp_path):
    """A gearbox, and the cover and the main shaft at the shop."""
    own_settings(tmp_path / "settings")
    made = gearbox(store)
    return made, send_cover(store, made, days(-4))


@pytest.fixture
def window(qtbot, store, there, settle):
    made = open_window(qtbot, store, settle)
    made.desk.choose_job(there[0].id)
    made.work.go_to("Away")
    settle(made.desk)
    yield made
    close_window(made)


def scanned(qtbot, window, settle, text: str) -> None:
    scan(window.windowHandle(), text)
    rest(qtbot, window, settle)


def test_scans_at_check_in_tick_and_leave_what_is_typed_alone(
    qtbot, window, settle, store, there
) -> None:
    job, sent = there
    page = window.work.page
    page.check_in(sent)
    scanned(qtbot, window, settle, code(store, job, "cover, clutch side"))
    cover, _, shaft = page.back.rows.values()
    assert cover.is_here
    assert cover.figures[0].line.hasFocus()
    cover.figures[0].line.setText("0.03")
    scanned(qtbot, window, settle, code(store, job, "main shaft"))
    assert cover.figures[0].line.text() == "0.03"
    assert shaft.is_here
    assert page.pages.currentWidget() is page.back
    assert len(called_out(store, sent)) == 3  # the Enter of a scanner checks nothing in


def test_a_code_typed_in_the_field_above_is_taken_at_check_in_too(
    qtbot, window, settle, store, there
) -> None:
    job, sent = there
    page = window.work.page
    page.check_in(sent)
    type_line(window, code(store, job, "main shaft"))
    qtbot.keyClick(window.field.frame.line, "\r")
    rest(qtbot, window, settle)
    assert list(page.back.rows.values())[-1].is_here


def test_scans_while_packing_choose_parts(qtbot, window, settle, store, there) -> None:
    job, _ = there
    page = window.work.page
    page.all.send.click()
    settle(window.desk)
    page.pack.shop.shop.line.setText("plater")
    scanned(qtbot, window, settle, code(store, job, "shift drum"))
    assert page.pack.pick.values == [job.parts["shift drum"]]
    assert page.pack.shop.shop.text == "plater"
    assert page.pack.panels[job.parts["shift drum"]].form.work.text() == ""
    assert len(services.send_outs.batches(store, job.id)) == 1


def test_a_scanned_traveller_opens_its_send_out_from_anywhere(
    qtbot, window, settle, store, there
) -> None:
    job, _ = there
    other = send_drum(store, job)
    window.work.go_to("Strip")
    scanned(qtbot, window, settle, services.send_outs.batch(store, other).send_out.code)
    page = window.work.page
    assert window.stages.current == "Away"
    assert page.pages.currentWidget() is page.one
    assert page.one.key == other


def test_a_part_scanned_on_the_page_of_a_send_out_shows_its_card(
    qtbot, window, settle, store, there
) -> None:
    job, sent = there
    window.work.page.show_batch(sent)
    scanned(qtbot, window, settle, code(store, job, "main shaft"))
    assert window.work.page is window.work.bench
    assert window.work.bench.card.removal_id == job.parts["main shaft"]


def test_a_traveller_scanned_at_its_check_in_is_said_to_be_no_part(
    qtbot, window, settle, store, there
) -> None:
    _, sent = there
    page = window.work.page
    page.check_in(sent)
    scanned(qtbot, window, settle, services.send_outs.batch(store, sent).send_out.code)
    assert "send-out itself" in page.back.scanned.said.text()


def test_it_is_back_on_a_card_opens_the_check_in_with_it_ticked(
    qtbot, window, settle, store, there
) -> None:
    job, sent = there
    scanned(qtbot, window, settle, code(store, job, "cover, clutch side"))
    assert window.work.bench.card_id == job.parts["cover, clutch side"]
    key(window, "F10")
    settle(window.desk)
    page = window.work.page
    assert window.work.stage == "Away"
    assert page.pages.currentWidget() is page.back
    ticked = [row.item.removal.name for row in page.back.rows.values() if row.is_here]
    assert ticked == ["cover, clutch side"]
    assert page.back.rows[next(iter(page.back.rows))].figures[0].line.hasFocus()
    assert len(called_out(store, sent)) == 3


def test_a_scanned_traveller_of_another_job_goes_to_its_send_out(
    qtbot, window, settle, store, there
) -> None:
    job, sent = there
    form = services.jobs.JobForm("Water pump")
    other = services.jobs.open_job(store, form, who="Ada").new_id
    window.desk.choose_job(other)
    window.work.go_to("Strip")
    settle(window.desk)
    scanned(qtbot, window, settle, batch(store, sent).send_out.code)
    assert (window.desk.job_id, window.work.stage) == (job.id, "Away")
    page = window.work.page
    assert page.pages.currentWidget() is page.one
    assert page.one.key == sent


def test_a_scan_that_was_misread_at_check_in_ticks_nothing(
    qtbot, window, settle, store, there
) -> None:
    job, sent = there
    page = window.work.page
    page.check_in(sent)
    scanned(qtbot, window, settle, code(store, job, "main shaft"))
    *_, shaft = page.back.rows.values()
    assert shaft.all_right.hasFocus()
    at_pace(window.windowHandle(), "RRSNRC\r")  # its last letter does not fit the others
    settle(window.desk)
    assert shaft.checks.values == ()
    assert shaft.is_here
    qtbot.wait(QUIET + 20)
    at_pace(window.windowHandle(), "\r")
    assert len(shaft.checks.values) == 3
    assert len(called_out(store, sent)) == 3
