"""What is done at the bench beside putting parts in, each with its key."""

from PySide6.QtWidgets import QWidget

from bagtag.domain.fitting import TaskKind
from bagtag.ui.card.task_signs import sign_of
from bagtag.ui.forms.choices import Option
from bagtag.ui.forms.lone_choices import LoneChoices

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


class KindChoices(LoneChoices):
    """Nine kinds of task."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("What is done", KINDS, parent, columns=3)
