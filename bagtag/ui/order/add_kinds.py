"""What is done at the bench beside putting parts in, each with its key."""

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from bagtag.domain.fitting import TaskKind
from bagtag.ui.card.task_signs import sign_of
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.stages.stage_keys import LoneKeys

_WORDS = {
    TaskKind.CLEAN: "Clean",
    TaskKind.OIL: "Oil",
    TaskKind.PRELUBE: "Prelube",
    TaskKind.PLASTIGAUGE: "Plastigauge",
    TaskKind.END_FLOAT: "End float",
    TaskKind.FILL_OIL: "Fill oil",
    TaskKind.INSPECT: "Inspect",
    TaskKind.HOLD_POINT: "Hold point",
    TaskKind.OTHER: "Other",
}
KINDS = tuple(
    Option(kind, word, key=str(number), picture=sign_of(kind))
    for number, (kind, word) in enumerate(_WORDS.items(), start=1)
)


class KindChoices(Choices):
    """Nine kinds of task; only a digit that comes alone chooses, for a scanner types digits too."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("What is done", KINDS, parent, columns=3)
        self._alone = LoneKeys(self)
        self._alone.pressed.connect(self.press_key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self._alone.hear(event):
            super().keyPressEvent(event)

    def press_key(self, key: str) -> None:
        """Choose the kind that has this key."""
        found = next((option for option in KINDS if option.key == key), None)
        if found is not None:
            self.choice(found.value).setFocus()
            self.choose(found.value)
