"""The top of a task's card: its sign, what is done, and where it has its place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.domain.codes import show
from bagtag.domain.phrases import capital
from bagtag.domain.standing import Standing
from bagtag.ui.card.card_parts import is_long
from bagtag.ui.card.task_signs import SignBox
from bagtag.ui.forms.basics import label, tight
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.services.task_views import TaskCard

SIDE, SMALL = 76, 48
WORDS = {Standing.NEXT: "can be done now", Standing.WAITS: "waits", Standing.IN: "done"}


class TaskHead(QWidget):
    """What is done in the largest letters, its sign before it, its place below."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.sign = SignBox(SIDE, self)
        self.name = label("", self, scale="big")
        self.code = label("", self, scale="head")
        self.code.setWordWrap(False)
        self.place = label("", self, tone="muted")
        self.standing = label("", self, tone="accent")
        self.standing.setWordWrap(False)
        grid = QGridLayout(self)
        tight(grid)
        grid.setColumnStretch(1, 1)
        grid.setHorizontalSpacing(16)
        top = Qt.AlignmentFlag.AlignTop
        grid.addWidget(self.sign, 0, 0, 2, 1, top)
        grid.addWidget(self.name, 0, 1)
        grid.addWidget(self.code, 0, 2, Qt.AlignmentFlag.AlignRight | top)
        grid.addWidget(self.place, 1, 1)
        grid.addWidget(self.standing, 1, 2, Qt.AlignmentFlag.AlignRight | top)

    def be_small(self, small: bool, *, bare: bool) -> None:
        """Leave room for what stands below; a bare one has only its sign and its name."""
        self.sign.set_side(SMALL if small else SIDE)
        self._is_small = small
        self._size()
        self.place.setVisible(not bare)
        self.standing.setVisible(not bare)

    _is_small = False

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._size()

    def _size(self) -> None:
        beside = self.sign.sizeHint().width() + self.code.sizeHint().width() + 32
        is_small = self._is_small or is_long(self.name.text(), self.width() - beside)
        mark(self.name, scale="head" if is_small else "big")

    def show_card(self, card: TaskCard) -> None:
        self.sign.show_kind(card.task.kind)
        self.name.setText(card.task.name)
        self.code.setText(show(card.code) if card.code else "")
        self.code.setAccessibleName(f"Code {show(card.code)}" if card.code else "No code")
        self._size()
        self.place.setText(place_words(card))
        self.standing.setText(WORDS.get(card.step.standing, card.step.standing.value))
        done = card.step.standing is Standing.IN
        mark(self.standing, tone="muted" if done else "accent")


def place_words(card: TaskCard) -> str:
    """`Hold point, engine > crankcase. Step 34, after 27 fork R.`"""
    kind = card.task.kind.value
    area = f", {card.step.area}" if card.step.area else ""
    stands = f", {card.stands}" if card.stands else ""
    return f"{capital(kind)}{area}. Step {card.step.place}{stands}."
