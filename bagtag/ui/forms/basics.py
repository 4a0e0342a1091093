"""Small pieces that every form shares: a field with its caption and its error, edits, buttons."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFocusEvent, QFont, QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QLayout,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

TOUCH = 44
"""The least height of what a finger in a glove has to hit, in pixels."""
ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


def label(text: str, parent: QWidget, *, scale: str = "body", tone: str = "ink") -> QLabel:
    """A plain-text label; what a person typed is never read as markup."""
    made = QLabel(parent)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setText(text)
    made.setWordWrap(True)
    made.setProperty("scale", scale)
    made.setProperty("tone", tone)
    return made


def button(text: str, parent: QWidget, *, role: str = "plain", name: str = "") -> "Press":
    made = Press(text, parent)
    made.setProperty("role", role)
    made.setAccessibleName(name or text.replace("&", ""))
    return made


def panel(parent: QWidget, surface: str = "field") -> QFrame:
    frame = QFrame(parent)
    frame.setProperty("surface", surface)
    return frame


def tight(layout: QLayout, spacing: int = 4) -> None:
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(spacing)


class Press(QPushButton):
    """A button that Enter presses, as a person expects who has tabbed to it."""

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(text, parent)
        self.setMinimumHeight(TOUCH)
        self.setAutoDefault(False)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.click()
        else:
            super().keyPressEvent(event)


def _is_for_the_form(event: QEvent) -> bool:
    if not isinstance(event, QKeyEvent):
        return False
    if event.matches(QKeySequence.StandardKey.Paste):
        mime = QGuiApplication.clipboard().mimeData()
        return mime is not None and not mime.hasText() and (mime.hasImage() or mime.hasUrls())
    repeat = Qt.KeyboardModifier.ControlModifier
    return event.key() == Qt.Key.Key_D and event.modifiers() == repeat


class Line(QLineEdit):
    """One line of text. Down and Up go through the words it was told to suggest; nothing pops up.

    Ctrl+D goes on to the form, where it repeats the last entry; so does a paste of pictures.
    """

    entered = Signal()
    left = Signal()

    def __init__(self, parent: QWidget, name: str, *, hint: str = "") -> None:
        super().__init__(parent)
        self._face = QFont(self.font())
        self.setMinimumHeight(TOUCH)
        self.setAccessibleName(name)
        self.setPlaceholderText(hint)
        self.setAcceptDrops(False)  # a picture dropped here is for the form, not its path as text
        self.words: tuple[str, ...] = ()
        self._typed = ""
        self.textEdited.connect(self._remember)
        self.textChanged.connect(self._slant)
        self._slant()

    def set_face(self, font: QFont) -> None:
        """The font of what is typed; the hint of an empty line is light and slanted."""
        self._face = QFont(font)
        self._face.setItalic(False)
        self._slant()

    def suggest(self, words: Sequence[str]) -> None:
        """Offer words: Down takes the first that has what is typed in it, then the next."""
        self.words = tuple(words)

    def matches(self) -> tuple[str, ...]:
        """The words that go with what was typed."""
        wanted = self._typed.strip().casefold()
        return tuple(word for word in self.words if wanted in word.casefold())

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and _is_for_the_form(event):
            event.ignore()
            return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(Qt.Key(event.key()))
        if _is_for_the_form(event):
            event.ignore()
        elif step is not None and self.matches():
            self._step(step)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self._typed = ""
            self.left.emit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.StyleChange, QEvent.Type.FontChange):
            self._slant()

    def _slant(self) -> None:
        """A hint must not look like something that was filled in."""
        font = QFont(self._face)
        if not self.text():
            font.setItalic(True)
            font.setBold(False)
        if font != self.font():
            self.setFont(font)

    def _remember(self, typed: str) -> None:
        self._typed = typed

    def _step(self, step: int) -> None:
        """Put in the next word that goes with what was typed."""
        words = self.matches()
        at = words.index(self.text()) + step if self.text() in words else min(step, 0)
        self.setText(words[at % len(words)])


class Note(QPlainTextEdit):
    """Several lines of text. Tab leaves it; Ctrl+Enter goes on to the form."""

    def __init__(self, parent: QWidget, name: str, *, lines: int = 2) -> None:
        super().__init__(parent)
        self.setTabChangesFocus(True)
        self.setAcceptDrops(False)
        self.setAccessibleName(name)
        self.setFixedHeight(20 + 22 * lines)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and _is_for_the_form(event):
            event.ignore()
            return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        with_control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        if _is_for_the_form(event) or (with_control and event.key() in ENTER):
            event.ignore()
        else:
            super().keyPressEvent(event)


def say_at(fields: Mapping[str, "Field"], name: str, sentence: str) -> bool:
    """Say it below this field and put the keys there; False where there is no such field."""
    if name not in fields:
        return False
    fields[name].say(sentence)
    fields[name].editor.setFocus()
    return True


class Field(QWidget):
    """A caption, what is filled in below it, and below that what is wrong with it."""

    def __init__(self, caption: str, editor: QWidget, parent: QWidget) -> None:
        super().__init__(parent)
        self.editor = editor
        self.caption = label(caption, self, scale="small", tone="muted")
        self.caption.setBuddy(editor)
        self.wrong = label("", self, scale="small", tone="accent")
        self.wrong.hide()
        column = QVBoxLayout(self)
        tight(column)
        for part in (self.caption, editor, self.wrong):
            column.addWidget(part)
        if not editor.accessibleName():
            editor.setAccessibleName(caption)
        if isinstance(editor, Line):
            editor.textEdited.connect(self._mended)

    def _mended(self) -> None:
        """It is being put right: what was wrong is no longer said."""
        self.say("")

    def say(self, sentence: str) -> None:
        """Say what is wrong here; empty for nothing."""
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
        self.editor.setAccessibleDescription(sentence)


def clear_layout(layout: QLayout) -> None:
    """Take every widget out of a layout and let it go."""
    while (item := layout.takeAt(0)) is not None:
        widget = item.widget()
        if widget is not None:
            widget.hide()
            widget.deleteLater()


def is_inside(widget: QObject | None, ancestor: QWidget) -> bool:
    while widget is not None and widget is not ancestor:
        widget = widget.parent()
    return widget is ancestor
