"""The acts of a task's card."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from bagtag.domain.standing import Standing
from bagtag.ui.card.card_acts import CORRECT, FITTED, ActRow
from bagtag.ui.forms.acts import Act
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.services.task_views import TaskCard


class TaskActs(ActRow):
    """A final tightening has the passes and the holes of its part at hand."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.done = Act("Done", FITTED, self, role="primary")
        self.take_back = Act("Take back", FITTED, self)
        self.edit = Act("Edit", CORRECT, self)
        self.why = Act("Why here", "", self)
        self.delete = Act("Delete", "", self)
        self.passes = Act("Passes", "", self)
        self.holes = Act("Hole map", "", self)
        first = (self.done, self.take_back, self.edit, self.why)
        self.acts = (*first, self.passes, self.holes, self.delete)
        self.offer(set())

    def show_card(self, card: TaskCard) -> None:
        done = card.step.standing is Standing.IN
        mark(self.done, role="plain" if card.step.hindrances else "primary")
        wanted = {self.take_back if done else self.done, self.edit, self.why, self.delete}
        wanted |= {self.holes} if card.tightens else set()
        wanted |= {self.passes} if card.tightens and not done else set()
        self.offer(wanted)
