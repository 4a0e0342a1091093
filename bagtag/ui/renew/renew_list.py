"""What is to be bought, as pieces of tape below their suppliers, walked by key or by click."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QElapsedTimer, QItemSelectionModel, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QTableView, QWidget

from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.spoken_rows import Index
from bagtag.ui.forms.tape_table import dress
from bagtag.ui.renew.renew_delegate import HEAD, ROW, RenewDelegate
from bagtag.ui.renew.renew_lines import Heading, key_of, rows_of
from bagtag.ui.renew.renew_model import RenewModel
from bagtag.ui.stages.stage_keys import QUIET

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine

_STEPS = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}


class RenewList(QTableView):
    """Enter does what comes next for the line that is chosen; Delete takes it off. Letters are
    left to the page."""

    moved = Signal()
    entered = Signal()
    removed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.rows = RenewModel(self)
        self._letter = QElapsedTimer()
        self.setAccessibleName("What is to be bought")
        self.setProperty("bare", "true")
        self.setModel(self.rows)
        self.setItemDelegate(RenewDelegate(self.rows, self))
        dress(self, ROW, ROW // 2)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self._is_filling = False
        self.selectionModel().currentChanged.connect(self._tell)
        self.doubleClicked.connect(self._double)

    def show_lines(self, lines: Sequence[RenewLine]) -> None:
        """Show other lines; the one that was chosen stays so, else the one in its place."""
        key = key_of(self.here) if self.here is not None else None
        at = self.currentIndex().row()
        self._is_filling = True  # for a moment nothing is chosen, which is nobody's business
        self.rows.put(rows_of(lines))
        down = self.verticalHeader()
        for place, row in enumerate(self.rows.lines):
            if isinstance(row, Heading):
                down.resizeSection(place, HEAD)
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
        return self.rows.line_at(self.currentIndex().row())

    def show_part(self, removal_id: int) -> None:
        """Choose the first line for a part: its own before that of its hardware."""
        place = self.rows.place_of_part(removal_id)
        if place is not None:
            self.go_to(place)

    def go_to(self, place: int) -> None:
        """Choose the line at a place, or the nearest one after it, else the last."""
        places = self.rows.places()
        if not places:
            return
        found = next((one for one in places if one >= place), places[-1])
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
        self.selectionModel().setCurrentIndex(self.rows.index(found), flag)
        first = found and self.rows.line_at(found - 1) is None
        self.scrollTo(self.rows.index(found - 1 if first else found))
        self.scrollTo(self.rows.index(found))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in ENTER:
            if not event.isAutoRepeat() and not self._is_scanned():
                self.entered.emit()
        elif key in _STEPS:
            self._step(_STEPS[key])
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self.go_to(0 if key == Qt.Key.Key_Home else self.rows.rowCount())
        elif key == Qt.Key.Key_Delete:
            self.removed.emit()
        elif event.text().isalnum() or key == Qt.Key.Key_Escape:
            self._letter.start()
            event.ignore()
        else:
            super().keyPressEvent(event)

    def _is_scanned(self) -> bool:
        """Whether an Enter ends what a scanner typed: that does nothing here."""
        return self._letter.isValid() and self._letter.elapsed() < QUIET

    def _double(self, index: Index) -> None:
        if self.rows.line_at(index.row()) is not None:
            self.entered.emit()

    def _step(self, by: int) -> None:
        here = self.currentIndex().row()
        beyond = [place for place in self.rows.places() if (place - here) * by > 0]
        if beyond:
            self.go_to(beyond[0] if by > 0 else beyond[-1])

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scrollTo(self.currentIndex())

    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.viewport().update()
