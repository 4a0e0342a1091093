"""Options with a digit each that a scanner, which types digits too, does not choose."""

from collections.abc import Sequence

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.ask_keys import AskKeys
from bagtag.ui.forms.choices import Choices, Option


class LoneChoices(Choices):
    """A key chooses its option unless it comes in the burst of a scan."""

    def __init__(
        self, name: str, options: Sequence[Option], parent: QWidget, *, columns: int = 2
    ) -> None:
        super().__init__(name, options, parent, columns=columns)
        self.keys = AskKeys(self)
        self.keys.pressed.connect(self.press_key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.keys.hear(event):
            super().keyPressEvent(event)

    def press_key(self, key: str) -> None:
        """Choose the option that has this key."""
        found = next((c for c in self._choices if c.option.key.casefold() == key), None)
        if found is not None:
            found.setFocus()
            self.choose(found.option.value)
