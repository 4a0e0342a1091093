"""The build checklist: the pages as they will be printed, of the whole build or of one area."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum, auto
from itertools import pairwise
from typing import Any

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain import areas as tree
from bagtag.domain.model import Area
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.forms.pick_model import PickRow
from bagtag.ui.sheets.pages_dialog import PagesDialog, file_named

WORDS = "Every step of the build in its order, which way round, with a box to tick."
FILE = "build checklist"
"""What no file name may have, on one system or another."""


class Of(Enum):
    """What goes on the paper."""

    WHOLE = auto()
    BY_AREA = auto()
    AREA = auto()


OPTIONS = (
    Option(Of.WHOLE, "Whole build"),
    Option(Of.BY_AREA, "By area"),
    Option(Of.AREA, "One area"),
)


def open_checklist(desk: Desk, parent: QWidget | None = None) -> ChecklistDialog:
    """Open the checklist of the chosen job."""
    dialog = ChecklistDialog(desk, parent)
    dialog.open()
    return dialog


class ChecklistDialog(PagesDialog):
    _of = Of.WHOLE
    _area_id: int | None = None

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(
            desk, "Print the checklist", WORDS,
            service=services.checklists, file=file_named(FILE), parent=parent,
        )  # fmt: skip
        self.of = Choices("What goes on the paper", OPTIONS, self, columns=3)
        self.of.set_value(Of.WHOLE)
        self.area = PickLine("Which area", "area", self, hint="a word of its name", eager=True)
        self.area.hide()
        self.controls.addWidget(Field("What goes on the paper", self.of, self))
        self.controls.addWidget(self.area)
        self.of.chosen.connect(self._chosen)
        self.area.picked.connect(self._area_picked)
        for before, after in pairwise((self.area.line, self.save, self.print, self.put_away)):
            self.setTabOrder(before, after)
        desk.ask(services.jobs.areas_of, desk.job_id, then=self._areas_known)

    def _areas_known(self, areas: Sequence[Area]) -> None:
        known = tree.by_id(areas)
        listed = tree.in_tree_order(areas)
        self.area.set_rows([PickRow(a.id, tree.path_text(known, a.id)) for _, a in listed])

    def _chosen(self) -> None:
        """Draw the pages anew; of one area only once it is known which."""
        self._of = self.of.value
        self.area.setVisible(self._of is Of.AREA)
        if self._of is Of.AREA and self.area.value is None:
            self.pages.show_pages(())
            self.said.setText("")
            self.area.setFocus()
        else:
            self.later()

    def _area_picked(self) -> None:
        self._area_id = self.area.value
        if self._area_id is not None:
            self.later()

    def _is_known(self) -> bool:
        """Whether it is known what goes on the paper; what is not is asked for."""
        if self._of is Of.AREA and not (self.area.settle() and self.area.value is not None):
            self.area.field.say("Choose the area: type a word of its name.")
            self.area.setFocus()
            return False
        return True

    def choose_file(self) -> None:
        if self._is_known():
            super().choose_file()

    def choose_printer(self) -> None:
        if self._is_known():
            super().choose_printer()

    def more(self) -> tuple[Any, ...]:
        area_id = self._area_id if self._of is Of.AREA else None
        return (services.checklists.Span(area_id, self._of is Of.BY_AREA),)

    def file_name(self) -> str:
        """`build checklist, gearbox.pdf` of one area."""
        row = self.area.row if self._of is Of.AREA else None
        last = row.text.split(" > ")[-1] if row is not None else ""
        return file_named(FILE, last)
