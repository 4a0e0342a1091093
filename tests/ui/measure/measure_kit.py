"""What the tests of measuring share: a cylinder with a bore sheet, and a caliper that types."""

from dataclasses import replace
from decimal import Decimal

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.measuring.instrument import Instrument
from bagtag.domain.measuring.sheet import Given, Limits, SheetKind
from bagtag.domain.model import Fate

SIX = ("76.31", "76.24", "76.25", "76.20", "76.12", "76.10")
GAUGE = Instrument("bore gauge", Decimal("0.01"))
LIMITS = (
    Limits("size", Decimal("76.00"), Decimal("76.02"), None, Decimal("76.20")),
    Limits("taper", None, None, None, Decimal("0.25")),
)
OVERSIZES = (
    Given("standard", Decimal("76.00"), "mm"),
    *(Given("oversizes", Decimal(one), "mm") for one in ("76.25", "76.50", "76.75")),
)


def cylinder(store, job) -> int:
    """A cylinder that is to be decided."""
    entry = Entry("cylinder", area_id=job.areas["Lower case"], fate=Fate.DECIDE)
    return services.strip.log_removal(store, job.id, entry, who="MK").new_id


def add(store, job, kind=SheetKind.BORE, part=None, title="", **values) -> int:
    """A sheet with these values."""
    made = services.measuring.add_sheet(store, job.id, kind, part, title, who="MK").new_id
    if values:
        sheet = services.measuring.get_sheet(store, made)
        services.measuring.save(store, replace(sheet, **values), who="MK")
    return made


def caliper(*figures: str) -> None:
    """Type figures as an instrument does: each with Enter, into whatever has the keys then."""
    for figure in figures:
        QTest.keyClicks(QApplication.focusWidget(), figure)
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)


def at_pace(window, text: str, *, gap: int = 8, start: int = 5000) -> None:
    """Keys as the system hands them to a window, at a scanner's or a caliper's pace."""
    for place, letter in enumerate(text):
        key = Qt.Key.Key_Return if letter == "\r" else Qt.Key(ord(letter.upper()))
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            event = QKeyEvent(kind, key, Qt.KeyboardModifier.NoModifier, letter)
            event.setTimestamp(start + gap * place)
            QCoreApplication.sendEvent(window, event)


def readings(store, sheet_id: int) -> dict[str, str]:
    sheet = services.measuring.get_sheet(store, sheet_id)
    return {one.key: f"{one.value} {one.unit}" for one in sheet.readings}
