"""Journeys through the window, by keyboard and by a typed scan."""

import gc
import sys
import weakref

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication, QPushButton, QWidget

from bagtag import bootstrap, services
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import part
from bagtag.ui import app as program
from bagtag.ui.stage_bar import STAGES
from tests.ui.shell_kit import NAMES, close_window, key, log, open_window, rest, type_line


@pytest.fixture
def ids(store, job_id):
    return log(store, job_id, *NAMES)


@pytest.fixture
def window(qtbot, store, ids, settle):
    made = open_window(qtbot, store, settle)
    yield made
    close_window(made)


def names(window):
    rows = window.work.bench.strip.rows
    return [rows.row_at(place).removal.name for place in range(rows.count)]


# The first sight of it


def test_it_opens_on_the_newest_job_with_the_keys_in_the_one_field(window):
    assert window.title.title == "Walking tractor, gearbox"
    assert window.counts.text == "5 off"
    assert window.stages.current == "Strip"
    assert window.field.frame.line.hasFocus()
    assert names(window) == list(NAMES)


def test_a_job_half_built_opens_on_build(qtbot, store, ids, settle):
    services.signing.sign(store, part(ids[4]), who="Ada")
    window = open_window(qtbot, store, settle)
    assert window.stages.current == "Build"
    assert window.counts.text == "5 off, 1 back"
    assert window.work.bench.strip.back_place == 4
    close_window(window)


def test_without_a_job_it_says_what_to_do_first(qtbot, tmp_path, settle):
    from bagtag.store.work import Store

    empty = Store.in_folder(tmp_path / "empty")
    window = open_window(qtbot, empty, settle)
    words = [b.text() for b in window.work.page.findChildren(QPushButton)]
    assert words == ["Open a job", "Look at the demo"]
    key(window, "Alt+2")
    settle(window.desk)
    assert window.work.page is window.work._empty
    window.work.page.findChildren(QPushButton)[0].click()
    settle(window.desk)
    assert window.stages.current == "Job"
    close_window(window)
    empty.close()


def test_a_store_of_a_newer_version_is_refused_in_the_window(qtbot, tmp_path, settle):
    import sqlite3

    location = bootstrap.locate(tmp_path)
    bootstrap.open_store(location).close()
    with sqlite3.connect(location.database) as raw:
        raw.execute("UPDATE alembic_version SET version_num = '9999'")
    raw.close()
    window, desk = bootstrap.make_window(location, "Ada")
    qtbot.addWidget(window)
    with qtbot.waitSignal(desk.refused):
        window.show()
    assert "newer Bagtag" in window.pages.currentWidget().findChildren(QWidget)[1].text()
    assert not window.field.isEnabled()
    window.stop()
    desk.close()
    window.close()


