"""Measure in the whole window: its keys, and a tag that is scanned while one measures."""

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.model import Fate
from bagtag.ui.measure.new_sheet import NewSheet
from bagtag.ui.sheets.measure_dialog import MeasureDialog
from tests.ui.measure.measure_kit import SIX, at_pace, readings
from tests.ui.shell_kit import close_window, key, open_window


@pytest.fixture
def measuring(qtbot, store, job_id, settle):
    """A window at a bore sheet of a cylinder, and the ids of both."""
    entry = Entry("cylinder", fate=Fate.DECIDE)
    part = services.strip.log_removal(store, job_id, entry, who="Ada").new_id
    add = services.measuring.add_sheet
    made = add(store, job_id, SheetKind.BORE, part, who="Ada").new_id
    window = open_window(qtbot, store, settle)
    window.work.go_to("Measure")
    settle(window.desk)
    window.work.page.show_sheet(made)
    settle(window.desk)
    yield window, part, made
    close_window(window)


def test_a_caliper_is_read_in_the_window_and_each_figure_undone(measuring, store, settle):
    window, _, made = measuring
    at_pace(window.windowHandle(), "".join(f"{one}\r" for one in SIX))
    settle(window.desk)
    assert list(readings(store, made).values()) == [f"{one} mm" for one in SIX]
    window.work.undo()
    settle(window.desk)
    assert len(readings(store, made)) == 5
    assert [cell.text for cell in window.work.page.page.table.cells][-1] == ""


def test_a_tag_that_is_scanned_shows_its_part_and_reads_nothing(measuring, store, settle):
    window, part, made = measuring
    code = services.measuring.for_stage(store, window.desk.job_id)[0].code
    at_pace(window.windowHandle(), f"{code}\r")
    settle(window.desk)
    assert window.work.bench.card_id == part
    assert readings(store, made) == {}


@pytest.mark.parametrize(("keys", "kind"), [("Ctrl+N", NewSheet), ("Ctrl+P", MeasureDialog)])
def test_its_keys_open_their_dialogs(measuring, settle, keys, kind):
    window, _, _ = measuring
    key(window, keys)
    settle(window.desk)
    (dialog,) = window.findChildren(kind)
    dialog.close()
