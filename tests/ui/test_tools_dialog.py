"""Tools laid out and counted back on screen."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import OVERRIDE, HeldBy, Torque
from bagtag.domain.tools import ToolSheet
from bagtag.ui.forms.lone_keys import QUIET
from bagtag.ui.tools.special_form import SpecialDialog
from bagtag.ui.tools.tools_delegate import LEFT, RIGHT
from bagtag.ui.tools.tools_dialog import ToolsDialog, open_tools
from bagtag.ui.tools.tools_lines import Heading, ToolLine, Where, lines_of
from bagtag.ui.tools.tools_print import ToolsPage
from bagtag.ui.tools.tools_span import Of
from tests.ui.add_kit import ENTER

BOLTS = HeldBy(4, "bolt", "M8", 30, drive="13 mm hex", torque=Torque(24))
HIGH = 540
SCREWS = HeldBy(6, "screw", "M5", 12, drive="T25")


@pytest.fixture
def parts(store, job_id):
    """A cover, a plate and an oil seal, in two areas."""
    made = {}
    for name, area, held in (
        ("cover", "gearbox", (BOLTS,)),
        ("plate", "outside", (SCREWS,)),
        ("oil seal", "gearbox", ()),
    ):
        areas = {one.name: one.id for one in services.jobs.areas_of(store, job_id)}
        area_id = areas.get(area) or services.jobs.add_area(store, job_id, area).new_id
        entry = Entry(name, held_by=held, area_id=area_id)
        made[name] = services.strip.log_removal(store, job_id, entry, who="Ada").new_id
    return made


@pytest.fixture
def dialog(qtbot, desk, parts, job_id, settle):
    made = ToolsDialog(desk, None, job_id)
    qtbot.addWidget(made)
    made.resize(920, HIGH)
    made.show()
    settle(desk)
    return made


def press(qtbot, widget: QWidget, key: Qt.Key) -> None:
    qtbot.keyClick(widget, key)


def write(qtbot, line: QWidget, text: str) -> None:
    """Type into a line as a person does, in place of what stands there."""
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)


def tools(dialog) -> dict[str, Where]:
    return {line.name: line.where for line in dialog.list.tools.lines if isinstance(line, ToolLine)}


def choose(dialog, name: str) -> None:
    dialog.list.go_to(dialog.list.tools.place_of(name))


def test_the_tools_stand_under_their_headings_each_with_its_steps(dialog) -> None:
    said = [line.title for line in dialog.list.tools.lines if isinstance(line, Heading)]
    assert said == [
        "Sockets and spanners",
        "Keys, bits and drivers",
        "Torque wrenches and gauges",
        "Other tools",
        "What goes on",
    ]
    choose(dialog, "13 mm socket")
    assert dialog.list.here.detail == "Step 3: 1 cover, 4 bolts M8x30"
    assert dialog.about.name.text() == "13 mm socket"
    assert dialog.about.said == ["Step 3: 1 cover", "4 bolts M8x30"]
    choose(dialog, "seal driver")
    assert dialog.about.said[0].startswith("! Likely")


def test_the_cautions_of_a_torque_stand_on_it(dialog) -> None:
    assert dialog.cautions.isVisible()
    assert OVERRIDE in dialog.cautions.text()


def test_enter_lays_a_tool_out_and_enter_counts_it_back(qtbot, dialog, desk, store, job_id, settle):
    choose(dialog, "T25 bit")
    assert dialog.next.word == "Lay it out"
    press(qtbot, dialog.list, ENTER)
    settle(desk)
    (out,) = services.tools.out_now(store, job_id)
    assert (out.name, out.out_by) == ("T25 bit", "Ada")
    assert (tools(dialog)["T25 bit"], dialog.next.word) == (Where.OUT, "Count it back")
    assert dialog.out.head.text() == "1 tool still out"
    assert dialog.list.here.name == "T25 bit"
    press(qtbot, dialog.list, Qt.Key.Key_Space)
    settle(desk)
    assert services.tools.out_now(store, job_id) == []
    assert tools(dialog)["T25 bit"] is Where.BACK
    assert not dialog.out.isVisible()
    assert dialog.none.text() == "All that was laid out is counted back."


def test_undo_brings_a_tool_out_again(qtbot, dialog, desk, store, job_id, settle):
    dialog.lay_out("T25 bit")
    settle(desk)
    choose(dialog, "T25 bit")
    dialog.list.do_next()
    settle(desk)
    desk.act(services.history.undo, job_id)
    settle(desk)
    assert tools(dialog)["T25 bit"] is Where.OUT


def test_a_click_in_a_box_ticks_it_and_elsewhere_only_chooses(
    qtbot, dialog, desk, store, job_id, settle
):
    def click(name: str, x: float) -> None:
        place = dialog.list.tools.place_of(name)
        rect = dialog.list.visualRect(dialog.list.tools.index(place))
        spot = QPoint(int(x), rect.center().y())
        qtbot.mouseClick(dialog.list.viewport(), Qt.MouseButton.LeftButton, pos=spot)
        settle(desk)

    wide = dialog.list.viewport().width()
    click("T25 bit", wide / 2)
    click("T25 bit", wide - RIGHT / 2)  # it is not out: there is nothing to count back
    assert dialog.list.here.name == "T25 bit"
    assert services.tools.out_now(store, job_id) == []
    click("T25 bit", LEFT / 2)
    click("T25 bit", LEFT / 2)  # it is out: the left box does no more
    assert [(one.name, one.count) for one in services.tools.out_now(store, job_id)] == [
        ("T25 bit", 1)
    ]
    click("T25 bit", wide - RIGHT / 2)
    assert services.tools.out_now(store, job_id) == []


def test_all_tools_are_laid_out_in_one_act_and_what_goes_on_is_not_counted(
    dialog, desk, store, job_id, settle
):
    dialog.all.click()
    settle(desk)
    out = {one.name for one in services.tools.out_now(store, job_id)}
    assert {"13 mm socket", "T25 bit", "torque wrench for 24 N·m", "seal driver"} == out
    assert dialog.out.head.text() == "4 tools still out"
    assert not dialog.all.isEnabled()
    consumable = dialog.sheet.rows[-1]
    choose(dialog, consumable.name)
    assert not dialog.next.isEnabled()
    services.history.undo(store, job_id)
    assert services.tools.out_now(store, job_id) == []


def test_another_tool_is_laid_out_by_its_name(qtbot, dialog, desk, store, job_id, settle):
    write(qtbot, dialog.other, "lamp")
    press(qtbot, dialog.other, ENTER)
    settle(desk)
    assert dialog.other.text() == ""
    assert "Also laid out" in [
        line.title for line in dialog.list.tools.lines if isinstance(line, Heading)
    ]
    choose(dialog, "lamp")
    assert "No step of this list asks for it." in dialog.about.said
    write(qtbot, dialog.other, "Lamp")
    press(qtbot, dialog.other, ENTER)
    settle(desk)
    assert dialog.list.tools.line_at(dialog.list.tools.place_of("lamp")).title == "2 × lamp"
    assert dialog.out.names.text() == "2 × lamp"


def test_what_cannot_be_laid_out_is_said_below_its_field_and_stays(
    qtbot, dialog, desk, store, job_id, settle
):
    write(qtbot, dialog.other, "x" * 201)
    press(qtbot, dialog.other, ENTER)
    settle(desk)
    assert "201 characters" in dialog.field.wrong.text()
    assert dialog.other.text() == "x" * 201
    write(qtbot, dialog.other, "y")
    assert not dialog.field.wrong.isVisible()


def test_one_area_and_the_next_steps(qtbot, dialog, desk, settle):
    dialog.span.of.choose(Of.AREA)
    settle(desk)
    assert dialog.body.isHidden()
    write(qtbot, dialog.span.area.line, "outside")
    press(qtbot, dialog.span.area.line, ENTER)
    settle(desk)
    assert (dialog.body.isHidden(), list(tools(dialog))) == (False, ["T25 bit"])
    dialog.span.area.setFocus()
    press(qtbot, dialog.span.area.line, Qt.Key.Key_Down)
    settle(desk)
    assert dialog.body.isHidden()
    press(qtbot, dialog.span.area.line, Qt.Key.Key_Escape)
    settle(desk)
    assert not dialog.body.isHidden()
    assert dialog.height() == HIGH
    dialog.span.of.choose(Of.NEXT)
    dialog.span.steps.setText("1")
    settle(desk)
    assert (dialog.sheet.steps, dialog.sheet.span) == (1, "the next step that can go in now")
    dialog.span.steps.setText("none")
    settle(desk)
    assert "whole number" in dialog.span.steps_field.wrong.text()
    assert dialog.sheet.steps == 1
    dialog.span.of.choose(Of.WHOLE)
    settle(desk)
    assert dialog.sheet.steps == 3


def test_the_page_is_of_the_span_that_is_shown(qtbot, dialog, desk, settle):
    dialog.span.of.choose(Of.NEXT)
    settle(desk)
    dialog.print.click()
    settle(desk)
    (page,) = dialog.findChildren(ToolsPage)
    assert page.more() == (services.tools.Span(steps=5),)
    assert len(page.pages.pages) == 1
    page.reject()


def test_a_special_tool_is_noted_with_its_part(qtbot, dialog, desk, store, parts, settle):
    choose(dialog, "seal driver")
    dialog.special.click()
    settle(desk)
    (form,) = dialog.findChildren(SpecialDialog)
    assert form.part.value.id == parts["oil seal"]
    write(qtbot, form.tools, "seal sleeve")
    form.keep.click()
    settle(desk)
    assert services.strip.get_removal(store, parts["oil seal"]).tools == "seal sleeve"
    assert "seal sleeve" in tools(dialog)


def test_without_a_part_the_form_asks_which(qtbot, desk, parts, store, settle):
    form = SpecialDialog(desk, None, None)
    qtbot.addWidget(form)
    form.show()
    settle(desk)
    form.save()
    assert form.part.field.wrong.text() == "Choose the part that needs the tool."


def test_fasteners_without_a_tool_are_named(qtbot, desk, dialog, store, job_id, settle):
    entry = Entry("float bowl", held_by=(HeldBy(3, "screw", "M5"),))
    desk.act(services.strip.log_removal, job_id, entry)
    settle(desk)
    assert dialog.unknown.text() == "! Look at the heads first: 4 float bowl (3 screws M5)."


def test_a_job_without_fasteners_is_calm(qtbot, desk, job_id, settle):
    host = QWidget()
    qtbot.addWidget(host)
    host.resize(800, 600)
    made = open_tools(desk, host, job_id)
    settle(desk)
    assert made.none.text() == "Nothing that is still to fit asks for a tool."
    assert not made.next.isEnabled()
    assert (made.cautions.isVisible(), made.out.isVisible()) == (False, False)
    assert (made.width() <= 800, made.height() <= 600) == (True, True)
    made.reject()


def test_a_scan_lays_nothing_out(qtbot, dialog, desk, store, job_id, settle) -> None:
    qtbot.keyClicks(dialog.list, "7K3Q9XPA")
    press(qtbot, dialog.list, ENTER)
    settle(desk)
    assert services.tools.out_now(store, job_id) == []
    qtbot.wait(QUIET + 30)
    press(qtbot, dialog.list, ENTER)
    settle(desk)
    assert len(services.tools.out_now(store, job_id)) == 1


def test_every_control_has_a_name_and_every_row_is_read_out(dialog) -> None:
    for control in (dialog.list, dialog.other, dialog.next, dialog.all, dialog.special,
                    dialog.print, dialog.close_it, dialog.span.of, dialog.span.steps):  # fmt: skip
        assert control.accessibleName()
    place = dialog.list.tools.place_of("seal driver")
    said = dialog.list.tools.index(place).data()
    assert said == "seal driver, likely, not laid out, Step 1: 3 oil seal"


def test_the_arrows_pass_over_headings(qtbot, dialog) -> None:
    seen = []
    dialog.list.go_to(0)
    for _ in range(20):
        seen.append(dialog.list.here.name)
        press(qtbot, dialog.list, Qt.Key.Key_Down)
    assert list(dict.fromkeys(seen)) == list(tools(dialog))
    press(qtbot, dialog.list, Qt.Key.Key_Home)
    assert dialog.list.here.name == seen[0]
    press(qtbot, dialog.list, Qt.Key.Key_End)
    assert dialog.list.here.name == seen[-1]
    press(qtbot, dialog.list, Qt.Key.Key_Up)
    assert dialog.list.here.name == list(tools(dialog))[-2]


def test_no_lines_for_an_empty_sheet() -> None:
    assert lines_of(ToolSheet()) == []
