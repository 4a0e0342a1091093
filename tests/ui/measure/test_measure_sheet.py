"""A measuring sheet as a page: read with a caliper that types, kept at once, told at once."""

from dataclasses import replace
from decimal import Decimal

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.measuring.sheet import Limits, SheetKind
from bagtag.domain.phrases import NBSP
from bagtag.ui.measure.sheet_page import LEAST
from tests.ui.forms_kit import ENTER, TAB, press, write
from tests.ui.measure.measure_kit import (
    GAUGE,
    LIMITS,
    OVERSIZES,
    SIX,
    caliper,
    readings,
)


def plain(said: str) -> str:
    """With spaces that a line may break at."""
    return said.replace(NBSP, " ")


def test_a_caliper_goes_from_field_to_field_and_each_figure_is_kept(
    stage, sheet, store, desk, settle
):
    made = sheet()
    assert stage.page.table.cells[0].line.hasFocus()
    caliper(*SIX)
    settle(desk)
    assert list(readings(store, made).values()) == [f"{one} mm" for one in SIX]
    assert stage.page.verdict.head.text() == "No limit given"
    assert stage.page.verdict.hasFocus()


def test_one_figure_too_many_changes_and_decides_nothing(stage, sheet, store, desk, settle):
    made = sheet()
    caliper(*SIX, "76.99")
    settle(desk)
    assert list(readings(store, made).values()) == [f"{one} mm" for one in SIX]
    assert services.measuring.get_sheet(store, made).decision is None
    assert stage.page.isVisible()


def test_the_verdict_is_there_before_the_store_has_answered(stage, sheet):
    sheet(limits=LIMITS, given=OVERSIZES)
    caliper(*SIX)
    assert stage.page.verdict.head.text() == "Out of limits"
    said = plain(" ".join(stage.page.verdict.said))
    assert "out of limits by 0.11" in said
    assert "Rebore to 76.50" in said


def test_each_reading_is_an_act_of_its_own_and_undone_alone(stage, sheet, store, desk, settle):
    made = sheet()
    caliper(*SIX[:2])
    settle(desk)
    desk.act(services.history.undo, desk.job_id)
    settle(desk)
    assert list(readings(store, made)) == ["top, across"]
    assert [cell.text for cell in stage.page.table.cells][:3] == ["76.31", "", ""]


def test_who_comes_back_to_a_sheet_goes_on_at_the_next_place(stage, sheet, desk, settle):
    sheet()
    caliper(*SIX[:2])
    settle(desk)
    stage.setFocus()
    stage.enter()
    settle(desk)
    assert stage.page.table.cells[2].line.hasFocus()


def test_the_drawing_stands_beside_the_fields_where_the_page_is_low(stage, sheet, desk, settle):
    sheet()
    page = stage.page
    for high, side in ((660, page.work_side), (400, page.said_side)):
        stage.resize(940, high)
        settle(desk)
        here, beside = (one.mapTo(page, QPoint(0, 0)) for one in (page.drawing, side))
        assert here.x() == beside.x()
        assert here.y() + page.drawing.height() <= beside.y()
        assert page.drawing.height() >= LEAST


def tabbed(times: int) -> list[str]:
    """What Tab comes to, one after the other."""
    found = []
    for _ in range(times):
        press(TAB)
        found.append(QApplication.focusWidget().accessibleName())
    return found


def test_tab_goes_down_the_page_after_other_fields_came_up_too(stage, sheet, desk, settle):
    sheet(SheetKind.VALVES)
    page = stage.page
    cylinders = page.given.given[0]
    cylinders.line.setFocus()
    write("2")
    press(ENTER)
    settle(desk)
    assert len(page.table.cells) == 8
    page.with_.box.setFocus()
    fields = [
        *(cell.line for cell in page.table.cells),
        *(one.line for one in page.given.given),
        *(line for row in page.limits.rows for line in row.lines.values()),
    ]
    before = tabbed(2)
    assert before == ["Add an instrument", "Unit: mm"]
    assert tabbed(len(fields)) == [one.accessibleName() for one in fields]
    below = (page.more.press, page.verdict, page.decision.work, page.decision.why)
    assert tabbed(4) == [one.accessibleName() for one in below]
    assert tabbed(1) == ["Decide: refit"]


def test_a_comma_and_inches_are_read(sheet, store, desk, settle):
    made = sheet()
    caliper("76,31", "3.002 in", '3.002"')
    settle(desk)
    assert list(readings(store, made).values()) == ["76.31 mm", "3.002 in", "3.002 in"]


def test_inches_in_a_millimetre_field_are_asked_about(stage, sheet, desk, settle):
    sheet()
    caliper(*SIX[:5], "3.002")
    settle(desk)
    (asked,) = [one for one in stage.page.questions.sentences if "3.002" in one]
    assert "in" in asked.split()


