"""The lines of hardware beside the map: each with its shape, its letter and its holes."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_counts import holes_named, numbers_of
from bagtag.domain.holes import HoleMap
from bagtag.ui.forms.basics import clear_layout, tight
from bagtag.ui.forms.choice import Choice, Option
from bagtag.ui.holes.hole_glyph import Glyph

NONE = "No fastener said"


class LineList(QWidget):
    """A click takes a line; arrows go from one to the next, Space takes it. Its letter does the
    same wherever the keys are, which the window hears."""

    taken = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Line of hardware")
        self._choices: list[Choice] = []
        self._grid = QGridLayout(self)
        tight(self._grid, 6)
        self._grid.setColumnStretch(1, 1)

    def show_lines(self, held_by: Sequence[HeldBy], hole_map: HoleMap, taken: str | None) -> None:
        """The lines, how many holes each has, and which is taken; None for several."""
        options = [*(_option(line, hole_map) for line in held_by), Option("", NONE)]
        if [c.option.value for c in self._choices] != [option.value for option in options]:
            self._make(options)
        for choice, option in zip(self._choices, options, strict=True):
            choice.option = option
            choice.setText(option.title)
            choice.setAccessibleName(", ".join(filter(None, (option.title, option.detail))))
            choice.setChecked(taken is not None and option.value == taken)
            choice.update()

    def choice(self, mark: str) -> Choice:
        return next(choice for choice in self._choices if choice.option.value == mark)

    @property
    def choices(self) -> tuple[Choice, ...]:
        return tuple(self._choices)

    @property
    def marks(self) -> list[str]:
        """The letters that may be pressed."""
        return [choice.option.value for choice in self._choices if choice.option.value]

    def _make(self, options: Sequence[Option]) -> None:
        clear_layout(self._grid)
        self._choices = [Choice(option, self) for option in options]
        for row, choice in enumerate(self._choices):
            choice.tall = bool(choice.option.value)
            choice.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            choice.clicked.connect(self._clicked)
            choice.stepped.connect(self._step)
            glyph = Glyph(choice.option.value, self)
            self._grid.addWidget(glyph, row, 0)
            self._grid.addWidget(choice, row, 1)

    def _clicked(self) -> None:
        choice = self.sender()
        if isinstance(choice, Choice):
            self.taken.emit(choice.option.value)

    def _step(self, _: int, down: int) -> None:
        at = next(place for place, choice in enumerate(self._choices) if choice is self.sender())
        if 0 <= at + down < len(self._choices):
            self._choices[at + down].setFocus(Qt.FocusReason.TabFocusReason)


def _option(line: HeldBy, hole_map: HoleMap) -> Option:
    return Option(line.mark, line.called(), holes_said(hole_map, line.mark), line.mark)


def holes_said(hole_map: HoleMap, mark: str) -> str:
    """`holes 1–6`, `hole 7`, `no hole yet`."""
    return holes_named(numbers_of(hole_map, mark)) or "no hole yet"
