"""What the tests of the forms share: a gearbox job with a few lines, a picture, a way to type."""

from pathlib import Path

from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from bagtag import services
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Fate

DATUM = Datum(
    "standing behind the handlebars, looking forward",
    {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"},
)
ENTER, TAB, ESC = Qt.Key.Key_Return, Qt.Key.Key_Tab, Qt.Key.Key_Escape
CONTROL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier


def furnish(store, job_id: int) -> dict[str, int]:
    """A datum, two areas and three lines of the log; ids by name."""
    jobs, strip = services.jobs, services.strip
    form = jobs.JobForm("Walking tractor", "gearbox", datum=DATUM)
    jobs.edit_job(store, job_id, form, who="Ada")
    ids = {"lower case": jobs.add_area(store, job_id, "lower case").new_id}
    inner = jobs.add_area(store, job_id, "gearbox", parent_id=ids["lower case"])
    ids["gearbox"] = inner.new_id
    for entry in (
        Entry("cover, clutch side", held_by=(HeldBy(7, "bolt", "M6", 25.0),)),
        Entry("shift drum", area_id=ids["gearbox"]),
        Entry("shift fork L", area_id=ids["gearbox"], fate=Fate.DECIDE, goes_on="engine oil"),
    ):
        extras = strip.Extras(container_wanted="bag 12")
        ids[entry.name] = strip.log_removal(store, job_id, entry, extras, who="Ada").new_id
    return ids


def settings(folder: Path) -> QSettings:
    return QSettings(str(folder / "bagtag.ini"), QSettings.Format.IniFormat)


def picture(path: Path, colour: tuple[int, int, int] = (120, 90, 60)) -> Path:
    from PIL import Image

    Image.new("RGB", (640, 480), colour).save(path)
    return path


def show(qtbot, widget: QWidget, width: int = 800, height: int = 620) -> None:
    """Put a widget on the screen with the keyboard on it."""
    qtbot.addWidget(widget)
    widget.resize(width, height)
    widget.show()
    widget.activateWindow()
    qtbot.waitUntil(widget.isActiveWindow)


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """A key where the focus is."""
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def write(text: str) -> None:
    """Type where the focus is."""
    QTest.keyClicks(QApplication.focusWidget(), text)


def removals(store, job_id: int) -> list:
    ids = services.strip.log_ids(store, job_id)
    return [services.strip.get_removal(store, id_) for id_ in ids]
