"""The audit page: what it says, how it is walked, and what each key leads to."""

import io

import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.audit_finding import Lack
from bagtag.ui.audit.audit_model import Heading
from bagtag.ui.audit.audit_page import AuditPage
from bagtag.ui.audit.audit_words import LOOKING

KEYS = Qt.Key


@pytest.fixture
def audit(entered, desk, settle):
    yield entered(AuditPage, 1000, 600)
    settle(desk)


def line(store, job_id, text):
    return services.tape.log_line(store, job_id, text, who="Ada").new_id


def again(page, settle):
    page.enter()
    settle(page.desk)


def lacks(page):
    return [row.finding.lack for row in page.audit.rows]


def press(page, key, held=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(QApplication.focusWidget(), key, held)


def picture(folder):
    made = io.BytesIO()
    Image.new("RGB", (40, 30), "teal").save(made, "PNG")
    path = folder / "tray.png"
    path.write_bytes(made.getvalue())
    return path


def test_an_empty_job_says_what_comes_next(audit):
    assert audit.body.currentWidget() is audit.calm
    assert audit.calm.head.text() == "Nothing is logged yet"
    assert "Write the first part" in audit.calm.next.text()


def test_it_says_how_many_and_groups_them_worst_first(audit, store, job_id, settle):
    line(store, job_id, "dowel, lip inward, lip outward, bag 1")
    line(store, job_id, "dowel, bag 1")
    again(audit, settle)
    found = audit.audit.rows
    assert audit.head.text() == f"{len(found)} things to see to"
    assert lacks(audit) == sorted(lacks(audit), key=list(Lack).index)
    assert lacks(audit)[0] is Lack.CONTRADICTION
    headings = [one for one in audit.list.findings.lines if isinstance(one, Heading)]
    assert [one.lack for one in headings] == list(dict.fromkeys(lacks(audit)))
    assert sum(one.count for one in headings) == len(found)


def test_a_torque_that_is_asked_about_brings_its_cautions(audit, store, job_id, settle):
    line(store, job_id, "cover, 4 x M8x35, 8.8, 22 Nm")
    again(audit, settle)
    assert not audit.cautions.isVisible()
    line(store, job_id, "flange, 4 x M8x35, 8.8, 220 Nm")
    again(audit, settle)
    assert Lack.FIGURE in lacks(audit)
    assert audit.cautions.isVisible()
    assert "qualified person" in audit.cautions.text()


def test_the_arrow_keys_go_over_headings_and_keep_to_findings(audit, store, job_id, settle):
    line(store, job_id, "dowel, bag 1")
    line(store, job_id, "dowel, bag 2")
    again(audit, settle)
    assert audit.list.hasFocus()
    walked = []
    for _ in audit.audit.rows:
        walked.append(audit.list.here)
        press(audit, KEYS.Key_Down)
    assert walked == list(audit.audit.rows)
    press(audit, KEYS.Key_Home)
    assert audit.list.here == audit.audit.rows[0]
    press(audit, KEYS.Key_End)
    assert audit.list.here == audit.audit.rows[-1]


def test_enter_asks_for_the_place_where_it_is_mended(audit, store, job_id, settle, qtbot):
    line(store, job_id, "dowel, bag 1")
    again(audit, settle)
    with qtbot.waitSignal(audit.mend) as wanted:
        press(audit, KEYS.Key_Return)
    assert wanted.args == [audit.audit.rows[0]]
    with qtbot.waitSignal(audit.left):
        press(audit, KEYS.Key_Escape)


def test_a_change_keeps_the_choice(audit, store, job_id, desk, settle, qtbot):
    for n in range(4):
        line(store, job_id, f"dowel, bag {n}")
    again(audit, settle)
    for _ in range(2):
        press(audit, KEYS.Key_Down)
    chosen = audit.list.here
    desk.act(services.tape.log_line, job_id, "dowel, bag 9")
    qtbot.waitUntil(lambda: audit.audit.looked_at == 5, timeout=5000)
    assert audit.list.here == chosen


def test_one_photo_is_given_to_all_that_are_chosen_in_one_act(
    audit, store, job_id, desk, settle, qtbot, tmp_path
):
    ids = [line(store, job_id, f"dowel, bag {n}") for n in range(3)]
    again(audit, settle)
    audit.list.go_to(audit.list.findings.of_lack(Lack.PHOTO)[0])
    assert audit.photo_act.word == "Add a photo"
    press(audit, KEYS.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert audit.photo_act.word == "Add one photo to all 2"
    press(audit, KEYS.Key_A, Qt.KeyboardModifier.ControlModifier)
    assert audit.photo_act.word == "Add one photo to all 3"
    heard = []
    desk.changed.connect(heard.append)
    audit.photos.add(audit._photo_ids(), [picture(tmp_path)])
    settle(desk)
    assert [change.act for change in heard] == ["add a photo to 3 parts"]
    assert all(services.views.card(store, id_).photos_off for id_ in ids)
    again(audit, settle)
    assert Lack.PHOTO not in lacks(audit)
    services.history.undo(store, job_id, who="Ada")
    again(audit, settle)
    assert lacks(audit).count(Lack.PHOTO) == 3, "one act, and so one undo"


def test_a_picture_on_the_clipboard_is_pasted_to_them(audit, store, job_id, desk, settle):
    from PySide6.QtGui import QGuiApplication, QImage

    first = line(store, job_id, "dowel, bag 1")
    again(audit, settle)
    audit.list.go_to(audit.list.findings.of_lack(Lack.PHOTO)[0])
    image = QImage(30, 20, QImage.Format.Format_RGB32)
    image.fill(0x336699)
    QGuiApplication.clipboard().setImage(image)
    press(audit, KEYS.Key_V, Qt.KeyboardModifier.ControlModifier)
    settle(desk)
    assert len(services.views.card(store, first).photos_off) == 1
    QGuiApplication.clipboard().clear()


def test_what_is_no_picture_is_said_and_nothing_is_added(
    audit, store, job_id, desk, settle, qtbot, tmp_path
):
    first = line(store, job_id, "dowel, bag 1")
    again(audit, settle)
    wrong = tmp_path / "tray.png"
    wrong.write_text("no picture")
    with qtbot.waitSignal(desk.said) as said:
        audit.photos.add([first], [wrong])
    assert said.args[1]
    settle(desk)
    assert not services.views.card(store, first).photos


def test_nothing_covers_it_is_one_key(audit, store, job_id, desk, settle):
    area = services.jobs.add_area(store, job_id, "gearbox", who="Ada").new_id
    services.strip.log_removal(store, job_id, entry_in(area), who="Ada")
    again(audit, settle)
    places = audit.list.findings.of_lack(Lack.OPENER)
    assert places, "an area with a part in it and no opener"
    audit.list.go_to(places[0])
    assert audit.open_act.isVisible()
    press(audit, KEYS.Key_F6)
    settle(desk)
    again(audit, settle)
    assert Lack.OPENER not in lacks(audit)
    assert not audit.open_act.isVisible()


def entry_in(area_id):
    from bagtag.domain.entry import Entry

    return Entry("dowel", area_id=area_id)


def test_letters_go_into_the_one_field_and_press_nothing(audit, store, job_id, settle, qtbot):
    line(store, job_id, "dowel, bag 1")
    again(audit, settle)
    chosen = audit.list.here
    with qtbot.waitSignal(audit.typed) as typed, qtbot.assertNotEmitted(audit.mend):
        press(audit, KEYS.Key_P)
    assert typed.args == ["p"]
    assert audit.list.here == chosen


def test_another_job_shows_nothing_of_the_one_before(audit, store, job_id, desk, settle):
    line(store, job_id, "dowel, bag 1")
    again(audit, settle)
    assert audit.audit.rows
    other = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    desk.choose_job(other)
    audit.enter()
    assert audit.list.findings.rowCount() == 0
    assert audit.head.text() == LOOKING
    assert not audit.enter_act.isVisible()
    settle(desk)
    assert audit.calm.head.text() == "Nothing is logged yet"


def test_a_finding_is_read_out_whole(audit, store, job_id, settle):
    line(store, job_id, "dowel, bag 1")
    again(audit, settle)
    row = audit.list.here
    spoken = audit.list.currentIndex().data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == f"{row.number} {row.name}, {row.finding.sentence}, bag 1"


def test_the_audit_on_paper_is_previewed_as_it_will_be_printed(audit, store, job_id, settle, qtbot):
    from bagtag.ui.audit.audit_dialog import open_audit

    line(store, job_id, "dowel, bag 1")
    dialog = open_audit(audit.desk, audit)
    settle(audit.desk)
    qtbot.waitUntil(lambda: dialog.said.text() == "1 page.", timeout=10_000)
    dialog.reject()
