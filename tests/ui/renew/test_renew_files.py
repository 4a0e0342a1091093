"""Lists that come in and go out: shown before they are taken in, whatever is wrong with them."""

import csv
from decimal import Decimal

import pytest
from PySide6.QtCore import QMimeData, QUrl
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.ui.renew.import_dialog import ImportDialog
from bagtag.ui.renew.jobs_dialog import JobsDialog
from bagtag.ui.renew.renew_files import FORMS, RenewFiles
from bagtag.ui.renew.renew_stage import RenewStage
from bagtag.ui.renew.tables import table_in
from bagtag.ui.sheets.order_dialog import OrderDialog
from tests.ui.forms_kit import CONTROL, ENTER, ESC, Qt, press, show, write
from tests.ui.renew.renew_kit import line_of
from tests.ui.stages_job import nameless

GOOD = (
    "what;size;count;supplier;price\n"
    "circlip;;2;bearing house;0,60\n"
    "main shaft bearing;6204;1;bearing house;8,90\n"
    "grease;400 g;1;farm store;6,20\n"
)
BAD = "what,count,price\nsealant,many,4.20\n=1+1,1,2.00\ngrease,1,cheap\n"


@pytest.fixture
def host(qtbot):
    """What a dialog stands over; it goes with it."""
    made = QWidget()
    show(qtbot, made)
    return made


@pytest.fixture
def dialog(qtbot, desk, job, host):
    return opened(qtbot, ImportDialog(desk, host))


@pytest.fixture
def files(qtbot, desk, job, settle):
    page = RenewStage(desk)
    show(qtbot, page, 1100, 600)
    page.enter()
    settle(desk)
    return page.files


def opened(qtbot, made):
    made.open()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def rows(dialog) -> list[tuple[str, str, str]]:
    return [(row.title, row.word, row.under) for row in dialog.list.rows.lines]


def test_what_a_file_would_do_is_shown_first(dialog, desk, settle, store, job, tmp_path) -> None:
    (tmp_path / "order.csv").write_text(GOOD, encoding="cp1252")
    dialog.read(tmp_path / "order.csv")
    settle(desk)
    assert dialog.head.text() == "1 new, 1 changed, 1 as it is"
    assert rows(dialog) == [
        ("2 × circlip", "changed", "price 0.45 EUR → 0.60 EUR"),
        ("grease 400 g", "new", "from farm store, 6.20"),
    ]
    assert "order.csv: semicolons between the cells, a header" in dialog.said.text()
    assert line_of(store, job, "circlip").new_part.price == Decimal("0.45")


def test_enter_takes_it_in_as_one_act(dialog, desk, settle, store, job) -> None:
    dialog.read(GOOD.encode())
    settle(desk)
    press(ENTER)
    settle(desk)
    assert line_of(store, job, "circlip").new_part.price == Decimal("0.60")
    assert line_of(store, job, "grease").new_part.supplier == "farm store"
    desk.act(services.history.undo, job.id)
    settle(desk)
    names = [line.new_part.what for line in services.renewals.lines(store, job.id)]
    assert "grease" not in names
    assert line_of(store, job, "circlip").new_part.price == Decimal("0.45")


def test_what_is_wrong_is_said_by_line(dialog, desk, settle, store, job) -> None:
    dialog.read(BAD.encode())
    settle(desk)
    said = " ".join(dialog.troubles.sentences)
    for words in ("Line 2: the count", "Line 3: a cell begins as a formula", "Line 4: the price"):
        assert words in said
    assert [title for title, _, _ in rows(dialog)] == ["=1+1", "grease"]


def test_a_table_is_pasted(dialog, desk, settle) -> None:
    QGuiApplication.clipboard().setText("grease\t400 g\t\t2\tfarm store\t6.20\n")
    press(Qt.Key.Key_V, CONTROL)
    settle(desk)
    assert rows(dialog) == [("2 × grease 400 g", "new", "from farm store, 6.20")]
    assert dialog.said.text().startswith("What was pasted: tabs between the cells, no header")


def test_what_is_no_table_is_said_and_nothing_is_lost(dialog, desk, settle, tmp_path) -> None:
    QGuiApplication.clipboard().setText("grease")
    press(Qt.Key.Key_V, CONTROL)
    assert "no table to paste" in dialog.wrong.text()
    (tmp_path / "photo.csv").write_bytes(b"PK\x03\x04" + bytes(40))
    dialog.read(tmp_path / "photo.csv")
    settle(desk)
    assert "This is no table of text" in dialog.wrong.text()
    assert not dialog.wrong.isHidden()
    assert not dialog.take.isEnabled()
    dialog.read(tmp_path / "gone.csv")
    settle(desk)
    assert "cannot be read" in dialog.wrong.text()


def test_a_file_that_says_nothing_new_cannot_be_taken_in(dialog, desk, settle, store, job) -> None:
    dialog.read(b"what,size\nmain shaft bearing,6204\n")
    settle(desk)
    assert dialog.head.text() == "1 as it is"
    press(ENTER)
    settle(desk)
    assert dialog.isVisible()
    assert not dialog.take.isEnabled()


