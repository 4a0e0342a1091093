"""Small helpers that every form shares: a field with its caption and its error, edits, buttons."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import (
    QCompleter,
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


def _is_repeat_key(event: QEvent) -> bool:
    control = Qt.KeyboardModifier.ControlModifier
    return (
        isinstance(event, QKeyEvent)
        and event.key() == Qt.Key.Key_D
        and event.modifiers() == control
    )


class Line(QLineEdit):
    """One line of text. Ctrl+D goes on to the form, where it repeats the last entry."""

    left = Signal()

    def __init__(self, parent: QWidget, name: str, *, hint: str = "") -> None:
        super().__init__(parent)
        self.setMinimumHeight(TOUCH)
        self.setAccessibleName(name)
        self.setPlaceholderText(hint)

    def suggest(self, words: Sequence[str]) -> None:
        """Offer words while typing; Down shows them all."""
        completer = QCompleter(list(words), self)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.setCompleter(completer)  # which deletes the one before

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and _is_repeat_key(event):
            event.ignore()
            return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if _is_repeat_key(event):
            event.ignore()
            return
        if event.key() == Qt.Key.Key_Down and self.completer() is not None and not self.text():
            self.completer().setCompletionPrefix("")
            self.completer().complete()
            return
        super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.left.emit()


class Note(QPlainTextEdit):
    """Several lines of text. Tab leaves it; Ctrl+Enter goes on to the form."""

    def __init__(self, parent: QWidget, name: str, *, lines: int = 2) -> None:
        super().__init__(parent)
        self.setTabChangesFocus(True)
        self.setAccessibleName(name)
        self.setFixedHeight(20 + 22 * lines)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and _is_repeat_key(event):
            event.ignore()
            return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        with_control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        if with_control and event.key() in (*ENTER, Qt.Key.Key_D):
            event.ignore()
        else:
            super().keyPressEvent(event)


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
