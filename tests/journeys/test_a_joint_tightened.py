"""A cover from its strip to its last bolt: holes, passes, tools, torque, by keys alone."""

from dataclasses import replace

import pypdfium2
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from bagtag import services
from bagtag.domain.fitting import part
from bagtag.domain.torque import Torque
from bagtag.ui.holes.hole_dialog import HoleMapDialog
from bagtag.ui.order.passes_form import PassesDialog
from bagtag.ui.tools.tools_dialog import ToolsDialog
from bagtag.ui.torque.torque_dialog import TorqueDialog

KEYS = Qt.Key
ALT = Qt.KeyboardModifier.AltModifier
COVER = "gearbox cover, 7 x M8x35, 8.8, 13 mm hex, 22 Nm, 1 x M8x50, 8.8, 13 mm hex, 22 Nm"


@pytest.fixture
def bench(bench):
    """A job of two lines: a cover, and the shaft behind it."""
    bench.open_job(COVER, "input shaft")
    return bench


def opened(bench, kind, key: KEYS):
    """The window that Ctrl and a key open."""
    bench.control(key)
    found = [w for w in QApplication.topLevelWidgets() if isinstance(w, kind) and w.isVisible()]
    assert found, f"Ctrl+{key} opens no {kind.__name__}"
    found[-1].activateWindow()
    bench.settle()
    return found[-1]


def back(bench) -> None:
    bench.window.activateWindow()  # as a window manager does once a window is gone
    bench.settle()


def cover(bench):
    return services.strip.find_removal(bench.desk.store, bench.desk.job_id, "1")


def joint(bench):
    return services.tightening.joint(bench.desk.store, part(cover(bench).id))


def show(bench) -> None:
    bench.desk.show_removal.emit(cover(bench).id)
    bench.settle()


def map_a_ring(bench) -> None:
    """Eight holes of the first line on 120 mm, then the second line's letter for hole 2."""
    dialog = opened(bench, HoleMapDialog, KEYS.Key_H)
    bench.press(KEYS.Key_2, ALT)
    for text in ("8", "120", "0"):
        bench.type(text)
        bench.press(KEYS.Key_Tab)
    dialog.pattern.lines["many"].setFocus()
    bench.press(KEYS.Key_Return)
    bench.press(KEYS.Key_1, ALT)
    dialog.sheet.setFocus()
    dialog.draft.point((2,))
    bench.type("b")
    bench.qtbot.wait(200)
    bench.press(KEYS.Key_Return, Qt.KeyboardModifier.ControlModifier)
    back(bench)


def test_the_cover_is_mapped_and_each_bolt_found_both_ways(bench):
    show(bench)
    map_a_ring(bench)
    view = services.holes.map_view(bench.desk.store, cover(bench).id)
    marks = {hole.number: hole.mark for hole in view.hole_map.holes}
    assert marks == {n: "B" if n == 2 else "A" for n in range(1, 9)}
    assert [line.mark for line in view.removal.held_by] == ["A", "B"]
    assert [line.size() for line in view.removal.held_by] == ["M8x35", "M8x50"]


def test_passes_are_ticked_survive_a_night_and_are_signed(bench):
    show(bench)
    map_a_ring(bench)
    services.signing.sign(
        bench.desk.store, part(_shaft(bench)), services.signing.SignForm(), who="Ada"
    )
    bench.stage(7)
    show(bench)
    opened(bench, PassesDialog, KEYS.Key_G)
    bench.type("3")
    bench.qtbot.wait(200)
    bench.press(KEYS.Key_Return)
    back(bench)
    assert [one.figures for one in joint(bench).rounds] == [
        *("7 N·m", "13 N·m", "22 N·m", "22 N·m"),
    ]
    assert joint(bench).rounds[0].order == (1, 5, 3, 7, 2, 6, 4, 8)
    assert joint(bench).rounds[3].order == (1, 2, 3, 4, 5, 6, 7, 8)
    bench.press(KEYS.Key_F12)
    bench.press(KEYS.Key_F12)
    assert joint(bench).ticked == {0, 1}
    bench.stop()
    bench.start()
    bench.stage(7)
    show(bench)
    assert joint(bench).ticked == {0, 1}
    bench.press(KEYS.Key_F6)
    bench.press(KEYS.Key_F6)
    assert _signed(bench) is None, "two passes are open, so it asks why"
    bench.press(KEYS.Key_Escape)
    bench.press(KEYS.Key_F12)
    bench.press(KEYS.Key_F12)
    bench.press(KEYS.Key_F6)
    if bench.window.work.bench.card.signing.isVisible():
        bench.press(KEYS.Key_F6)
    assert _signed(bench) is not None
    assert _signed(bench).reason == ""


def _shaft(bench) -> int:
    return services.strip.find_removal(bench.desk.store, bench.desk.job_id, "2").id


def _signed(bench):
    signed = services.board.board(bench.desk.store, bench.desk.job_id).steps
    return next(step.sign_off for step in signed if step.removal_id == cover(bench).id)


def test_a_tool_that_is_still_out_is_asked_for_before_the_cover_is_closed(bench):
    store, job_id = bench.desk.store, bench.desk.job_id
    area = services.jobs.add_area(store, job_id, "gear case").new_id
    shaft = services.strip.get_removal(store, _shaft(bench))
    entry = services.strip.entry_of(shaft)
    services.strip.correct_removal(store, shaft.id, replace(entry, area_id=area), who="Ada")
    services.jobs.set_opener(store, area, cover(bench).id)
    services.signing.sign(store, part(shaft.id), who="Ada")
    bench.stage(7)
    show(bench)
    opened(bench, ToolsDialog, KEYS.Key_B)
    bench.control(KEYS.Key_L)
    names = {tool.name for tool in services.tools.out_now(store, job_id)}
    assert "13 mm socket" in names
    bench.press(KEYS.Key_Escape)
    back(bench)
    show(bench)
    bench.press(KEYS.Key_F6)
    sheet = bench.window.work.bench.card.signing.sheet
    assert {tool.name for tool in sheet.tools_out} == names
    bench.press(KEYS.Key_Escape)
    bench.press(KEYS.Key_Escape)
    out = services.tools.out_now(store, job_id)
    bench.desk.changed.emit(services.tools.count_back(store, [one.id for one in out], who="Ada"))
    bench.settle()
    assert services.signing.sheet(store, part(cover(bench).id)).tools_out == ()


def test_a_slip_of_the_unit_is_asked_about_and_not_refused(bench):
    show(bench)
    dialog = opened(bench, TorqueDialog, KEYS.Key_R)
    bench.control(KEYS.Key_A)
    bench.type("220")
    bench.settle()
    said = " ".join(label.text() for label in dialog.given.findChildren(QLabel))
    assert "M8" in said
    assert "22" in said
    bench.press(KEYS.Key_Escape)
    back(bench)
    assert cover(bench).held_by[0].torque == Torque(22)


def test_the_template_and_the_checklist_carry_the_joint(bench, tmp_path):
    show(bench)
    map_a_ring(bench)
    store, job_id = bench.desk.store, bench.desk.job_id
    report = services.templates.write(store, cover(bench).id, tmp_path / "holes.pdf")
    assert report.sheets == 2, "the sheet that it is drawn on is wider than one of paper"
    services.checklists.write(store, job_id, tmp_path / "list.pdf")
    text = "".join(
        page.get_textpage().get_text_range()
        for page in pypdfium2.PdfDocument(tmp_path / "list.pdf")
    )
    for words in ("1, 5, 3, 7, 2, 6, 4, 8", "Torque to 50 %", "11 N·m", "maker's manual overrides"):
        assert words in text
