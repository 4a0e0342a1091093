"""The build's side of the bench page: its lists at the left, its bar above, steps on the card."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from bagtag.domain.fitting import Ref, part, task
from bagtag.ui.order.left_column import STRIP, LeftColumn
from bagtag.ui.progress.build_stage import BuildBar, standings

if TYPE_CHECKING:
    from bagtag.services.board import Board
    from bagtag.ui.bench_page import BenchPage
    from bagtag.ui.card.task_card import TaskCardView


class BuildSide(QObject):
    """Made when the build is first gone to. From then on the strip is one of its lists."""

    def __init__(self, page: BenchPage) -> None:
        super().__init__(page)
        self.page, self.desk = page, page.desk
        self.task_id = 0
        """The task that is on the card in the place of a part; 0 for none."""
        had_keys = page.strip.hasFocus()
        self.bar = BuildBar(self.desk, page)
        self.left = LeftColumn(self.desk, page.strip, page)
        if had_keys:
            page.strip.setFocus()
        self._connect()

    def _connect(self) -> None:
        self.bar.board_read.connect(self._board_read)
        self.bar.add_wanted.connect(self.add)
        self.bar.tools_wanted.connect(self.lay_out)
        self.left.chosen.connect(self._chosen)
        self.left.opened.connect(self._opened)
        self.left.typed.connect(self.page.typed)
        self.left.turned.connect(self._turned)
        self.page.card.acts.in_strip.clicked.connect(self._show_strip)

    @cached_property
    def task_card(self) -> TaskCardView:
        from bagtag.ui.card.task_card import TaskCardView

        made = TaskCardView(self.desk, self.page)
        self.page.right.addWidget(made)
        return made

    @property
    def step(self) -> Ref | None:
        """The step of the build that is on the card."""
        if self.task_id:
            return task(self.task_id)
        return part(self.page.card_id) if self.page.card_id else None

    def set_building(self, building: bool) -> None:
        self.bar.setVisible(building)
        self.left.set_building(building)

    def show_job(self) -> None:
        """Nothing is known of another job yet."""
        self.task_id = 0
        self.left.show_board(None)

    # What is shown

    def part_is_shown(self, removal_id: int) -> None:
        """A part is on the card, whoever put it there."""
        self.task_id = 0
        self.left.show_step(part(removal_id))

    def show_task(self, task_id: int) -> None:
        """Put a task of the build on its card."""
        self._put_task(task_id)
        self.left.show_step(task(task_id))

    def _put_task(self, task_id: int) -> None:
        self.task_id = task_id
        self.task_card.show_task(task_id)
        self.page.right.setCurrentWidget(self.task_card)

    def _chosen(self, ref: Ref) -> None:
        """A step is chosen in a list of the build; the strip, out of sight, follows."""
        self.page.seek_nothing()
        if ref.removal_id is None:
            self._put_task(ref.id)
            return
        self.task_id = 0
        self.page.put_part(ref.id)
        self.page.strip.choose(ref.id)

    def _opened(self, ref: Ref) -> None:
        self._chosen(ref)
        shown = self.page.right.currentWidget()
        if shown is not None:
            shown.setFocus()

    def _show_strip(self) -> None:
        if self.page.building:
            self.left.go_to(STRIP)

    def _turned(self, word: str) -> None:
        """The strip comes up where the part on the card is."""
        if word == STRIP and self.page.card_id and not self.task_id:
            self.page.strip.choose(self.page.card_id)
        elif word == STRIP:
            self.page.strip.go_to_work()

    def _board_read(self, board: Board) -> None:
        strip = self.page.strip
        first = strip.rows.standings is None
        strip.set_standings(dict(standings(board)))
        self.left.show_board(board)
        if first and self.page.building and not strip.chosen_id:
            strip.go_to_work()
        if self.page.wants_next(nothing_shown=self.step is None):
            self.bar.show_next()

    # What is done

    def add(self) -> None:
        """Something that is added to the build, beside the step on the card."""
        from bagtag.ui.order.add_menu import open_add

        open_add(self.desk, self.page, self.step)

    def lay_out(self) -> None:
        """The tools for the build: laid out, and counted back."""
        from bagtag.ui.tools.tools_dialog import open_tools

        open_tools(self.desk, self.page, self.desk.job_id)
