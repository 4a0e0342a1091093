"""Roboto on screen, from its package: the same letters on every machine."""

from functools import cache

from PySide6.QtGui import QFont, QFontDatabase

FAMILY = "Roboto"
BODY = 16
"""Body text, in pixels."""
_FACES = ("Roboto", "RobotoBold")


@cache
def load() -> tuple[int, ...]:
    """Make Roboto known to Qt; needs a QGuiApplication. A second call does nothing."""
    from font_roboto import font_files

    return tuple(QFontDatabase.addApplicationFont(font_files[face]) for face in _FACES)


@cache
def font(pixels: int = BODY, bold: bool = False) -> QFont:
    """Roboto at a height in pixels."""
    made = QFont(FAMILY)
    made.setPixelSize(pixels)
    made.setBold(bold)
    return made
