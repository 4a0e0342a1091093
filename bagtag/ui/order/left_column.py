"""The column at the left of the build: what can go in now, the plan, or the strip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, QSize, Signal
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from bagtag.domain.fitting import Ref
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import tight
from bagtag.ui.order.circle_panel import CirclePanel
from bagtag.ui.order.now_view import NowView
from bagtag.ui.order.order_page import OrderPage
from bagtag.ui.stage_bar import WordBar

if TYPE_CHECKING:
    from bagtag.services.board import Board
    from bagtag.ui.strip.strip_view import StripView

NOW, ORDER, STRIP = WORDS = ("Now", "Order", "Strip")
LEFT = "build/left"
"""Where it is kept which word was chosen last."""


class Pages(QStackedWidget):
    """Lists scroll: they take what height there is, whatever they would ask for."""

    def hasHeightForWidth(self) -> bool:
        return False

    def minimumSizeHint(self) -> QSize:
        return QSize(340, 60)


class LeftColumn(QWidget):
    """Three words, and below them what they stand for. While stripping there is the strip alone."""

    chosen = Signal(object)
    """A step is chosen in Now or in Order: a `Ref`."""
    opened = Signal(object)
    typed = Signal(str)
    turned = Signal(str)
    """Another word is chosen."""

    def __init__(self, desk: Desk, strip: StripView, parent: QWidget) -> None:
        super().__init__(parent)
        self.strip = strip
        self.board: Board | None = None
        self.shown: Ref | None = None
        self._fresh: set[str] = set()
        self._is_building = False
        self.words = WordBar("What the build shows at the left", WORDS, "Ctrl", self)
        self.circle = CirclePanel(desk, self)
        self.now = NowView(strip, self)
        self.order = OrderPage(desk, self)
        self.pages = Pages(self)
        self._views = dict(zip(WORDS, (self.now, self.order, strip), strict=True))
        column = QVBoxLayout(self)
        tight(column, 6)
        top = QHBoxLayout()
        tight(top, 8)
        top.addWidget(self.words)
        top.addStretch(1)
        top.addWidget(self.order.to_rules)
        column.addWidget(self.circle)
        column.addLayout(top)
        column.addWidget(self.pages, 1)
        for view in self._views.values():
            self.pages.addWidget(view)
        self._connect()
        self.set_building(False)

    def _connect(self) -> None:
        self.words.chosen.connect(self.go_to)
        for number, word in enumerate(WORDS, start=1):
            key = QShortcut(QKeySequence(f"Ctrl+{number}"), self.words)  # works while they are seen
            key.setAutoRepeat(False)
            key.setObjectName(word)
            key.activated.connect(self._key)
        for view in (self.now, self.order):
            view.chosen.connect(self._chosen)
            view.opened.connect(self._opened)
            view.typed.connect(self.typed)

    # Which of the three

    @property
    def word(self) -> str:
        """The word in force; while stripping it is the strip."""
        return self.words.current if self._is_building else STRIP

    def set_building(self, building: bool) -> None:
        self._is_building = building
        self.words.setVisible(building)
        self.order.to_rules.hide()
        self.circle.setVisible(building and self.board is not None and bool(self.board.no_order))
        last = str(QSettings().value(LEFT, NOW))
        self._turn((last if last in WORDS else NOW) if building else STRIP)

    def _key(self) -> None:
        self.go_to(self.sender().objectName())
        self.focus_list()

    def go_to(self, word: str) -> None:
        """Show another of the three, and remember it on this machine."""
        QSettings().setValue(LEFT, word)
        self._turn(word)
        self.turned.emit(word)

    def _turn(self, word: str) -> None:
        self.words.set_current(word)
        self.order.to_rules.setVisible(self._is_building and word == ORDER)
        self.pages.setCurrentWidget(self._views[word])
        self._catch_up(word)

    def focus_list(self) -> None:
        """The keys go to the list in sight."""
        if self.word == ORDER:
            self.order.focus_list()
        else:
            self._views[self.word].setFocus()

    # What they show

    def show_board(self, board: Board | None) -> None:
        """A fresh board, or none while another job is read. What is out of sight waits."""
        if board is None:
            self.shown = None
        self.board = board
        self._fresh.clear()
        self.circle.show_no_order(board.no_order if board is not None else None)
        if self._is_building:
            self._catch_up(self.word)

    def _catch_up(self, word: str) -> None:
        if word == STRIP:
            return
        view = self.now if word == NOW else self.order
        if word not in self._fresh:
            self._fresh.add(word)
            view.show_board(self.board)
        if self.shown is not None:
            view.choose(self.shown)

    def show_step(self, ref: Ref) -> None:
        """Choose the step that is on the card, where the list in sight has it."""
        self.shown = ref
        if self._is_building:
            self._catch_up(self.word)

    def _chosen(self, ref: Ref) -> None:
        self.shown = ref
        self.chosen.emit(ref)

    def _opened(self, ref: Ref) -> None:
        self.shown = ref
        self.opened.emit(ref)

    def hasHeightForWidth(self) -> bool:
        return False

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.circle.later.start()