def test_a_long_list_is_shown_and_taken_in(dialog, desk, settle, store, job) -> None:
    lines = "\n".join(f"shim {n},{n % 50}.5 mm,,1,bearing house,0.30" for n in range(3000))
    dialog.read(lines.encode())
    settle(desk)
    assert dialog.head.text() == "3000 new"
    press(ENTER)
    settle(desk)
    assert len(services.renewals.lines(store, job.id)) > 3000


def test_while_it_is_taken_in_it_says_so_and_stays(dialog, desk, settle, store, job) -> None:
    dialog.read(GOOD.encode())
    settle(desk)
    press(ENTER)
    assert "taken in" in dialog.head.text()
    assert "Ctrl+Z" in dialog.said.text()
    press(ESC)
    press(ENTER)
    assert dialog.isVisible()
    settle(desk)
    assert line_of(store, job, "grease").new_part.supplier == "farm store"


def test_a_file_on_the_page_opens_what_it_would_do(
    files, desk, settle, store, job, qtbot, tmp_path
) -> None:
    mime = QMimeData()
    (tmp_path / "order.csv").write_text(GOOD, encoding="utf-8")
    mime.setUrls([QUrl.fromLocalFile(str(tmp_path / "order.csv"))])
    found = table_in(mime)
    assert found == tmp_path / "order.csv"
    QGuiApplication.clipboard().setMimeData(mime)
    files._over.take_in.setFocus()
    press(Qt.Key.Key_V, CONTROL)
    settle(desk)
    (taken,) = files._over.findChildren(ImportDialog)
    assert taken.head.text() == "1 new, 1 changed, 1 as it is"
    assert nameless(taken) == []
    taken.activateWindow()
    qtbot.waitUntil(taken.isActiveWindow)
    press(ENTER)
    settle(desk)
    files._over.activateWindow()
    qtbot.waitUntil(files._over.list.hasFocus)
    assert line_of(store, job, "circlip").new_part.price == Decimal("0.60")


def test_words_that_are_no_table_are_left_alone() -> None:
    mime = QMimeData()
    mime.setText("grease")
    assert table_in(mime) is None
    assert table_in(None) is None
    for words in ("sealant, flange", "See the manual, page 4; torque\nis given there."):
        mime.setText(words)
        assert table_in(mime) is None
        assert table_in(mime, wanted=True) == words.encode()


@pytest.mark.parametrize("mark", ["\t", ";", ","])
def test_copied_rows_are_a_table(mark) -> None:
    mime = QMimeData()
    rows = f"grease{mark}400 g\nrags{mark}\n"
    mime.setText(rows)
    assert table_in(mime) == rows.encode()


@pytest.mark.parametrize("form", list(FORMS))
def test_the_list_goes_out_and_comes_back(files, desk, settle, store, job, tmp_path, form) -> None:
    mark = FORMS[form]
    files.write(tmp_path / "out.csv", mark)
    settle(desk)
    with (tmp_path / "out.csv").open(encoding="utf-8-sig", newline="") as opened:
        table = list(csv.DictReader(opened, delimiter=mark))
    prices = {row["what"]: row["price"] for row in table}
    assert prices["circlip"] == ("0,45" if mark == ";" else "0.45")
    assert len(table) == 6
    files.take(tmp_path / "out.csv")
    settle(desk)
    (taken,) = files._over.findChildren(ImportDialog)
    assert taken.head.text() == "6 as they are"


def test_an_order_list_of_several_jobs_is_chosen(qtbot, desk, store, job, host) -> None:
    jobs = services.jobs.list_jobs(store)
    dialog = opened(qtbot, JobsDialog(desk, jobs, ("bearing house", "farm store"), host))
    assert dialog.pick.values == [job.id]
    assert nameless(dialog) == []
    other = next(row for row in jobs if row.id != job.id)
    write(str(other.number))
    press(ENTER)
    dialog.supplier.set_text("farm store")
    with qtbot.waitSignal(dialog.chosen) as heard:
        dialog.show_list()
    assert heard.args == [[job.id, other.id], "farm store"]


def test_an_order_list_of_no_job_is_asked_for(qtbot, desk, store, job, host) -> None:
    dialog = opened(qtbot, JobsDialog(desk, services.jobs.list_jobs(store), (), host))
    dialog.pick.set_values([])
    dialog.show_list()
    assert "at least one job" in dialog.pick.field.wrong.text()
    assert dialog.isVisible()


def test_the_order_list_opens_of_one_job_or_asks_of_which(files, desk, settle, job) -> None:
    press(Qt.Key.Key_P, CONTROL)
    settle(desk)
    (ask,) = files._over.findChildren(JobsDialog)
    assert "bearing house" in ask.supplier.line.words
    ask.show_list()
    settle(desk)
    (paper,) = files._over.findChildren(OrderDialog)
    assert paper.subject() == (job.id,)
    assert paper.wrong.isHidden()
    paper.reject()


def test_a_page_of_files_is_let_go(desk, job, qtbot) -> None:
    page = RenewStage(desk)
    qtbot.addWidget(page)
    assert isinstance(page.files, RenewFiles)
    assert page.files.parent() is page
