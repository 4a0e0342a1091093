"""For which steps tools are laid out: the whole build, one area, or the next few."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum, auto
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain import areas as tree
from bagtag.domain.model import Area
from bagtag.ui.forms.basics import Field, Line, label, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.figures import count
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.forms.pick_model import PickRow

if TYPE_CHECKING:
    from bagtag.services.tools import Span

FEW = "5"
_NO_COUNT = "How many steps? A whole number from 1 to 999."


class Of(Enum):
    WHOLE = auto()
    AREA = auto()
    NEXT = auto()


OPTIONS = (
    Option(Of.WHOLE, "Whole build"),
    Option(Of.AREA, "One area"),
    Option(Of.NEXT, "Next steps"),
)


class ToolsSpan(QWidget):
    """`changed` says that something else is chosen; `span` is None until it is known what."""

    changed = Signal()
    choosing = Signal(bool)
    """Whether an area is being chosen, and none is known yet or its list is open."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.of = Choices("For which steps", OPTIONS, self, columns=3)
        self.of.set_value(Of.WHOLE)
        self.area = PickLine("Which area", "area", self, hint="a word of its name", eager=True)
        self.steps = Line(self, "How many steps that can go in now")
        self.steps.setText(FEW)
        self.steps.setMaximumWidth(120)
        self.steps_field = Field("How many that can go in now", self.steps, self)
        column = QVBoxLayout(self)
        tight(column, 6)
        top = QHBoxLayout()
        tight(top, 12)
        top.addWidget(label("Tools to lay out", self, scale="head"), 1)
        top.addWidget(self.of, 2)
        column.addLayout(top)
        column.addWidget(self.area)
        column.addWidget(self.steps_field)
        self.area.hide()
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.timeout.connect(self._tell_choosing)
        self.area.list.installEventFilter(self)
        self.steps_field.hide()
        self.of.chosen.connect(self._chosen)
        self.area.picked.connect(self._told)
        self.steps.textChanged.connect(self._told)

    def set_areas(self, areas: Sequence[Area]) -> None:
        known = tree.by_id(areas)
        listed = tree.in_tree_order(areas)
        self.area.set_rows([PickRow(a.id, tree.path_text(known, a.id)) for _, a in listed])

    @property
    def span(self) -> Span | None:
        """What is chosen; None where it is not known yet."""
        if self.of.value is Of.WHOLE:
            return services.tools.Span()
        if self.of.value is Of.AREA:
            return services.tools.Span(self.area.value) if self.area.value is not None else None
        steps = count(self.steps.text())
        return services.tools.Span(steps=steps) if steps and steps < 1000 else None

    def _chosen(self) -> None:
        self._tell_choosing()  # room is made before the list of areas takes it
        self.area.setVisible(self.of.value is Of.AREA)
        self.steps_field.setVisible(self.of.value is Of.NEXT)
        if self.of.value is Of.AREA and self.area.value is None:
            self.area.setFocus()
        elif self.of.value is Of.NEXT:
            self.steps.setFocus()
            self.steps.selectAll()
        self._told()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The list of areas opens or closes. Told a moment later: until then the layout reckons
        with the list that goes, and the window would grow for both."""
        if event.type() in (QEvent.Type.Show, QEvent.Type.Hide):
            self._soon.start()
        return super().eventFilter(watched, event)

    def _tell_choosing(self) -> None:
        is_open = self.area.list.isVisibleTo(self)
        is_area = self.of.value is Of.AREA
        self.choosing.emit(is_area and (is_open or self.area.value is None))

    def _told(self) -> None:
        self._soon.start()
        is_wrong = self.of.value is Of.NEXT and self.span is None
        self.steps_field.say(_NO_COUNT if is_wrong else "")
        self.changed.emit()
