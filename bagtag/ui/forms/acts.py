"""Buttons that say their key and answer to it."""

from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.basics import Press


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


def keyless(text: str) -> str:
    """A person's own words on a button: no `&` in them makes a key."""
    return text.replace("&", "&&")
