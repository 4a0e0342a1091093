"""Renew: what is bought new, by supplier, from the day it is wanted until it is compared."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.new_part import NewPart
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import button, label, tight
from bagtag.ui.forms.lone_keys import LoneKeys
from bagtag.ui.forms.scroll import Emptiness
from bagtag.ui.renew.renew_acts import KEYS, Do, acts_for
from bagtag.ui.renew.renew_files import RenewFiles
from bagtag.ui.renew.renew_list import RenewList
from bagtag.ui.renew.renew_side import RenewSide
from bagtag.ui.renew.renew_words import head
from bagtag.ui.renew.tables import table_in
from bagtag.ui.stage import Stage

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine

NOTHING = (
    "Nothing is to be renewed",
    "Gaskets, circlips and what Measure decides come here, and bolts that are new each time. "
    "Ctrl+N adds what is of no part: sealant, oil. What is still to be decided stands under "
    "Measure.",
)
_LETTERS = {key: do for do, key in KEYS.items()}


class RenewStage(Stage):
    title = "Renew"

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.lines: Sequence[RenewLine] = ()
        self._job_id = self._to_part = 0
        self._is_first = True
        self.setAcceptDrops(True)
        self.head = label("", self, scale="head")
        self.new = Act("New line", "Ctrl+N", self)
        self.print = Act("Order list", "Ctrl+P", self)
        self.take_in = button("Import…", self, name="Import a list of new parts")
        self.give_out = button("Export…", self, name="Export the list for a spreadsheet")
        self.empty = Emptiness(self)
        self.empty.say(*NOTHING)
        self.list = RenewList(self)
        self.side = RenewSide(desk, self)
        self.files = RenewFiles(desk, self)
        self.keys = LoneKeys(self)
        self._lay()
        self._connect()

    def _lay(self) -> None:
        top = QHBoxLayout()
        tight(top, 8)
        words = QVBoxLayout()
        tight(words, 2)
        words.addWidget(self.head)
        words.addWidget(self.empty)
        top.addLayout(words, 1)
        for press in (self.new, self.print, self.take_in, self.give_out):
            top.addWidget(press, 0, Qt.AlignmentFlag.AlignTop)
        self.body = QWidget(self)
        across = QHBoxLayout(self.body)
        tight(across, 16)
        across.addWidget(self.list, 6)
        across.addWidget(self.side, 5)
        column = QVBoxLayout(self)
        tight(column, 10)
        column.addLayout(top)
        column.addWidget(self.body, 1)
        column.addStretch(0)

    def _connect(self) -> None:
        self.list.moved.connect(self._moved)
        self.list.entered.connect(self._next)
        self.list.removed.connect(self._remove)
        self.keys.pressed.connect(self._letter)
        self.new.clicked.connect(self.add)
        self.print.clicked.connect(self.files.print_it)
        self.take_in.clicked.connect(self.files.choose)
        self.give_out.clicked.connect(self.files.give_out)
        self.side.left.connect(self._to_list)
        self.files.taken_in.connect(self._taken_in)
        self.side.shown.connect(self.desk.show_removal)

    # What is shown

    def enter(self) -> None:
        if self.desk.job_id != self._job_id:
            self._job_id, self._is_first = self.desk.job_id, True
            self.side.go_back()
        if self.desk.job_id:
            self.desk.ask(services.renewals.lines, self.desk.job_id, then=self._show)

    def _show(self, lines: Sequence[RenewLine]) -> None:
        self.lines = self.side.lines = lines
        self.head.setText(head(lines) if lines else "")
        self.list.show_lines(lines)
        self._arrange()
        if self._to_part:
            self._show_part()
        if self._is_first and lines:
            self._is_first = False
            self.list.setFocus()

    def show_part(self, removal_id: int) -> None:
        """Choose the first line for a part of the chosen job, as soon as its lines are known."""
        self._to_part = removal_id
        self.enter()

    def _show_part(self) -> None:
        wanted, self._to_part = self._to_part, 0
        if not self.side.is_open:  # a form that is filled in keeps the keys
            self.list.show_part(wanted)
            self.list.setFocus()

    def _arrange(self) -> None:
        is_shown = bool(self.lines) or self.side.is_open
        self.body.setVisible(is_shown)
        self.head.setVisible(is_shown)
        self.empty.setVisible(not is_shown)
        self.give_out.setVisible(bool(self.lines))
        self.print.offer(bool(self.lines))

    def _moved(self) -> None:
        if not self.side.is_open:
            self.side.show_line(self.list.here)

    def _to_list(self) -> None:
        """A form is put away: the line that the keys are for is shown again."""
        self.side.show_line(self.list.here)
        self._arrange()
        self.list.setFocus()

    def _taken_in(self) -> None:
        if not self.side.is_open:
            self.list.setFocus()

    # What is done

    def _next(self) -> None:
        here = self.list.here
        if here is not None:
            self.side.do(acts_for(here)[0])

    def _remove(self) -> None:
        self.side.do(Do.REMOVE)

    def _letter(self, letter: str) -> None:
        if letter in _LETTERS:
            self.side.do(_LETTERS[letter])

    def add(self) -> None:
        """A line that is of no part: sealant, oil, a box of split pins."""
        if self.desk.job_id:
            self.side.begin_edit(NewPart(0, "", self.desk.job_id), "Something else to buy")
            self._arrange()
            self.side.line_form.begin()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.list.hasFocus() and self.keys.hear(event):
            return
        if event.matches(QKeySequence.StandardKey.Paste) and self.desk.job_id:
            self.files.paste()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if self.desk.job_id and table_in(event.mimeData()) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        found = table_in(event.mimeData())
        if found is not None:
            event.acceptProposedAction()
            self.files.take(found)
