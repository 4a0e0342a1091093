"""Roboto on screen, from its package: the same letters on every machine."""

from functools import cache
from importlib.util import find_spec
from pathlib import Path

from PySide6.QtGui import QFont, QFontDatabase

FAMILY = "Roboto"
BODY = 16
"""Body text, in pixels."""
_REGULAR, _BOLD = "Roboto-Regular.ttf", "Roboto-Bold.ttf"


def load() -> None:
    """Make Roboto known to Qt; needs a QGuiApplication. A second call does nothing."""
    load_regular()
    _load(_BOLD)


def load_regular() -> None:
    """The one face that the first paint needs."""
    _load(_REGULAR)


@cache
def _load(face: str) -> int:
    package = find_spec("font_roboto")  # not imported: it lists its folder for names we know
    assert package is not None
    assert package.origin is not None
    folder = Path(package.origin).parent / "files"
    return QFontDatabase.addApplicationFont(str(folder / face))


@cache
def font(pixels: int = BODY, bold: bool = False) -> QFont:
    """Roboto at a height in pixels."""
    made = QFont(FAMILY)
    made.setPixelSize(pixels)
    made.setBold(bold)
    return made
