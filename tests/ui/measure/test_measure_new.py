"""A new measuring sheet, and the instruments one measures with."""

from datetime import date
from decimal import Decimal

import pytest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.ui.measure.instrument_form import InstrumentDialog, open_instrument
from bagtag.ui.measure.measure_stage import MeasureStage
from bagtag.ui.measure.measure_with import NOBODY_SAYS
from bagtag.ui.measure.new_sheet import NewSheet, open_new_sheet
from tests.ui.forms_kit import ENTER, TAB, press, write
from tests.ui.measure.measure_kit import GAUGE, add, cylinder
from tests.ui.shell_kit import key
from tests.ui.stages_job import dies, nameless


@pytest.fixture
def stage(job, entered):
    return entered(MeasureStage, 1200, 660)


@pytest.fixture
def the(stage, qtbot):
    """The dialog of a kind that is open, once it has the keys."""

    def find(kind):
        (dialog,) = stage.findChildren(kind)
        dialog.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is dialog)
        return dialog

    return find


# New sheets


def test_the_likely_kind_of_the_part_that_has_the_keys_stands_first(
    stage, the, desk, store, job, settle
):
    part = cylinder(store, job)
    stage.enter()
    settle(desk)
    next(row for row in stage.list.rows if row.removal_id == part).first.setFocus()
    key(stage, "Ctrl+N")
    settle(desk)
    dialog = the(NewSheet)
    assert dialog.kind.value is SheetKind.BORE
    assert dialog.focusWidget() is dialog.kind.choice(SheetKind.BORE)
    assert dialog.part.line.text().endswith("cylinder")
    dialog.title.setText("cylinder 1")
    press(ENTER)
    settle(desk)
    assert stage.page.isVisible()
    assert stage.page.under.text() == "Bore, cylinder 1"
    made = services.measuring.get_sheet(store, stage.ties.work.sheet_id)
    assert (made.removal_id, made.kind, made.made_by) == (part, SheetKind.BORE, "Ada")
    assert stage.focusWidget() is stage.page.table.cells[0].line


def test_a_part_is_chosen_by_its_name_or_none(stage, desk, store, job, settle, qtbot):
    dialog = open_new_sheet(desk, stage)
    settle(desk)
    dialog.part.setFocus()
    write("main shaft")
    settle(desk)
    press(ENTER)
    settle(desk)
    assert dialog.removal_id in (job.parts["main shaft"], job.parts["main shaft bearing"])
    dialog.part.line.clear()
    dialog.kind.choose(SheetKind.COMPRESSION)
    dialog.save()
    settle(desk)
    made = services.measuring.get_sheet(store, stage.ties.work.sheet_id or 1)
    assert (made.removal_id, made.kind) == (None, SheetKind.COMPRESSION)


def test_a_part_that_is_only_typed_is_asked_for(stage, desk, settle):
    dialog = open_new_sheet(desk, stage)
    settle(desk)
    dialog.part.line.setText("some shaft")
    dialog.save()
    settle(desk)
    assert "from the list" in dialog.fields["removal_id"].wrong.text()
    assert dialog.part.line.text() == "some shaft"
    assert services.measuring.for_stage(desk.store, desk.job_id)[0].sheets == ()


def test_the_form_of_a_new_sheet_has_names_and_dies(stage, desk, qtbot, settle):
    def make() -> NewSheet:
        made = NewSheet(desk, None)
        settle(desk)
        assert nameless(made) == []
        return made

    assert dies(qtbot, make)


# Instruments


@pytest.fixture
def sheet(stage, desk, store, job, settle):
    made = add(store, job, part=cylinder(store, job))
    stage.show_sheet(made)
    settle(desk)
    return made


def test_an_instrument_is_added_where_one_measures_and_chosen(
    stage, sheet, the, desk, store, settle
):
    stage.page.with_.add.click()
    the(InstrumentDialog)
    for text in ("bore gauge", "0,01"):
        write(text)
        press(TAB)
    press(TAB)
    write("14.3.2026")
    press(ENTER)
    settle(desk)
    (kept,) = services.instruments.all_instruments(store)
    assert kept == Instrument("bore gauge", Decimal("0.01"), "mm", date(2026, 3, 14), id=kept.id)
    assert stage.page.with_.box.currentText() == "bore gauge, 0.01 mm"
    assert stage.findChildren(InstrumentDialog) == []


