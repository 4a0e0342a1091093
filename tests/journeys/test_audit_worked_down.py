"""The strip audit worked down by keys until nothing is missing."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.audit_finding import Lack
from bagtag.domain.entry import Entry
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Faces, Outness, Seat, SeatKind
from bagtag.ui.sheets.label_dialog import LabelDialog
from tests.journeys.test_correct_a_chip import OWN

KEYS, CONTROL = Qt.Key, Qt.KeyboardModifier.ControlModifier
SAID = (Faces("lip", Outness.INWARD), Seat(SeatKind.FLUSH))


@pytest.fixture
def bench(bench):
    """Three packing rings: one says nothing, one is to go back again, one lies in a shut area."""
    folder = bench.folder / "kinds"
    folder.mkdir()
    (folder / "own.toml").write_text(OWN, encoding="utf-8")
    store = bench.desk.store
    change = services.jobs.open_job(store, services.jobs.JobForm("Walking tractor"))
    job_id = change.job_id
    area = services.jobs.add_area(store, job_id, "gearbox").new_id
    services.tape.log_line(store, job_id, "packing ring, bag 1")
    for entry in (
        Entry("packing ring", which_way=SAID),
        Entry("packing ring", which_way=SAID, fate=Fate.RENEW, area_id=area),
    ):
        services.strip.log_removal(store, job_id, entry)
    bench.desk.changed.emit(change)
    bench.settle()
    bench.stage(2)
    return bench


def page(bench):
    found = bench.window.pages.currentWidget()
    assert found.title == "Audit"
    return found


def at(bench):
    return page(bench).list.here.finding.lack


def entry(bench):
    return bench.window.work.bench.entry


def wait(bench, ready):
    bench.qtbot.waitUntil(ready, timeout=8000)
    bench.settle()


def back_at(bench, lack):
    """The audit stands again, and this is chosen in it."""
    wait(bench, lambda: getattr(bench.window.pages.currentWidget(), "title", "") == "Audit")
    wait(bench, lambda: page(bench).list.here is not None and at(bench) is lack)


def found(bench):
    return [row.finding.lack for row in page(bench).audit.rows]


def key_alone(bench, key):
    """One letter or figure, as a hand presses it: alone, so that no scanner can be meant."""
    bench.press(key)
    bench.qtbot.wait(200)


def test_an_audit_is_worked_down_to_nothing(bench, tmp_path):
    store, job_id = bench.desk.store, bench.desk.job_id
    bench.press(KEYS.Key_F3)
    assert found(bench) == [
        Lack.WAY, Lack.RENEW, Lack.OPENER, *[Lack.TAG] * 3, *[Lack.PHOTO] * 3
    ]  # fmt: skip
    assert page(bench).head.text() == "9 things to see to"
    assert bench.window.stages.current == "Strip"

    bench.press(KEYS.Key_Return)
    wait(bench, lambda: entry(bench).fields.asks.is_asking)
    key_alone(bench, KEYS.Key_1)
    key_alone(bench, KEYS.Key_1)
    bench.press(KEYS.Key_Return)
    back_at(bench, Lack.RENEW)
    assert Lack.WAY not in found(bench)

    bench.press(KEYS.Key_Return)
    second = services.strip.log_ids(store, job_id)[1]
    wait(bench, lambda: entry(bench).removal_id == second and entry(bench).isEnabled())
    bench.press(KEYS.Key_2, CONTROL)
    bench.press(KEYS.Key_Return)
    back_at(bench, Lack.OPENER)
    assert services.strip.get_removal(store, second).fate is Fate.RENEW

    bench.press(KEYS.Key_F6)
    back_at(bench, Lack.TAG)

    bench.press(KEYS.Key_Return)
    dialog = bench.window.findChild(LabelDialog)
    assert dialog.order().removal_ids == tuple(services.strip.log_ids(store, job_id))
    dialog.save_to(str(tmp_path / "labels.pdf"))
    bench.settle()
    bench.press(KEYS.Key_Escape)
    bench.window.activateWindow()  # without a desktop nobody else does
    back_at(bench, Lack.PHOTO)
    assert page(bench).list.hasFocus()
    assert set(found(bench)) == {Lack.PHOTO}

    bench.press(KEYS.Key_A, CONTROL)
    tray = QImage(60, 40, QImage.Format.Format_RGB32)
    tray.fill(0x557799)
    QGuiApplication.clipboard().setImage(tray)
    bench.press(KEYS.Key_V, CONTROL)
    calm = page(bench).calm
    wait(bench, calm.isVisible)
    QGuiApplication.clipboard().clear()
    assert calm.head.text() == "Nothing is missing. 3 entries looked at."
    bench.press(KEYS.Key_Escape)
    assert bench.window.pages.currentWidget() is bench.window.work.bench


def test_an_entry_that_is_left_leads_to_the_next_finding(bench):
    bench.press(KEYS.Key_F3)
    bench.press(KEYS.Key_Return)
    wait(bench, lambda: entry(bench).fields.asks.is_asking)
    bench.press(KEYS.Key_Escape)
    back_at(bench, Lack.RENEW)
    assert Lack.WAY in found(bench), "it was left as it was"


def test_who_goes_elsewhere_is_not_led_back(bench):
    bench.press(KEYS.Key_F3)
    bench.press(KEYS.Key_Return)
    wait(bench, lambda: entry(bench).fields.asks.is_asking)
    bench.stage(3)
    bench.stage(2)
    bench.qtbot.wait(150)  # until the strip's choice has come to rest
    first = services.strip.log_ids(bench.desk.store, bench.desk.job_id)[0]
    bench.window.work.bench.correct(first)
    wait(bench, lambda: entry(bench).removal_id == first and entry(bench).isEnabled())
    bench.press(KEYS.Key_Escape)
    assert bench.window.pages.currentWidget() is bench.window.work.bench


def test_a_photo_is_added_where_the_part_is_and_the_opener_where_the_areas_are(bench):
    bench.press(KEYS.Key_F3)
    for _ in range(6):
        bench.press(KEYS.Key_Down)
    assert at(bench) is Lack.PHOTO
    bench.press(KEYS.Key_Return)
    choose = entry(bench).fields.photos.acts.choose
    wait(bench, choose.hasFocus)
    bench.press(KEYS.Key_Escape)
    back_at(bench, Lack.PHOTO)
    bench.press(KEYS.Key_Home)
    bench.press(KEYS.Key_Down)
    bench.press(KEYS.Key_Down)
    assert at(bench) is Lack.OPENER
    bench.press(KEYS.Key_Return)
    form = bench.window.work.page_of("Job").page.areas.form
    wait(bench, lambda: form.isVisible() and form.opener.line.hasFocus())
    bench.press(KEYS.Key_Escape)
    back_at(bench, Lack.TAG)


def test_a_scan_on_the_audit_shows_the_part_and_presses_nothing(bench):
    store, job_id = bench.desk.store, bench.desk.job_id
    first = services.strip.log_ids(store, job_id)[0]
    code = services.views.card(store, first).code
    bench.press(KEYS.Key_F3)
    bench.scan(code)
    bench.qtbot.waitUntil(lambda: bench.window.work.bench.card_id == first, timeout=5000)
    assert bench.window.field.text == ""
    assert QApplication.activeModalWidget() is None


def test_the_button_at_the_foot_of_the_strip_opens_it(bench):
    button = bench.window.work.bench.audit
    assert button.isVisible()
    button.click()
    bench.settle()
    assert page(bench).list.hasFocus()
    bench.stage(7)
    assert not button.isVisible()
