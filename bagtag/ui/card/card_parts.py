"""Small pieces that the card and the stages share: acts with their key, captioned values."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from bagtag.ui import fonts, theme
from bagtag.ui.forms.basics import Press, clear_layout, label, tight

HOLES, TORQUE, PASSES = "Ctrl+H", "Ctrl+R", "Ctrl+G"
"""Open the hole map, the torque and the passes of the part on the card; the page hears them."""


class Letter(Press):
    """A button that says the letter which its stage presses it with."""

    def __init__(self, word: str, letter: str, parent: QWidget) -> None:
        super().__init__(f"{word}\u2002{letter}", parent)
        self.letter = letter
        self.setAccessibleName(word)


class Act(Press):
    """A button that says its key and answers to it wherever the focus is, while it is enabled and
    what it stands in is shown."""

    def __init__(self, word: str, key: str, parent: QWidget, *, role: str = "plain") -> None:
        super().__init__(word, parent)
        self._key = key
        self._is_brief = False
        self.setProperty("role", role)
        self._shortcut = QShortcut(QKeySequence(key), parent) if key else None
        if self._shortcut is not None:
            self._shortcut.setAutoRepeat(False)
            self._shortcut.activated.connect(self.click)
        self.say(word)

    def offer(self, wanted: bool) -> None:
        """Whether the act makes sense now; its key goes with it."""
        self.setVisible(wanted)
        self.setEnabled(wanted)
        if self._shortcut is not None:
            self._shortcut.setEnabled(wanted)

    def be_brief(self, brief: bool) -> None:
        """Whether only the word is shown, where there is no room for its key as well."""
        if brief != self._is_brief:
            self._is_brief = brief
            self.say(self.word)

    def say(self, word: str) -> None:
        """What the button does now."""
        self.word = word
        shown = QKeySequence(self._key).toString(QKeySequence.SequenceFormat.NativeText)
        self.setText(f"{word}\u2002{shown}" if shown and not self._is_brief else word)
        self.setAccessibleName(word)
        self.setToolTip(f"{word} ({shown})" if shown else word)

    def say_with(self, word: str, key: str) -> None:
        """A word with a key that something else listens to."""
        self.say(f"{word}\u2002{key}")
        self.setAccessibleName(word)
        self.setToolTip(f"{word} ({key})")


class Value(QWidget):
    """A small caption and below it what it says."""

    def __init__(self, caption: str, text: str, parent: QWidget, *, tone: str = "ink") -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        tight(column, 2)
        column.addWidget(label(caption, self, scale="small", tone="muted"))
        self.said = label(text, self, tone=tone)
        selectable = Qt.TextInteractionFlag.TextSelectableByMouse
        self.said.setTextInteractionFlags(selectable)
        column.addWidget(self.said)
        column.addStretch(1)
        self.setAccessibleName(f"{caption}: {text}")


class Values(QWidget):
    """Captioned values side by side, in as many columns as there is room for."""

    COLUMN = 230

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._grid = QGridLayout(self)
        tight(self._grid)
        self._grid.setHorizontalSpacing(24)
        self._grid.setVerticalSpacing(12)
        self._values: list[Value] = []
        self._columns = 0

    def show_values(self, pairs: list[tuple[str, str, str]]) -> None:
        """Caption, text and tone of each; those without text are left out."""
        clear_layout(self._grid)
        kept = [pair for pair in pairs if pair[1]]
        self._values = [Value(caption, text, self, tone=tone) for caption, text, tone in kept]
        self._columns = 0
        self._lay()

    def texts(self) -> dict[str, str]:
        """What is said, by caption."""
        return dict(value.accessibleName().split(": ", 1) for value in self._values)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay()

    def _lay(self) -> None:
        columns = max(1, min(4, self.width() // self.COLUMN))
        if columns == self._columns:
            return
        for column in range(max(self._columns, columns)):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)
        self._columns = columns
        for index, value in enumerate(self._values):
            self._grid.addWidget(value, index // columns, index % columns)
            value.show()


class Scroll(QScrollArea):
    """A column that scrolls up and down, never sideways."""

    def __init__(self, parent: QWidget, name: str) -> None:
        super().__init__(parent)
        self.body = QWidget(self)
        self.column = QVBoxLayout(self.body)
        tight(self.column, 12)
        self.setWidget(self.body)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName(name)
        self.viewport().setAutoFillBackground(False)
        self.body.setAutoFillBackground(False)

    def minimumSizeHint(self) -> QSize:
        return QSize(120, 60)


class Emptiness(QWidget):
    """What a stage says when there is nothing to do in it, and what comes next."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        tight(column, 8)
        self.head = label("", self, scale="head")
        self.next = label("", self, tone="muted")
        column.addWidget(self.head)
        column.addWidget(self.next)
        column.addStretch(1)

    def say(self, head: str, what_next: str) -> None:
        self.head.setText(head)
        self.next.setText(what_next)


def keyless(text: str) -> str:
    """A person's own words on a button: no `&` in them makes a key."""
    return text.replace("&", "&&")


def inks_of(widget: QWidget) -> tuple[QColor, QColor, QColor]:
    """Ink, accent and a faint line, for what is drawn by hand."""
    palette = widget.palette()
    ink, accent = palette.windowText().color(), palette.link().color()
    return ink, accent, palette.mid().color()


def is_long(name: str, wide: float) -> bool:
    """Whether a name would take more than two of the largest lines of this width, in pixels."""
    metrics = QFontMetricsF(fonts.font(theme.BIG, bold=True))
    return metrics.horizontalAdvance(name) > 1.8 * max(wide, 1.0)
