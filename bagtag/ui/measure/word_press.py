"""The words that can become of a part, each to be pressed or chosen by its letter."""

from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.basics import Press


@dataclass(frozen=True, slots=True)
class Word:
    """One thing that can become of a part, its key on the keyboard, and how it is asked for."""

    value: StrEnum
    text: str
    key: str


class WordPress(Press):
    """A word to press; `value` is what it means."""

    def __init__(self, word: Word, of: str, parent: QWidget) -> None:
        super().__init__(f"{word.text}\u2002{word.key.upper()}", parent)
        self.value = word.value
        self.setAccessibleName(f"{of}: {word.text}")
