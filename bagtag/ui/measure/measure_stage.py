"""Measure: the parts to decide with their sheets, or one sheet as a page of its own."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QStackedLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.model import Fate
from bagtag.ui.desk import Desk
from bagtag.ui.measure.measure_list import MeasureList
from bagtag.ui.measure.new_sheet import open_new_sheet
from bagtag.ui.measure.sheet_page import SheetPage
from bagtag.ui.measure.sheet_ties import SheetTies
from bagtag.ui.stage import Stage

if TYPE_CHECKING:
    from bagtag.services.measuring import MeasureRow, SheetView


class MeasureStage(Stage):
    title = "Measure"

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self._job_id = 0
        self._to_sheet = self._to_part = 0
        self._is_first = True
        self.list = MeasureList(self)
        self.page = SheetPage(desk.who, self)
        self.ties = SheetTies(desk, self.page)
        self._pages = QStackedLayout(self)
        self._pages.addWidget(self.list)
        self._pages.addWidget(self.page)
        self.list.worded.connect(self._decide)
        self.list.shown.connect(desk.show_removal)
        self.list.opened.connect(self.show_sheet)
        self.list.sheet_wanted.connect(self.new_sheet)
        self.page.left.connect(self.show_list)
        self.page.again.clicked.connect(self._again)
        self.ties.work.shown.connect(self._sheet_shown)
        self.ties.gone.connect(self.show_list)

    # What is shown

    def enter(self) -> None:
        """A sheet that is open stays so, unless another job was chosen; the keys are where the next
        figure is wanted, and in a job's list at first on its first part."""
        if self.desk.job_id != self._job_id:
            self._job_id, self._is_first = self.desk.job_id, True
            self._close()
        if self.ties.is_open:
            self.page.begin()
            self.ties.open(self.ties.work.sheet_id)
        elif self.desk.job_id:
            self.desk.ask(services.measuring.for_stage, self.desk.job_id, then=self._show)

    def hear(self, change: Change) -> None:
        if not self.ties.is_open:
            super().hear(change)
        elif change.job_id in (0, self.desk.job_id):
            self.ties.hear(change)

    def _show(self, found: Sequence[MeasureRow]) -> None:
        self.list.show_rows(found)
        if self._to_sheet:
            self.list.begin(self._to_sheet)
        elif self._to_part:
            self.list.show_part(self._to_part)
        elif self._is_first and found:
            self.list.begin()
        self._to_sheet = self._to_part = 0
        self._is_first = self._is_first and not found

    def show_sheet(self, sheet_id: int) -> None:
        """Show a sheet of the chosen job as a page."""
        self._job_id = self.desk.job_id
        self.ties.open(sheet_id)

    def show_part(self, removal_id: int) -> None:
        """Put the keys on a part of the chosen job, as soon as the list is known."""
        self._to_part = removal_id
        self._close()
        self.enter()

    def _sheet_shown(self, _: SheetView) -> None:
        if self._pages.currentWidget() is not self.page:
            self._pages.setCurrentWidget(self.page)
            self.page.begin()

    def show_list(self) -> None:
        """Back to the parts; the keys are on the sheet that was open."""
        self._to_sheet = self.ties.work.sheet_id
        self._close()
        self.enter()

    def _close(self) -> None:
        self.ties.work.close()
        self._pages.setCurrentWidget(self.list)

    # What is done

    def new_sheet(self, removal_id: int = 0) -> None:
        """Open the form of a new sheet, of a part or of none."""
        open_new_sheet(self.desk, self, removal_id).made.connect(self.show_sheet)

    def _again(self) -> None:
        view = self.ties.work.view
        self.new_sheet(view.removal.id if view and view.removal else 0)

    def _decide(self, removal_id: int, fate: Fate) -> None:
        self.desk.act(services.fates.set_fate, [removal_id], fate)
