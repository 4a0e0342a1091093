"""A day at the bench, by keyboard and scanner alone: strip, tag, scan, build, the plug pulled."""

from io import BytesIO
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton

from bagtag import services
from bagtag.domain.standing import Standing
from bagtag.scan.codes_in_pictures import read_codes

LINES = (
    "gearbox cover, 7 x M6x25, 8 mm hex, 10 Nm, tray 1",
    "cover gasket, renew",
    "shift drum, tray 1",
    "shift fork L, C faces right, 1st of 3 from left, bag 1",
    "shift fork R, C faces right, 2nd of 3 from left, bag 1",
    "retainer plate, OUT outward, 3 screws M6x12, T30, medium threadlocker, bag 2",
    "input shaft bearing, sealed side outward, refit, bag 3",
    "oil seal, lip inward, 0.5 mm below, scrap",
    "2 dowels, 5 mm proud, bag 4",
    "oil jet, bottomed, bag 5",
)


def _button(bench, words: str) -> QPushButton:
    found = [
        button
        for button in bench.window.findChildren(QPushButton)
        if button.isVisible() and button.text().replace("&", "").startswith(words)
    ]
    assert found, f"no button {words!r} in sight"
    return found[0]


def _picture(folder: Path, number: int) -> Path:
    path = folder / f"off-{number}.jpg"
    Image.new("RGB", (640, 480), (20 * number, 90, 200 - 10 * number)).save(path)
    return path


@pytest.fixture
def stripped(bench, tmp_path):
    """A job opened and ten removals logged from tape lines, each with a photo."""
    assert QApplication.focusWidget() is _button(bench, "Open a job"), "the one thing to do"
    bench.press(Qt.Key.Key_Return)
    bench.type("Walking tractor")
    bench.press(Qt.Key.Key_Return)
    assert [job.machine for job in _jobs(bench)] == ["Walking tractor"]
    bench.stage(2)
    for number, line in enumerate(LINES, start=1):
        bench.line(line)
        page = services.views.last_page(bench.desk.store, bench.desk.job_id)
        assert page.total == number
    _give_photos(bench, tmp_path)
    return bench


def _jobs(bench):
    return [
        services.jobs.get_job(bench.desk.store, row.id)
        for row in services.jobs.list_jobs(bench.desk.store)
    ]


def _image(folder: Path, number: int):
    from PySide6.QtGui import QImage

    return QImage(str(_picture(folder, number)))


def _give_photos(bench, folder: Path) -> None:
    """Paste a photo on each card, chosen by typing its number's code in the field."""
    for number in range(1, len(LINES) + 1):
        row = _row(bench, str(number))
        QApplication.clipboard().setImage(_image(folder, number))
        bench.desk.show_removal.emit(row.removal.id)
        bench.settle()
        bench.press(Qt.Key.Key_F8)
        bench.control(Qt.Key.Key_V)
        bench.press(Qt.Key.Key_Escape)


def _row(bench, number: str):
    store, job_id = bench.desk.store, bench.desk.job_id
    removal = services.strip.find_removal(store, job_id, number)
    return services.views.strip_rows(store, job_id, [removal.id])[0]


def test_a_strip_is_logged_by_keyboard_alone(stripped):
    page = services.views.last_page(stripped.desk.store, stripped.desk.job_id)
    names = [row.removal.name for row in page.rows]
    assert names[3:5] == ["shift fork L", "shift fork R"]
    assert [row.container for row in page.rows][3:5] == ["bag 1", "bag 1"]
    assert all(row.thumb for row in page.rows), "each has its photo"


def test_a_printed_label_scanned_back_shows_its_card(stripped, tmp_path):
    """The label's own PDF is rendered, read by the reader, and typed as a scanner would."""
    store, job_id = stripped.desk.store, stripped.desk.job_id
    fork = _row(stripped, "5")
    out = tmp_path / "labels.pdf"
    order = services.labels.LabelOrder(job_id, removal_ids=(fork.removal.id,), stock="roll-62x29")
    services.labels.write(store, order, out)
    page = pypdfium2.PdfDocument(out)[0].render(scale=300 / 72).to_pil()
    png = BytesIO()
    page.save(png, "PNG")
    (code,) = read_codes(png.getvalue()).codes
    assert code == fork.code
    stripped.stage(7)
    stripped.scan(code)
    assert stripped.window.work.bench.card.removal_id == fork.removal.id


def test_a_scan_presses_nothing_on_any_stage(stripped):
    """Whatever has the keys, the letters of a code and its Enter change nothing in the store."""
    store, job_id = stripped.desk.store, stripped.desk.job_id
    fork = _row(stripped, "5")
    before = [deed.act for deed in services.history.history(store, job_id)]
    for number in range(1, 9):
        stripped.stage(number)
        stripped.scan(fork.code)
        assert stripped.window.work.bench.card.removal_id == fork.removal.id
        stripped.window.work.bench.strip.setFocus()
        stripped.scan(fork.code)
        assert stripped.window.field.text == "", "the strip hands letters on to the field"
    assert [deed.act for deed in services.history.history(store, job_id)] == before
    assert len(services.containers.list_containers(store, job_id)) == 6


def test_three_steps_are_ticked_and_survive_the_plug(stripped, tmp_path):
    """The checklist is printed, three steps signed, and all of it is there after a restart."""
    store, job_id = stripped.desk.store, stripped.desk.job_id
    services.checklists.write(store, job_id, tmp_path / "checklist.pdf")
    assert len(pypdfium2.PdfDocument(tmp_path / "checklist.pdf")) >= 1
    stripped.stage(7)
    for _ in range(3):
        step = next(
            s for s in services.board.board(store, job_id).steps if s.standing is Standing.NEXT
        )
        stripped.scan(services.views.card(store, step.removal_id).code)
        stripped.press(Qt.Key.Key_F6)
    done = [s.removal_id for s in services.board.board(store, job_id).steps if s.sign_off]
    assert len(done) == 3
    stripped.stop()
    stripped.start()
    board = services.board.board(stripped.desk.store, stripped.desk.job_id)
    assert [s.removal_id for s in board.steps if s.sign_off] == done
    stripped.control(Qt.Key.Key_Z)
    assert services.board.board(stripped.desk.store, stripped.desk.job_id).done == 2


def test_after_the_questions_of_a_line_the_next_line_is_written(stripped):
    """Tab leads from the line to what its kind asks; Enter logs it, and the line has the keys."""
    stripped.control(Qt.Key.Key_L)
    stripped.type("clutch hub, bag 6")
    stripped.settle()
    stripped.press(Qt.Key.Key_Tab)
    line = stripped.window.field.frame.line
    assert not line.hasFocus()
    _button(stripped, "Log it").setFocus()
    stripped.press(Qt.Key.Key_Return)
    assert services.views.last_page(stripped.desk.store, stripped.desk.job_id).total == 11
    assert line.hasFocus()
    assert line.text() == ""


def test_a_line_that_cannot_be_true_beside_another_is_said_as_it_is_logged(stripped):
    stripped.line("shift fork L, C faces right, 2nd of 3 from left, bag 9")
    said = stripped.window.message.text
    assert said.startswith("Logged as 11.")
    assert "shift fork" in said
    assert "cannot both be 2nd of 3" in said or "both L" in said
