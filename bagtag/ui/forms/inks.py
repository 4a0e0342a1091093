"""The theme's colours for what is painted by hand."""

from dataclasses import dataclass

from PySide6.QtGui import QColor, QFont
from PySide6.QtWidgets import QWidget

from bagtag.ui import theme


@dataclass(frozen=True, slots=True)
class Inks:
    card: QColor
    tape: QColor
    ink: QColor
    muted: QColor
    line: QColor
    accent: QColor

    def edge(self, strong: bool) -> QColor:
        return self.muted if strong else self.line


def inks() -> Inks:
    """The colours in force now."""
    now = theme.current()
    return Inks(now.card, now.tape, now.ink, now.muted, now.line, now.accent)


def sized(widget: QWidget, pixels: int, *, bold: bool = False) -> QFont:
    """The widget's font at a height in pixels."""
    font = QFont(widget.font())
    font.setPixelSize(pixels)
    font.setBold(bold)
    return font


def inks_of(widget: QWidget) -> tuple[QColor, QColor, QColor]:
    """Ink, accent and a faint line, for what is drawn by hand."""
    palette = widget.palette()
    ink, accent = palette.windowText().color(), palette.link().color()
    return ink, accent, palette.mid().color()
