"""Remakes the guide's pictures from the demo job, without a screen.

.venv/bin/python -m docs.guide.remake_screenshots
"""

import os
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import cast

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication, QWidget

from bagtag import services
from bagtag.bootstrap import open_demo
from bagtag.domain.fitting import TaskKind, part
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.paper.rendering import render
from bagtag.ui.app import Program, make_app
from bagtag.ui.desk import Desk
from bagtag.ui.holes.hole_dialog import open_hole_map
from bagtag.ui.measure.measure_stage import MeasureStage
from bagtag.ui.sheets.label_dialog import open_labels
from bagtag.ui.tools.tools_dialog import open_tools
from bagtag.ui.torque.torque_dialog import open_torque
from bagtag.ui.window import MainWindow

HERE = Path(__file__).parent
FORK, STEP, PIN, COVER = "61", "51", "30", "34"
SHEETS = {SheetKind.BORE: "measure.png", SheetKind.VALVES: "shims.png"}


def wait_for(done: Callable[[], bool], seconds: float = 30) -> None:
    """Let the window work until `done`, and a moment more for what is drawn last."""
    end = time.monotonic() + seconds
    while not done() and time.monotonic() < end:
        QApplication.processEvents()
    settled = time.monotonic() + 0.6
    while time.monotonic() < settled:
        QApplication.processEvents()


def shoot(widget: QWidget, name: str) -> None:
    widget.grab().save(str(HERE / name))


def stages(window: MainWindow, desk: Desk, job_id: int) -> None:
    """The window at each stage that the guide shows."""
    work = window.work
    assert work is not None
    fork = services.strip.find_removal(desk.store, job_id, FORK).id
    step = services.strip.find_removal(desk.store, job_id, STEP).id
    for stage, name, removal_id in (
        ("Job", "job.png", 0),
        ("Strip", "strip.png", fork),
        ("Containers", "containers.png", 0),
        ("Build", "card.png", fork),
        ("Build", "build.png", step),
        ("Close", "close.png", 0),
    ):
        work.go_to(stage)
        wait_for(lambda: desk.idle)
        if removal_id:
            desk.show_removal.emit(removal_id)
            wait_for(lambda: desk.idle)
        shoot(window, name)


def order(window: MainWindow, desk: Desk, job_id: int) -> None:
    """The plan as a list, and why a step stands where it does."""
    work = window.work
    assert work is not None
    pin = services.strip.find_removal(desk.store, job_id, PIN).id
    work.go_to("Build")
    left = work.bench.side.left
    left.go_to("Order")
    desk.show_removal.emit(pin)
    wait_for(lambda: desk.idle)
    shoot(window, "order.png")
    left.go_to("Now")


def asking(window: MainWindow, desk: Desk) -> None:
    """The questions of a bearing, and the audit of the whole strip."""
    work = window.work
    assert work is not None
    work.go_to("Strip")
    window.field.frame.line.setText("ball bearing, clutch side, 6204, tray 5")
    wait_for(lambda: desk.idle)
    window.field.frame.line.tabbed.emit()
    wait_for(lambda: desk.idle)
    shoot(window, "asking.png")
    work.open_audit()
    wait_for(lambda: desk.idle)
    shoot(window, "audit.png")


def paper(window: MainWindow, desk: Desk, job_id: int, folder: Path) -> None:
    """The label dialog, and the first page of the checklist."""
    order = services.labels.LabelOrder(job_id, services.labels.of_job(desk.store, job_id)[55:76])
    dialog = open_labels(desk, order, window)
    wait_for(lambda: desk.idle)
    shoot(dialog, "labels.png")
    dialog.close()
    services.checklists.write(desk.store, job_id, folder / "checklist.pdf")
    (page,) = render((folder / "checklist.pdf").read_bytes(), width_px=900, pages=1)
    (HERE / "checklist.png").write_bytes(page)


def between(window: MainWindow, desk: Desk, job_id: int, folder: Path) -> None:
    """What lies between strip and build, and what of it holds the job up."""
    work = window.work
    assert work is not None
    for stage, name in (("Away", "away.png"), ("Renew", "renew.png"), ("Holding", "holding.png")):
        work.go_to(stage)
        wait_for(lambda: desk.idle)
        shoot(window, name)
    work.go_to("Measure")
    page = cast("MeasureStage", work.page_of("Measure"))
    rows = services.measuring.for_stage(desk.store, job_id)
    for sheet in (row.sheet for part_row in rows for row in part_row.sheets):
        if sheet.kind in SHEETS:
            page.show_sheet(sheet.id)
            wait_for(lambda: desk.idle)
            shoot(window, SHEETS[sheet.kind])
    batches = services.send_outs.batches(desk.store, job_id)
    longest = max((one for one in batches if one.send_out), key=lambda one: len(one.items))
    assert longest.send_out is not None
    services.travellers.write(desk.store, longest.send_out.id, folder / "traveller.pdf")
    (first,) = render((folder / "traveller.pdf").read_bytes(), width_px=900, pages=1)
    (HERE / "traveller.png").write_bytes(first)


def tightening(window: MainWindow, desk: Desk, job_id: int) -> None:
    """The crankcase cover, all before it done: its holes, torque, tools, and its second pass."""
    work = window.work
    assert work is not None
    cover = part(services.strip.find_removal(desk.store, job_id, COVER).id)
    steps = services.board.board(desk.store, job_id).steps
    place = next(step.place for step in steps if step.ref == cover)
    for step in steps:
        if step.sign_off is None and step.place < place:
            done = services.signing.SignForm(note="measured", reason="for the picture")
            who = "A. Hazel" if step.task and step.task.kind is TaskKind.HOLD_POINT else "N. Birch"
            services.signing.sign(desk.store, step.ref, done, who=who)
    desk.changed.emit(services.tightening.tick(desk.store, cover, 0, who="N. Birch"))
    work.go_to("Build")
    desk.show_removal.emit(cover.id)
    wait_for(lambda: desk.idle)
    view = work.bench.card.view
    view.ensureVisible(0, work.bench.card.joint.y() + view.height() - 12, 0, 0)
    wait_for(lambda: desk.idle)
    shoot(window, "joint.png")
    for name, dialog in (
        ("holes.png", open_hole_map(desk, window, cover.id)),
        ("torque.png", open_torque(desk, window, cover.id)),
        ("tools.png", open_tools(desk, window, job_id)),
    ):
        wait_for(lambda: desk.idle)
        shoot(dialog, name)
        dialog.close()


def main() -> None:
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    with TemporaryDirectory() as folder:
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, folder)
        app = make_app()
        program = Program(app, partial(open_demo, Path(folder) / "store"), "N. Birch")
        window, desk = program.window, program.desk
        window.show()
        wait_for(lambda: window.work is not None and desk.job_id > 0)
        window.message.clear()  # what is late would stand over every picture
        stages(window, desk, desk.job_id)
        order(window, desk, desk.job_id)
        asking(window, desk)
        paper(window, desk, desk.job_id, Path(folder))
        between(window, desk, desk.job_id, Path(folder))
        tightening(window, desk, desk.job_id)
        program.end()


if __name__ == "__main__":
    sys.exit(main())
