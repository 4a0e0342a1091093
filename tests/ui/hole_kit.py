"""What the tests of the hole map share: a cover with two lines of bolts, its map open."""

from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import HeldBy
from bagtag.domain.holes import HoleMap
from bagtag.domain.torque import Torque
from tests.ui.add_kit import host

LINES = (HeldBy(3, "bolt", "M8", 35, torque=Torque(22)), HeldBy(1, "bolt", "M8", 50))
QUIET = 160
"""Longer than a key waits to be alone, in milliseconds."""


def cover(store, job_id: int, lines=LINES, name: str = "gearbox cover") -> int:
    """A part with this hardware; its id."""
    return services.strip.log_removal(store, job_id, Entry(name, held_by=lines), who="Ada").new_id


def photo(path: Path, size: tuple[int, int] = (800, 600), **saved) -> Path:
    """A picture, red at its upper left corner and grey elsewhere."""
    image = Image.new("RGB", size, (110, 110, 110))
    image.paste((200, 30, 30), (0, 0, size[0] // 4, size[1] // 4))
    image.save(path, **saved)
    return path


def open_map(qtbot, desk, settle, removal_id: int):
    """The hole map of a part, shown, with everything it asked for."""
    from bagtag.ui.holes.hole_dialog import open_hole_map

    dialog = open_hole_map(desk, host(qtbot), removal_id)
    dialog.resize(1100, 720)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    settle(desk)
    return dialog


def spot(dialog, x: float, y: float) -> QPoint:
    """Where a place of the map is on the sheet."""
    return dialog.sheet.view.on_screen(x, y).toPoint()


def click(dialog, x: float, y: float, held=Qt.KeyboardModifier.NoModifier) -> None:
    """Click on the map at a place given in its units."""
    QTest.mouseClick(dialog.sheet, Qt.MouseButton.LeftButton, held, spot(dialog, x, y))


def drag(dialog, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Drag from one place of the map to another."""
    first, last = spot(dialog, *start), spot(dialog, *end)
    sheet, left = dialog.sheet, Qt.MouseButton.LeftButton
    QTest.mousePress(sheet, left, Qt.KeyboardModifier.NoModifier, first)
    for share in (0.3, 0.7, 1.0):
        between = QPointF(first) + (QPointF(last) - QPointF(first)) * share
        _move(sheet, between)
    QTest.mouseRelease(sheet, left, Qt.KeyboardModifier.NoModifier, last)


def _move(sheet, place: QPointF) -> None:
    from PySide6.QtCore import QCoreApplication, QEvent
    from PySide6.QtGui import QMouseEvent

    left, none = Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton
    where = sheet.mapToGlobal(place)
    held = Qt.KeyboardModifier.NoModifier
    event = QMouseEvent(QEvent.Type.MouseMove, place, where, none, left, held)
    QCoreApplication.sendEvent(sheet, event)


def key(dialog, code: Qt.Key, held=Qt.KeyboardModifier.NoModifier, times: int = 1) -> None:
    """A key while the map has the keyboard."""
    for _ in range(times):
        QTest.keyClick(dialog.sheet, code, held)


def letter(qtbot, dialog, text: str) -> None:
    """A letter or figure that comes alone."""
    QTest.keyClicks(dialog.sheet, text)
    qtbot.wait(QUIET)


def places(hole_map: HoleMap) -> dict[int, tuple[float, float]]:
    return {hole.number: (hole.x, hole.y) for hole in hole_map.holes}


def marks(hole_map: HoleMap) -> dict[int, str]:
    return {hole.number: hole.mark for hole in hole_map.holes}


def near(place: tuple[float, float], by: float = 1.0):
    """A place, as near as a click on the screen can be."""
    return pytest.approx(place, abs=by)


def kept(store, removal_id: int) -> HoleMap | None:
    return services.holes.map_view(store, removal_id).hole_map
