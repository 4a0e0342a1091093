"""From what holds the job up to the very part in Away, Renew and Measure, and back again."""

from datetime import date, timedelta
from types import SimpleNamespace

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.model import Fate
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import PackForm, Wanted
from bagtag.ui.holding.holding_work import BACK
from tests.ui.away.away_kit import sent_before
from tests.ui.shell_kit import close_window, key, open_window

TODAY = date.today()


@pytest.fixture
def parts(store, job_id):
    """Two gaskets to buy, two shafts to decide of which one has a sheet, a case at a shop."""
    ids = {
        name: services.strip.log_removal(store, job_id, Entry(name), who="Ada").new_id
        for name in ("case", "gasket, left", "gasket, right", "shaft", "cam")
    }
    form = PackForm("Mill Lane", TODAY - timedelta(days=9), TODAY - timedelta(days=2))
    services.send_outs.send(store, job_id, form, [Wanted(ids["case"], "skim")], who="Ada")
    for name in ("gasket, left", "gasket, right"):
        services.fates.set_fate(store, [ids[name]], Fate.RENEW, who="Ada")
    for name in ("shaft", "cam"):
        services.fates.set_fate(store, [ids[name]], Fate.DECIDE, who="Ada")
    services.measuring.add_sheet(store, job_id, SheetKind.SIZE, ids["cam"], who="Ada")
    return ids


@pytest.fixture
def window(qtbot, store, parts, settle):
    made = open_window(qtbot, store, settle)
    key(made, "F11")
    settle(made.desk)
    yield made
    close_window(made)


def go_to(window, settle, removal_id: int):
    """Walk to what holds the job up, and press Enter; the page that comes."""
    place = next(n for n, row in enumerate(window.work.page.found.rows) if row.ref.id == removal_id)
    for one in ("Home", *["Down"] * place, "Return"):
        key(window, one)
    settle(window.desk)
    return window.work.page


def back(window, settle, times: int = 1) -> str:
    for _ in range(times):
        key(window, "Escape")
        settle(window.desk)
    return window.work.stage


@pytest.mark.parametrize("name", ["gasket, left", "gasket, right"])
def test_a_new_part_is_chosen_in_renew(window, settle, parts, name) -> None:
    page = go_to(window, settle, parts[name])
    assert window.work.stage == "Renew"
    assert page.list.here.removal.id == page.side.line.removal.id == parts[name]
    assert page.list.hasFocus()
    assert window.message.text == BACK
    assert back(window, settle) == "Holding"
    assert window.work.page.list.here.ref.id == parts[name]
    assert window.message.text == ""


def test_a_part_without_a_sheet_has_the_keys_in_measure(window, settle, parts) -> None:
    page = go_to(window, settle, parts["shaft"])
    row = next(row for row in page.list.rows if row.removal_id == parts["shaft"])
    assert row.first.hasFocus()
    assert back(window, settle) == "Holding"


def test_a_sheet_is_opened_and_left_for_its_list_first(window, settle, parts) -> None:
    page = go_to(window, settle, parts["cam"])
    assert page.ties.is_open
    assert back(window, settle) == "Measure"
    assert not page.ties.is_open
    assert back(window, settle) == "Holding"


def test_a_sheet_that_is_open_gives_way_to_another_part(window, settle, parts) -> None:
    go_to(window, settle, parts["cam"])
    key(window, "F11")
    settle(window.desk)
    page = go_to(window, settle, parts["shaft"])
    assert not page.ties.is_open
    row = next(row for row in page.list.rows if row.removal_id == parts["shaft"])
    assert row.first.hasFocus()


def test_a_send_out_is_opened_and_left_for_all_of_them_first(window, settle, parts) -> None:
    page = go_to(window, settle, parts["case"])
    assert page.pages.currentWidget() is page.one
    assert isinstance(page.one.batch.send_out, SendOut)
    assert back(window, settle) == "Away"
    assert back(window, settle) == "Holding"


def test_what_an_older_store_sent_is_found_in_away(window, settle, store, parts) -> None:
    job_id = window.desk.job_id
    shaft = SimpleNamespace(id=job_id, parts={"shaft": parts["shaft"]})
    sent_before(store, shaft, "shaft")
    window.work.open_holding()
    settle(window.desk)
    page = go_to(window, settle, parts["shaft"])
    assert window.work.stage == "Away"
    assert page.pages.currentWidget() is page.all
    assert back(window, settle) == "Holding"


def test_what_is_typed_in_the_field_goes_on_when_something_changes(
    window, settle, store, parts
) -> None:
    window.work.focus_field()
    change = services.fates.set_fate(store, [parts["shaft"]], Fate.REFIT, who="Ada")
    window.desk.changed.emit(change)
    settle(window.desk)
    assert parts["shaft"] not in [row.ref.id for row in window.work.page.found.rows]
    assert window.field.frame.line.hasFocus()


def test_nothing_leads_back_once_one_has_gone_elsewhere(window, settle, parts) -> None:
    go_to(window, settle, parts["gasket, left"])
    key(window, "Alt+4")
    key(window, "Alt+5")
    settle(window.desk)
    assert back(window, settle) == "Renew"
