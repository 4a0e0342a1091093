"""A sheet's limits and what is given on it, typed and kept; a shim swap as it is drawn."""

from decimal import Decimal

from bagtag import services
from bagtag.domain.measuring.sheet import Given, Limits, SheetKind
from tests.ui.forms_kit import ENTER, TAB, press, write
from tests.ui.measure.measure_kit import (
    LIMITS,
    caliper,
)
from tests.ui.stages_job import nameless, sentence_of


def test_limits_are_typed_and_kept(stage, sheet, store, desk, settle):
    made = sheet()
    row = stage.page.limits.rows[0]
    row.lines["new_low"].setFocus()
    for figure in ("76,00", "76.02"):
        write(figure)
        press(ENTER)
    write("")
    press(ENTER)
    write("3.000 in")
    press(ENTER)
    settle(desk)
    (kept,) = services.measuring.get_sheet(store, made).limits
    assert (kept.new_low, kept.new_high, kept.wear_low) == (
        Decimal("76.00"),
        Decimal("76.02"),
        None,
    )
    assert kept.wear_high == Decimal("76.2")


def test_limits_that_are_turned_round_are_said_beside_them_and_stay(
    stage, sheet, store, desk, settle
):
    made = sheet()
    lines = stage.page.limits.rows[0].lines
    lines["new_low"].setFocus()
    write("76.02")
    press(TAB)
    write("76.00")
    press(TAB)
    settle(desk)
    assert "wrong way round" in stage.page.limits.rows[0].wrong.text()
    assert [lines[side].text() for side in ("new_low", "new_high")] == ["76.02", "76.00"]
    (kept,) = services.measuring.get_sheet(store, made).limits
    assert kept.new_high is None


def test_a_ratio_has_limits_without_a_unit(stage, sheet, store, desk, settle):
    given = (Given("bore", Decimal(76), "mm"), Given("stroke", Decimal(70), "mm"))
    made = sheet(SheetKind.COMPRESSION, given=given)
    row = next(row for row in stage.page.limits.rows if row.slot.key == "ratio")
    row.lines["new_high"].setFocus()
    write("8.6")
    press(ENTER)
    stage.page.table.begin()
    caliper("38")
    settle(desk)
    assert services.measuring.get_sheet(store, made).limits[0].unit == ""
    assert stage.page.verdict.head.text() == "Out of limits"


def test_several_that_are_given_stand_in_one_line(stage, sheet, store, desk, settle):
    made = sheet()
    field = next(one for one in stage.page.given.given if one.slot.key == "oversizes")
    field.line.setFocus()
    write("76,25 76,50; 76.75 mm")
    press(ENTER)
    settle(desk)
    given = services.measuring.get_sheet(store, made).given
    assert [one.value for one in given] == [Decimal(one) for one in ("76.25", "76.50", "76.75")]
    assert {one.unit for one in given} == {"mm"}
    assert field.line.text() == "76.25  76.50  76.75"


def test_a_count_has_no_unit_and_makes_the_places(stage, sheet, store, desk, settle):
    made = sheet(SheetKind.RING_GAP)
    field = next(one for one in stage.page.given.given if one.slot.key == "rings")
    field.line.setFocus()
    write("4 mm")
    press(ENTER)
    assert "Leave it out" in field.wrong.text()
    field.line.selectAll()
    write("4")
    press(ENTER)
    settle(desk)
    assert len(stage.page.table.cells) == 4
    assert services.measuring.get_sheet(store, made).given == (Given("rings", Decimal(4), ""),)


def test_a_reading_that_changes_what_is_asked_for_keeps_the_turn(stage, sheet, desk, settle):
    sheet(SheetKind.STACK)
    page = stage.page
    page.table.focus_on("depth")
    caliper("30.50")
    assert page.table.cell("height").line.hasFocus()
    caliper("30.00")
    settle(desk)
    assert "0.50" in " ".join(page.verdict.said)


def test_a_shim_swap_is_drawn_and_said(stage, sheet, desk, settle):
    sheet(
        SheetKind.VALVES,
        limits=(
            Limits("inlet", Decimal("0.10"), Decimal("0.16")),
            Limits("exhaust", Decimal("0.20"), Decimal("0.26")),
        ),
        given=(
            Given("cylinders", Decimal(2)),
            Given("series from", Decimal("2.00"), "mm"),
            Given("series to", Decimal("2.98"), "mm"),
            Given("series step", Decimal("0.02"), "mm"),
        ),
    )
    caliper("0.15", "0.30", "0.08", "0.22", "2.50", "2.40", "2.48", "2.60")
    settle(desk)
    page = stage.page
    assert [move.place.name for move in page.shims.moves] == ["1 exhaust", "2 inlet"]
    assert page.shims.isVisible()
    assert "2.40 out, 2.48 mm in, from 2 inlet" in page.shims.accessibleDescription()
    said = " ".join(page.verdict.said)
    assert "Buy none; swapping saves 2 shims" in said
    assert "put in" not in said


def test_every_control_has_a_name(stage, sheet):
    sheet(limits=LIMITS)
    stage.page.more.open(True)
    assert nameless(stage) == []
    assert "The maker's manual overrides every limit" in sentence_of(stage)