def test_what_is_no_figure_stays_and_is_said_beside_its_field(stage, sheet, store, desk, settle):
    made = sheet()
    caliper("76.3l")
    cell = stage.page.table.cells[0]
    assert cell.line.hasFocus()
    assert "not a unit" in cell.wrong.text()
    settle(desk)
    assert cell.text == "76.3l"
    assert readings(store, made) == {}
    cell.line.selectAll()
    caliper("76.31")
    settle(desk)
    assert cell.wrong.text() == ""
    assert readings(store, made) == {"top, across": "76.31 mm"}


def test_what_cannot_be_measured_is_said_beside_its_field(stage, sheet, store, desk, settle):
    made = sheet()
    caliper("0")
    settle(desk)
    cell = stage.page.table.cells[0]
    assert "no size" in cell.wrong.text()
    assert cell.text == "0"
    assert readings(store, made) == {}


def test_a_field_that_is_left_is_kept_too_and_an_emptied_one_is_taken_out(
    stage, sheet, store, desk, settle
):
    made = sheet()
    write("76.31")
    press(TAB)
    settle(desk)
    assert list(readings(store, made)) == ["top, across"]
    stage.page.table.cells[0].line.setFocus(Qt.FocusReason.TabFocusReason)
    press(Qt.Key.Key_Delete)
    press(ENTER)
    settle(desk)
    assert readings(store, made) == {}


def test_one_read_again_leads_to_the_next_one(stage, sheet, desk, settle):
    sheet()
    caliper(*SIX)
    settle(desk)
    cells = stage.page.table.cells
    cells[1].line.setFocus(Qt.FocusReason.TabFocusReason)
    caliper("76.25")
    assert cells[2].line.hasFocus()
    assert cells[1].text == "76.25"


def test_what_is_being_typed_outlasts_what_comes_from_the_store(stage, sheet, store, desk, settle):
    made = sheet()
    write("76.")
    kept = services.measuring.get_sheet(store, made)
    desk.act(services.measuring.save, replace(kept, note="scored"))
    settle(desk)
    assert stage.page.table.cells[0].text == "76."
    assert stage.page.more.note.text() == "scored"


def test_with_an_instrument_a_figure_near_its_limit_is_too_close_to_call(
    stage, sheet, store, desk, settle
):
    services.instruments.add_instrument(store, GAUGE, who="MK")
    made = sheet(limits=(Limits("size", wear_high=Decimal("76.20")),))
    page = stage.page
    page.with_.box.setFocus()
    press(Qt.Key.Key_Down)
    page.table.begin()
    caliper("76.20", *["76.10"] * 5)
    settle(desk)
    assert page.verdict.head.text() == "Too close to call"
    assert page.verdict.sign.verdict is Verdict.CLOSE
    first = services.measuring.get_sheet(store, made).readings[0]
    assert (first.instrument, first.resolution) == ("bore gauge", Decimal("0.01"))


def test_a_step_is_turned_into_the_unit_of_the_reading(stage, sheet, store, desk, settle):
    services.instruments.add_instrument(store, GAUGE, who="MK")
    made = sheet(unit="in")
    stage.page.with_.want("bore gauge")
    stage.page.table.begin()
    caliper("3.002")
    settle(desk)
    (one,) = services.measuring.get_sheet(store, made).readings
    assert one.unit == "in"
    assert abs(one.resolution * Decimal("25.4") - GAUGE.resolution) < Decimal("1e-20")


def test_the_unit_of_the_sheet_is_chosen_once(stage, sheet, store, desk, settle):
    made = sheet()
    stage.page.with_.unit.choose("in")
    settle(desk)
    stage.page.table.begin()
    caliper("3.002")
    settle(desk)
    assert readings(store, made) == {"top, across": "3.002 in"}


def test_the_temperature_goes_with_what_is_read_next(stage, sheet, store, desk, settle):
    made = sheet()
    stage.page.with_.warm.setText("35")
    caliper("76.31")
    settle(desk)
    (one,) = services.measuring.get_sheet(store, made).readings
    assert one.temperature == 35
    assert any("35 °C" in one for one in stage.page.questions.sentences)
    stage.page.with_.warm.setText("warm")
    caliper("76.24")
    settle(desk)
    assert "warm" in stage.page.table.cells[1].wrong.text()
    assert "warm" in stage.page.with_.fields["temperature"].wrong.text()


def test_no_temperature_is_asked_where_it_does_not_matter(stage, sheet):
    sheet(SheetKind.BACKLASH)
    assert stage.page.with_.fields["temperature"].isHidden()
