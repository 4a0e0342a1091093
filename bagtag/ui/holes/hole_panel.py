"""Beside the map: what is chosen, said large; below it the open page; at the foot the count."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.hardware import OVERRIDE
from bagtag.ui import theme
from bagtag.ui.forms.basics import label, tight
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.forms.sight import InSight
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_page import MapPage
from bagtag.ui.holes.hole_said import Said, counted

WIDE = 356
ROOMY, SHORT = 640, 26
"""From this height of the window on, a few words are said large: so many letters of them."""


class Panel(QWidget):
    """One page is open at a time; a click on the map goes to it."""

    def __init__(self, draft: Draft, pages: Sequence[MapPage], parent: QWidget) -> None:
        super().__init__(parent)
        self._draft, self._sheet = draft, pages[0].sheet
        self.pages = {page.title: page for page in pages}
        self.page = pages[0]
        self.big = label("", self, scale="head")
        self.head = label("", self)
        self.more = label("", self, scale="small", tone="muted")
        self.count = label("", self)
        self.override = label(OVERRIDE, self, scale="small", tone="muted")
        self.room = Scroll(self, "What is open beside the map")
        self.room.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        InSight(self.room, ())
        for page in pages:
            self.room.column.addWidget(page)
            page.setVisible(page is self.page)
        self._lay()
        self.setFixedWidth(WIDE)
        draft.changed.connect(self.refresh)
        draft.pointed.connect(self.refresh)

    def _lay(self) -> None:
        column = QVBoxLayout(self)
        tight(column, 2)
        for widget in (self.big, self.head, self.more):
            column.addWidget(widget)
        column.addSpacing(6)
        column.addWidget(self.room, 1)
        column.addSpacing(4)
        column.addWidget(self.count)
        column.addWidget(self.override)

    def open_page(self, title: str) -> None:
        if self.pages[title] is self.page:
            return
        self.page.leave()
        self.page.hide()
        self.page = self.pages[title]
        self._sheet.show_rings(self.page.is_of_lines)
        self.page.show()
        self._draft.point(())
        self.page.enter()
        self.page.begin()
        self.refresh()
        self.room.verticalScrollBar().setValue(0)

    def take_spot(self, x: float, y: float) -> None:
        self.page.take_spot(x, y)

    def take_hole(self, number: int, adding: bool) -> None:
        self.page.take_hole(number, adding)

    def refresh(self) -> None:
        self._say(self.page.said())
        text, is_wrong = counted(self._draft)
        self.count.setText(f"Look: {text}" if is_wrong else text)
        theme.mark(self.count, tone="accent" if is_wrong else "muted")
        self.override.setVisible(any(line.torque for line in self._draft.held_by))
        self.page.refresh()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._say(self.page.said())

    def _say(self, words: Said) -> None:
        roomy = self.window().height() >= ROOMY
        theme.mark(self.big, scale="big" if roomy and len(words.big) <= SHORT else "head")
        theme.mark(self.head, scale="head" if roomy else "body")
        self.big.setText(words.big)
        for widget, text in ((self.head, words.head), (self.more, words.more)):
            widget.setText(text)
            widget.setVisible(bool(text))
