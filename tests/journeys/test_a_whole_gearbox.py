"""Sixty parts of a gearbox logged from tape lines alone, the audit worked down, the labels read."""

import re
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QImage

from bagtag import services
from bagtag.domain.audit_finding import Lack
from bagtag.domain.datum import Datum, Side
from bagtag.domain.sentence import sentence
from bagtag.services.jobs import JobForm
from bagtag.services.labels import LabelOrder
from bagtag.ui.sheets.label_dialog import LabelDialog

LINES = (Path(__file__).parent / "gearbox_lines.txt").read_text(encoding="utf-8").splitlines()
SIDES = {
    Side.LEFT: "flywheel side", Side.RIGHT: "clutch side", Side.REAR: "handlebar end",
}  # fmt: skip
OPENERS = {"clutch": "clutch cover", "gearbox": "gearbox cover"}


@pytest.fixture
def gearbox(bench):
    """The job with its areas; sixty lines written in the one field, Enter after each."""
    store = bench.desk.store
    datum = Datum("standing behind the handlebars, looking forward", SIDES)
    form = JobForm("Walking tractor", "jumps out of second", datum=datum)
    change = services.jobs.open_job(store, form)
    for name in ("outside", *OPENERS):
        services.jobs.add_area(store, change.job_id, name)
    bench.desk.changed.emit(change)
    bench.settle()
    bench.stage(2)
    for line in LINES:
        bench.line(line)
    return bench


def lacks(bench):
    audit = services.audit.audit(bench.desk.store, bench.desk.job_id)
    return [row.finding.lack for row in audit.rows]


def wait_for(bench, lack):
    """The audit stands, and this is the worst it still has."""
    page = bench.window.pages.currentWidget()
    bench.qtbot.waitUntil(lambda: page.list.here.finding.lack is lack, timeout=8000)
    bench.settle()


def opened(bench):
    """Say what opens the areas, as the Job stage does."""
    store, job_id = bench.desk.store, bench.desk.job_id
    areas = {area.name: area.id for area in services.jobs.areas_of(store, job_id)}
    for area, part in OPENERS.items():
        (hit,) = [h for h in services.find.find(store, part) if h.name == part]
        bench.desk.act(services.jobs.set_opener, areas[area], hit.removal_id)
        bench.settle()


def test_the_audit_of_sixty_lines_comes_down_to_nothing(gearbox, tmp_path):
    bench, store, job_id = gearbox, gearbox.desk.store, gearbox.desk.job_id
    assert len(LINES) == len(services.strip.log_ids(store, job_id)) == 60
    assert set(lacks(bench)) == {Lack.OPENER, Lack.TAG, Lack.PHOTO}
    bench.press(Qt.Key.Key_F3)
    wait_for(bench, Lack.OPENER)
    bench.press(Qt.Key.Key_F6)  # nothing covers the outside
    opened(bench)
    wait_for(bench, Lack.TAG)
    bench.press(Qt.Key.Key_Return)
    dialog = bench.window.findChild(LabelDialog)
    dialog.save_to(str(tmp_path / "labels.pdf"))
    bench.settle()
    bench.press(Qt.Key.Key_Escape)
    bench.window.activateWindow()  # without a desktop nobody else does
    wait_for(bench, Lack.PHOTO)
    bench.press(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    tray = QImage(640, 480, QImage.Format.Format_RGB32)
    tray.fill(0x557799)
    QGuiApplication.clipboard().setImage(tray)
    bench.press(Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    bench.qtbot.waitUntil(lambda: lacks(bench) == [], timeout=20_000)
    bench.settle()
    page = bench.window.pages.currentWidget()
    bench.qtbot.waitUntil(lambda: "Nothing is missing" in page.head.text(), timeout=8000)


def test_the_labels_alone_say_which_way_for_every_part(gearbox, tmp_path):
    """Every sentence stands whole on its label; read as tape, it gives the facts of the part."""
    store, job_id = gearbox.desk.store, gearbox.desk.job_id
    ids = services.strip.log_ids(store, job_id)
    services.labels.write(store, LabelOrder(job_id, tuple(ids)), tmp_path / "labels.pdf")
    pages = pypdfium2.PdfDocument(tmp_path / "labels.pdf")
    printed = plain(" ".join(page.get_textpage().get_text_range() for page in pages))
    reader = services.tape.reader(store, job_id)
    for id_ in ids:
        card = services.views.card(store, id_)
        assert plain(card.sentence) in printed, card.removal.name
        own = sentence(card.removal.which_way, card.datum)
        read = reader.read(f"{card.removal.name}; {own}").entry.which_way
        said = {services.strip.entry_of(card.removal).name: own}
        assert sentence(read, card.datum) == own, said


def plain(text: str) -> str:
    return re.sub(r"\s+", "", text)
