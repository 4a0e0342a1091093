"""One of a few, each large enough to hit with a glove: a picture, a word, and the key for it."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.ui.forms.basics import clear_layout, tight
from bagtag.ui.forms.choice import Choice, Option

__all__ = ["Choices", "Option"]


class Choices(QWidget):
    """A block of options, `columns` wide: one stop for Tab, arrows inside, a key for each."""

    chosen = Signal()
    """The person chose; `value` says what."""

    def __init__(
        self, name: str, options: Sequence[Option], parent: QWidget, *, columns: int = 2
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._columns = columns
        self._choices: list[Choice] = []
        self._grid = QGridLayout(self)
        tight(self._grid, 6)
        self.set_options(options)

    @property
    def value(self) -> Any:
        """What is chosen; None where nothing is."""
        return next((c.option.value for c in self._choices if c.isChecked()), None)

    def set_value(self, value: Any) -> None:
        for choice in self._choices:
            choice.setChecked(value is not None and choice.option.value == value)
        self._set_stops()

    def set_options(self, options: Sequence[Option]) -> None:
        """Show other options; what was chosen stays so where it is still among them."""
        value = self.value
        clear_layout(self._grid)
        self._choices = [Choice(option, self) for option in options]
        tall = any(option.detail or option.picture for option in options)
        for place, choice in enumerate(self._choices):
            choice.tall = tall
            choice.clicked.connect(self._clicked)
            choice.stepped.connect(self._step)
            self._grid.addWidget(choice, place // self._columns, place % self._columns)
        self.set_value(value)
        before: QWidget | None = None
        for choice in self._choices:
            if before is not None:
                QWidget.setTabOrder(before, choice)
            before = choice

    def choice(self, value: Any) -> Choice:
        return next(c for c in self._choices if c.option.value == value)

    def choose(self, value: Any) -> None:
        """Choose as the person would."""
        self.set_value(value)
        self.chosen.emit()

    def _step(self, across: int, down: int) -> None:
        """Move the focus from one option to its neighbour, and choose it."""
        at = next(place for place, choice in enumerate(self._choices) if choice is self.sender())
        place = at + across + down * self._columns
        if 0 <= place < len(self._choices):
            self._choices[place].setFocus(Qt.FocusReason.TabFocusReason)
            self.choose(self._choices[place].option.value)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.text().casefold()
        plain = event.modifiers() in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.KeypadModifier,
            Qt.KeyboardModifier.ShiftModifier,
        )
        match = [c for c in self._choices if key and c.option.key.casefold() == key]
        if plain and match:
            match[0].setFocus(Qt.FocusReason.ShortcutFocusReason)
            self.choose(match[0].option.value)
        else:
            super().keyPressEvent(event)

    def _clicked(self) -> None:
        choice = self.sender()
        if isinstance(choice, Choice):
            self.choose(choice.option.value)

    def _set_stops(self) -> None:
        """One stop for Tab: what is chosen, else the first."""
        stop = next((c for c in self._choices if c.isChecked()), None)
        stop = stop or next(iter(self._choices), None)
        for choice in self._choices:
            strong = Qt.FocusPolicy.StrongFocus
            choice.setFocusPolicy(strong if choice is stop else Qt.FocusPolicy.ClickFocus)
        if stop is not None:
            self.setFocusProxy(stop)
