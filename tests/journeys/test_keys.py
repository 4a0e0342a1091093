"""Keys alone: Tab goes round, the first key is taken, Build begins where it should."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services


def _names(bench, count: int) -> list[str]:
    found = []
    for _ in range(count):
        widget = QApplication.focusWidget()
        found.append(widget.accessibleName() or type(widget).__name__)
        QTest.keyClick(widget, Qt.Key.Key_Tab)
    return found


def test_tab_goes_round_the_window_once(bench):
    change = services.jobs.open_job(bench.desk.store, services.jobs.JobForm("Walking tractor"))
    services.tape.log_line(bench.desk.store, change.job_id, "shift drum, tray 1")
    bench.desk.changed.emit(change)
    bench.settle()
    bench.stage(7)
    bench.control(Qt.Key.Key_L)
    names = _names(bench, 40)
    round_once = names[: names.index(names[0], 1)]
    assert names[len(round_once) :] == (round_once * 3)[: 40 - len(round_once)], "no trap"
    assert round_once[1:3] == ["Camera", "Photo of a tag"]
    assert "Now: what can go in, by area" in round_once
    assert round_once[-8:] == [
        "Job", "Strip", "Containers", "Away", "Renew", "Measure", "Build", "Close"
    ]  # fmt: skip
    assert "Checklist" in round_once


def test_the_first_key_goes_into_the_field(bench):
    assert bench.window.field.frame.line is not None
    change = services.jobs.open_job(bench.desk.store, services.jobs.JobForm("Walking tractor"))
    bench.stop()
    bench.start()
    bench.type("shift")
    assert bench.window.field.text == "shift", change


def test_from_logging_the_build_begins_at_its_next_step(bench):
    """Who was logging has no part chosen: Build shows what goes in next, not the last line."""
    change = services.jobs.open_job(bench.desk.store, services.jobs.JobForm("Walking tractor"))
    first = services.tape.log_line(bench.desk.store, change.job_id, "shift drum, tray 1").new_id
    seal = services.tape.log_line(bench.desk.store, change.job_id, "oil seal, scrap").new_id
    bench.desk.changed.emit(change)
    bench.settle()
    bench.stage(7)
    bench.desk.show_removal.emit(seal)
    bench.settle()
    bench.stage(2)
    bench.line("dowel, tray 1, scrap")
    bench.qtbot.wait(300)
    bench.stage(7)
    bench.qtbot.waitUntil(lambda: bench.window.work.bench.card.removal_id == first, timeout=5000)
    bench.qtbot.wait(300)  # a choice that the strip tells late must not take it away
    assert bench.window.work.bench.card.removal_id == first