def test_one_is_changed_and_taken_out(stage, sheet, the, desk, store, settle):
    services.instruments.add_instrument(store, GAUGE, who="MK")
    stage.enter()
    settle(desk)
    stage.page.with_.want("bore gauge")
    stage.page.with_.edit.click()
    dialog = the(InstrumentDialog)
    assert dialog.step.text() == "0.01"
    assert dialog.aged.sentences
    dialog.step.setText("0.005")
    dialog.save()
    settle(desk)
    assert stage.page.with_.box.currentText() == "bore gauge, 0.005 mm"
    stage.page.with_.edit.click()
    the(InstrumentDialog).out.click()
    settle(desk)
    assert services.instruments.all_instruments(store) == ()
    assert stage.page.with_.box.currentText() == NOBODY_SAYS
    assert stage.page.with_.edit.isHidden()


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("name", "", "name"),
        ("resolution", "", "figure"),
        ("resolution", "fine", "no figure"),
        ("resolution", "0", "above zero"),
        ("resolution", "-0.01", "above zero"),
        ("calibrated_on", "last spring", "2026-03-14"),
    ],
)
def test_what_cannot_be_is_said_below_its_field_and_stays(
    stage, desk, store, settle, name, typed, said
):
    dialog = open_instrument(desk, stage, GAUGE)
    field = dialog.fields[name]
    field.editor.setText(typed)
    dialog.save()
    settle(desk)
    assert said in field.wrong.text()
    assert field.editor.text() == typed
    assert dialog.isVisible()
    assert services.instruments.all_instruments(store) == ()


def test_an_inch_that_is_typed_goes_before_the_unit_that_is_chosen(stage, desk, store, settle):
    dialog = open_instrument(desk, stage)
    dialog.name.setText("micrometer 3 to 4 in")
    dialog.step.setText("0.001 in")
    dialog.save()
    settle(desk)
    (kept,) = services.instruments.all_instruments(store)
    assert (kept.resolution, kept.unit) == (Decimal("0.001"), "in")


def test_only_instruments_of_the_unit_that_is_read_are_offered(stage, desk, store, job, settle):
    for one in (GAUGE, Instrument("spring balance", Decimal(1), "N")):
        services.instruments.add_instrument(store, one, who="MK")
    stage.show_sheet(add(store, job, SheetKind.SPRING))
    settle(desk)
    box = stage.page.with_.box
    assert [box.itemText(at) for at in range(box.count())] == [NOBODY_SAYS, "bore gauge, 0.01 mm"]
    stage.page.with_.want("bore gauge")
    stage.page.with_.want("spring balance")
    load = next(cell for cell in stage.page.table.cells if cell.place.unit == "N")
    load.line.setFocus()
    assert box.currentText() == "spring balance, 1 N"
    stage.page.table.cells[0].line.setFocus()
    assert box.currentText() == "bore gauge, 0.01 mm"


def test_its_form_has_names_and_dies(stage, desk, qtbot, settle):
    def make() -> InstrumentDialog:
        made = InstrumentDialog(desk, None, GAUGE)
        assert nameless(made) == []
        return made

    assert dies(qtbot, make)


def test_another_sheet_begins_with_what_it_was_read_with(stage, desk, store, job, settle):
    for one in (GAUGE, Instrument("feelers", Decimal("0.05"))):
        services.instruments.add_instrument(store, one, who="MK")
    bore, gap, second = (
        add(store, job, kind) for kind in (SheetKind.BORE, SheetKind.RING_GAP, SheetKind.BORE)
    )
    box = stage.page.with_.box
    stage.show_sheet(bore)
    settle(desk)
    stage.page.with_.want("bore gauge")
    stage.show_sheet(gap)
    settle(desk)
    assert box.currentText() == NOBODY_SAYS
    stage.show_sheet(second)
    settle(desk)
    assert box.currentText() == "bore gauge, 0.01 mm"
