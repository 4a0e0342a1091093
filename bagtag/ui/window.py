"""The main window: the job and its stages along the top, the one field, a page, the message bar.

It is painted before anything heavy is imported; the store opens behind it (see app.py).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QCloseEvent, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from bagtag.ui.counts import Counts
from bagtag.ui.desk import Desk
from bagtag.ui.job_title import JobTitle
from bagtag.ui.message_bar import MessageBar
from bagtag.ui.one_field import OneField
from bagtag.ui.stage_bar import StageBar

if TYPE_CHECKING:
    from bagtag.ui.window_work import WindowWork

SIZE, LEAST = (1280, 800), (940, 560)


class MainWindow(QWidget):
    """What is seen first. What it does is in `WindowWork`, made when the store is open."""

    painted = Signal()
    """The window is on the screen for the first time."""
    closing = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.work: WindowWork | None = None
        self._was_painted = False
        self.setWindowTitle("Bagtag")
        self.resize(*SIZE)
        self.setMinimumSize(*LEAST)
        self.title = JobTitle(self)
        self.stages = StageBar(self)
        self.counts = Counts(self)
        self.field = OneField(desk, self)
        self.pages = QStackedWidget(self)
        self.message = MessageBar(self)
        self._lay()
        self.field.setFocus()
        desk.ready.connect(self._begin)
        desk.refused.connect(self._refused)
        desk.said.connect(self.message.say)

    def _lay(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(14)
        top.addWidget(self.title)
        top.addWidget(self.stages)
        top.addStretch(1)
        top.addWidget(self.counts)
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 8, 24, 4)
        column.setSpacing(6)
        column.addLayout(top)
        column.addWidget(self.field)
        column.addWidget(self.pages, 1)
        column.addWidget(self.message)

    def _begin(self) -> None:
        from bagtag.ui.window_work import WindowWork

        self.work = WindowWork(self)

    def _refused(self, sentence: str) -> None:
        from bagtag.ui.plain_page import PlainPage

        page = PlainPage("The store stays closed", sentence, self)
        self.pages.addWidget(page)
        self.pages.setCurrentWidget(page)
        self.field.setEnabled(False)
        self.stages.setEnabled(False)
        self.title.setEnabled(False)
        page.add_button("Close Bagtag", "primary").clicked.connect(self.close)

    def stop(self) -> None:
        """Stop what ticks and listens, before the store is closed."""
        self.message.stop()
        if self.work is not None:
            self.work.stop()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._was_painted:
            self._was_painted = True
            QTimer.singleShot(0, self.painted.emit)

    def closeEvent(self, event: QCloseEvent) -> None:
        self.closing.emit()
        super().closeEvent(event)
