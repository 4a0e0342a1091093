"""The main window: the job and its stages along the top, the one field, and a page.

It is painted before anything heavy is imported; the store opens behind it (see app.py).
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from bagtag.ui.desk import Desk
from bagtag.ui.field.one_field import OneField
from bagtag.ui.stage_bar import StageBar

if TYPE_CHECKING:
    from bagtag.ui.counts import Counts
    from bagtag.ui.job_title import JobTitle
    from bagtag.ui.message_bar import MessageBar
    from bagtag.ui.window_work import WindowWork

SIZE, LEAST = (1280, 800), (940, 560)


class MainWindow(QWidget):
    """What is seen first. What it does is in `WindowWork`, made when the store is open."""

    painted = Signal()
    """The window is on the screen for the first time."""
    title: JobTitle
    counts: Counts
    pages: QStackedWidget
    message: MessageBar

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.work: WindowWork | None = None
        self._was_painted = self._is_finished = False
        self._after_paint = QTimer(self)  # the window's own, so that it tells nothing after it
        self._after_paint.setSingleShot(True)
        self._after_paint.timeout.connect(self.painted)
        self.setWindowTitle("Bagtag")
        self.resize(*SIZE)
        self.setMinimumSize(*LEAST)
        self.field = OneField(desk, self)  # made first, so that the window opens with it in focus
        self.stages = StageBar(self)
        self._top = QHBoxLayout()
        self._top.setSpacing(14)
        self._top.addWidget(self.stages)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(24, 8, 24, 20)
        self._column.setSpacing(6)
        self._column.addLayout(self._top)
        self._column.addWidget(self.field)
        self._column.addStretch(1)
        desk.ready.connect(self._begin)
        desk.refused.connect(self._refused)

    def finish(self) -> None:
        """Add what has nothing to show yet at the first paint; a second call does nothing."""
        if self._is_finished:
            return
        self._is_finished = True
        from bagtag.ui.counts import Counts
        from bagtag.ui.job_title import JobTitle
        from bagtag.ui.message_bar import MessageBar

        self.title, self.counts = JobTitle(self), Counts(self)
        self.pages, self.message = QStackedWidget(self), MessageBar(self)
        self.field.finish()
        self.field.share_row(self.message)
        self._top.insertWidget(0, self.title)
        self._top.addStretch(1)
        self._top.addWidget(self.counts)
        self._column.takeAt(2)
        self._column.addWidget(self.pages, 1)
        self.desk.said.connect(self.message.say)
        self._order_tabs()

    def _order_tabs(self) -> None:
        """Tab leads from the field to the page below it, and last to what stands above."""
        ways = self.field.ways
        above = [self.title, *self.stages.words.values(), self.field.frame.line]
        for before, after in pairwise([*above, ways.camera, ways.photo]):
            self.setTabOrder(before, after)

    def _begin(self) -> None:
        from bagtag.ui.window_work import WindowWork

        self.finish()
        self.work = WindowWork(self)

    def _refused(self, sentence: str) -> None:
        from bagtag.ui.plain_page import PlainPage

        self.finish()
        page = PlainPage("The store stays closed", sentence, self)
        self.pages.addWidget(page)
        self.pages.setCurrentWidget(page)
        self.field.setEnabled(False)
        self.stages.setEnabled(False)
        self.title.setEnabled(False)
        page.add_button("Close Bagtag", "primary").clicked.connect(self.close)

    def stop(self) -> None:
        """Stop what ticks and listens, before the store is closed."""
        if self._is_finished:
            self.message.stop()
        if self.work is not None:
            self.work.stop()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._was_painted:
            self._was_painted = True
            self._after_paint.start()
