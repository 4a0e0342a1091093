"""What is to be bought, as pieces of tape below their suppliers, walked by key or by click."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.spoken_rows import Index
from bagtag.ui.forms.walked_list import WalkedList
from bagtag.ui.renew.renew_delegate import HEAD, ROW, RenewDelegate
from bagtag.ui.renew.renew_lines import key_of, rows_of
from bagtag.ui.renew.renew_model import RenewModel

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine


class RenewList(WalkedList):
    """Enter does what comes next for the line that is chosen; Delete takes it off. Letters are
    left to the page."""

    moved = Signal()
    entered = Signal()
    removed = Signal()

    def __init__(self, parent: QWidget) -> None:
        rows = RenewModel()
        super().__init__("What is to be bought", rows, ROW, parent)
        self.rows = rows
        self.setItemDelegate(RenewDelegate(self.rows, self))
        self._is_filling = False
        self.selectionModel().currentChanged.connect(self._tell)
        self.doubleClicked.connect(self._double)

    def show_lines(self, lines: Sequence[RenewLine]) -> None:
        """Show other lines; the one that was chosen stays so, else the one in its place."""
        key = key_of(self.here) if self.here is not None else None
        at = self.currentIndex().row()
        self._is_filling = True  # for a moment nothing is chosen, which is nobody's business
        self.rows.put(rows_of(lines))
        self.size_rows(HEAD)
        same = self.rows.place_of(key) if key is not None else None
        self.go_to(max(at, 0) if same is None else same)
        self._is_filling = False
        self.moved.emit()

    def _tell(self) -> None:
        if not self._is_filling:
            self.moved.emit()

    @property
    def here(self) -> RenewLine | None:
        """The line that the keys are for."""
        found: RenewLine | None = self.rows.line_at(self.currentIndex().row())
        return found

    def show_part(self, removal_id: int) -> None:
        """Choose the first line for a part: its own before that of its hardware."""
        place = self.rows.place_of_part(removal_id)
        if place is not None:
            self.go_to(place)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            if not event.isAutoRepeat() and not self.is_scanned():
                self.entered.emit()
        elif event.key() == Qt.Key.Key_Delete:
            self.removed.emit()
        elif not self.walk(Qt.Key(event.key())) and not self.pass_on(event):
            super().keyPressEvent(event)

    def _double(self, index: Index) -> None:
        if self.rows.line_at(index.row()) is not None:
            self.entered.emit()
