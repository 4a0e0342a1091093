"""The look: paper, graphite and one accent, four sizes of type, light and dark.

Widgets ask for it by dynamic properties that the one style sheet reads:
QLabel `scale` = small, body, head, big and `tone` = ink, muted, accent; QPushButton `role` =
primary, plain, quiet; QFrame `surface` = card, tape, field. What paints itself takes `current()`.

What is loaded before the window is painted names nothing of the namespace `Qt`, and paints nothing
in Python: PySide builds all of Qt's hundred enums when the first is named or a painter's pen is
set, which takes a tenth of the whole start.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QObject
from PySide6.QtGui import QColor, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication, QWidget

from bagtag.ui import fonts
from bagtag.ui.theme_sheet import SHEET

if TYPE_CHECKING:
    from PySide6.QtCore import Qt

SMALL, BODY, HEAD, BIG = 13, fonts.BODY, 22, 36
"""The type scale, in pixels."""
TOUCH = 44
"""The least height of what a finger in a glove has to hit, in pixels."""


class Colours(NamedTuple):
    """The colours by name. Ink stands at 7:1 or better on every ground, muted at 4.5:1."""

    paper: QColor
    tape: QColor
    card: QColor
    ink: QColor
    muted: QColor
    line: QColor
    accent: QColor
    on_accent: QColor


def _colours(*names: str) -> Colours:
    return Colours(*(QColor(name) for name in names))


LIGHT = _colours(
    "#faf8f4", "#f1ead8", "#ffffff", "#212429", "#51565e", "#d9d3c3", "#962a0e", "#ffffff"
)
DARK = _colours(
    "#1c1d20", "#38342a", "#26272b", "#f4f1ea", "#c2beb4", "#4d4a43", "#ffa484", "#231208"
)


def current() -> Colours:
    """The colours in force now."""
    ground = QGuiApplication.palette().color(QPalette.ColorRole.Window)
    return DARK if ground.lightness() < 128 else LIGHT


def mark(widget: QWidget, **properties: object) -> None:
    """Set the properties the style sheet reads on a widget that may be on screen already."""
    changed = [name for name, value in properties.items() if widget.property(name) != value]
    for name in changed:
        widget.setProperty(name, properties[name])
    if changed:
        widget.style().unpolish(widget)
        widget.style().polish(widget)


class Theme(QObject):
    """Dresses the application, and again when the system turns light or dark."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._app = app
        fonts.load_regular()
        app.setFont(fonts.font())
        self.wear(current())  # the palette is still the system's own, light or dark
        app.styleHints().colorSchemeChanged.connect(self._follow)

    def wear(self, colours: Colours) -> None:
        self._app.setPalette(_palette(colours))
        self._app.setStyleSheet(_sheet(colours))

    def _follow(self, scheme: Qt.ColorScheme) -> None:
        self.wear(DARK if scheme.name == "Dark" else LIGHT)


def _sheet(colours: Colours) -> str:
    sheet = SHEET
    for name in sorted(colours._fields, key=len, reverse=True):  # on_accent before accent
        sheet = sheet.replace(f"@{name}", getattr(colours, name).name())
    return sheet


def _palette(colours: Colours) -> QPalette:
    role = QPalette.ColorRole
    palette = QPalette()
    for name, colour in (
        (role.Window, colours.paper),
        (role.WindowText, colours.ink),
        (role.Base, colours.card),
        (role.AlternateBase, colours.tape),
        (role.Text, colours.ink),
        (role.Button, colours.card),
        (role.ButtonText, colours.ink),
        (role.Highlight, colours.accent),
        (role.HighlightedText, colours.on_accent),
        (role.Link, colours.accent),
        (role.PlaceholderText, colours.muted),
        (role.Mid, colours.line),
        (role.ToolTipBase, colours.tape),
        (role.ToolTipText, colours.ink),
    ):
        palette.setColor(name, colour)
    for text in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, text, colours.muted)
    return palette