def test_nothing_heavy_is_imported_before_the_first_paint(qtbot):
    import subprocess

    code = (
        "import sys; from bagtag import bootstrap; from bagtag.ui import app\n"
        "made = app.Program(app.make_app(), None, 'Ada'); made.window.show()\n"
        "made.window.painted.connect(lambda: (print(*sys.modules), app.QApplication.exit()))\n"
        "app.QApplication.exec()\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    loaded = set(done.stdout.split())
    assert "bagtag.ui.window" in loaded
    heavy = {"sqlalchemy", "alembic", "reportlab", "PIL", "numpy", "qrcode", "zxingcpp"}
    heavy |= {"PySide6.QtMultimedia", "bagtag.domain.model", "bagtag.store", "bagtag.scan"}
    assert heavy & loaded == set()


# Stages and jobs


@pytest.mark.parametrize("stage", STAGES)
def test_every_stage_is_reached_by_its_key(window, settle, stage):
    key(window, f"Alt+{STAGES.index(stage) + 1}")
    settle(window.desk)
    assert window.stages.current == stage
    assert window.work.stage == stage


def test_arrows_walk_the_stages(window, settle):
    window.stages.words["Strip"].setFocus()
    key(window, "Right")
    settle(window.desk)
    assert window.stages.current == "Containers"
    assert window.stages.words["Containers"].hasFocus()


# the platform without a screen cannot raise a menu's window, and says so
@pytest.mark.qt_log_ignore("This plugin does not support")
def test_another_job_is_chosen_from_the_title(window, store, settle):
    pump = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    services.strip.log_removal(store, pump, Entry("impeller"))
    window.work._ask_jobs()
    settle(window.desk)
    window.title.open_menu()
    action = next(a for a in window.title._menu.actions() if "Pump" in a.text())
    action.trigger()
    window.title._menu.close()
    settle(window.desk)
    assert window.desk.job_id == pump
    assert names(window) == ["impeller"]
    assert window.counts.text == "1 off"


def test_a_word_finds_a_part_of_another_job(qtbot, window, store, settle):
    pump = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    impeller = services.strip.log_removal(store, pump, Entry("impeller")).new_id
    key(window, "Alt+7")
    settle(window.desk)
    type_line(window, "impel")
    settle(window.desk)
    key(window, "Return")
    rest(qtbot, window, settle)
    assert window.desk.job_id == pump
    assert window.work.bench.card.removal_id == impeller


def test_an_old_line_of_another_long_job_is_found_and_chosen(qtbot, window, store, settle):
    pump = services.jobs.open_job(store, services.jobs.JobForm("Pump")).new_id
    first, *_ = log(store, pump, *(f"vane {number}" for number in range(80)))
    window.work.show_removal(first)
    rest(qtbot, window, settle)
    assert window.desk.job_id == pump
    assert window.work.bench.strip.chosen_id == first
    assert window.work.bench.card.removal_id == first


# The house


@pytest.mark.parametrize("stage", STAGES)
def test_every_control_that_takes_keys_has_a_name(qtbot, window, ids, settle, stage):
    window.work.go_to(stage)
    if stage == "Build":
        window.work.bench.show_removal(ids[2])
    rest(qtbot, window, settle)
    nameless = [
        f"{type(widget).__name__} in {type(widget.parent()).__name__}"
        for widget in window.findChildren(QWidget)
        if widget.isVisible()
        and widget.focusPolicy() != Qt.FocusPolicy.NoFocus
        and widget.focusProxy() is None
        and not QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)
    ]
    assert nameless == []


@pytest.mark.parametrize("size", [(1280, 800), (1024, 600)])
def test_it_fits_the_screens_of_a_bench(window, settle, size):
    window.resize(*size)
    for stage in STAGES:
        window.work.go_to(stage)
        settle(window.desk)
        assert (window.width(), window.height()) == size, stage


def test_the_window_dies_when_it_is_dropped(qtbot, store, ids, settle):
    window = open_window(qtbot, store, settle)
    for stage in ("Build", "Strip"):
        window.work.go_to(stage)
        settle(window.desk)
    close_window(window)
    gone = [weakref.ref(window), weakref.ref(window.work), weakref.ref(window.work.bench)]
    window.desk.deleteLater()
    window.deleteLater()
    del window
    QApplication.sendPostedEvents(None, 52)
    gc.collect()
    assert [ref() for ref in gone if ref() is not None] == []


def test_a_fault_is_said_in_one_sentence_and_logged(qtbot, store, ids, caplog):
    made = program.Program(QApplication.instance(), lambda: store, "Ada")
    qtbot.addWidget(made.window)
    made.fault(ValueError, ValueError("broken"), None)
    assert made.window.message.text == program.FAULT
    assert "broken" in caplog.text
    QApplication.instance().aboutToQuit.disconnect(made.end)
    made.window.stop()
    made.window.close()
    made.deleteLater()


WHEEL_WEIGHT = """["wheel weight"]
goes_wrong = "It is left off."
renew = "sometimes"
why = "It rusts."
home = "It does not rattle."
"""


def test_a_broken_file_of_part_kinds_is_named_with_its_line(qtbot, store, ids, settle):
    folder = services.kinds.own_folder(store)
    folder.mkdir()
    (folder / "own.toml").write_text(WHEEL_WEIGHT, "utf-8")
    window = open_window(qtbot, store, settle)
    assert window.message.is_trouble
    assert window.message.text.startswith("own.toml, line 3: in [wheel weight]")
    type_line(window, "oil seal")  # all the other kinds hold
    assert window.field.tape.kind.name == "oil seal"
    close_window(window)
