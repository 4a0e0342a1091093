"""Traveller, order list and measuring page: seen, saved, and closed again."""

from datetime import date

import pypdfium2
import pytest

from bagtag import services
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.new_part import NewPart
from bagtag.services.send_outs import PackForm, Wanted
from bagtag.ui.sheets.measure_dialog import open_measure_page
from bagtag.ui.sheets.order_dialog import Of, open_order_list
from bagtag.ui.sheets.pages_dialog import file_named
from bagtag.ui.sheets.traveller_dialog import open_traveller
from tests.ui.stages_job import dies


@pytest.fixture
def barrel(store, job_id):
    return services.tape.log_line(store, job_id, "cylinder barrel, bag 1", who="Ada").new_id


def traveller(desk, store, job_id, barrel):
    form = PackForm("Mill Lane", date.today())
    sent = services.send_outs.send(store, job_id, form, [Wanted(barrel, "Bore.")]).new_id
    return open_traveller(desk, None, sent)


def order(desk, store, job_id, _):
    part = NewPart(0, "", job_id, what="Bore. Gasket paper", supplier="Paper House")
    services.renewals.save(store, part)
    return open_order_list(desk, None, [job_id])


def measure(desk, store, job_id, barrel):
    made = services.measuring.add_sheet(store, job_id, SheetKind.BORE, barrel).new_id
    return open_measure_page(desk, None, made)


@pytest.mark.parametrize("make", [traveller, order, measure])
def test_it_is_shown_and_saved(make, qtbot, desk, store, job_id, barrel, settle, tmp_path):
    dialog = make(desk, store, job_id, barrel)
    settle(desk)
    assert dialog.said.text() == "1 page."
    assert len(dialog.pages.pages) == 1
    file = tmp_path / dialog.file_name()
    dialog.save_to(str(file))
    settle(desk)
    with pypdfium2.PdfDocument(file) as document:
        assert "Bore" in document[0].get_textpage().get_text_bounded()
    assert f"Saved as {file.name}." in dialog.said.text()
    dialog.reject()


@pytest.mark.parametrize("make", [traveller, order, measure])
def test_it_is_gone_once_closed(make, qtbot, desk, store, job_id, barrel, settle):
    def made():
        dialog = make(desk, store, job_id, barrel)
        settle(desk)
        dialog.reject()
        return dialog

    assert dies(qtbot, made)


def test_what_is_ordered_already_is_shown_when_asked(qtbot, desk, store, job_id, barrel, settle):
    dialog = order(desk, store, job_id, barrel)
    settle(desk)
    assert dialog.more()[0] == services.order_sheets.Which()
    dialog.of.set_value(Of.ALL)
    dialog.of.chosen.emit()
    qtbot.waitUntil(lambda: not dialog._timer.isActive())
    settle(desk)
    assert dialog.more()[0].everything
    assert dialog.said.text() == "1 page."
    dialog.reject()


@pytest.mark.parametrize(
    ("of", "name"),
    [
        ("", "traveller.pdf"),
        ("send-out 2, Mill Lane", "traveller, send-out 2, Mill Lane.pdf"),
        ('send-out 3, Birch/Ash: "grinders"', "traveller, send-out 3, Birch Ash grinders.pdf"),
        ("x" * 300, f"traveller, {'x' * 80}.pdf"),
    ],
)
def test_a_file_is_named_after_what_it_is_of(of, name):
    assert file_named("traveller", of) == name


def test_a_batch_that_is_gone_is_said(qtbot, desk, job_id, settle):
    dialog = open_traveller(desk, None, 99)
    settle(desk)
    assert "no longer" in dialog.wrong.text()
    dialog.reject()
