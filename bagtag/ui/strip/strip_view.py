"""The strip: a tall band of removals in the order they came off, each a piece of tape.

It is read downwards while stripping and upwards while building; a line across it shows how far
the build has come back. A table of one column, because a list view lays out every one of a hundred
thousand rows before its first paint, and a table only those in sight.
"""

from PySide6.QtCore import QItemSelectionModel, QModelIndex, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractItemView, QTableView, QWidget

from bagtag.domain.standing import Standing
from bagtag.ui.desk import Desk
from bagtag.ui.forms.tape_table import dress
from bagtag.ui.strip.strip_delegate import StripDelegate
from bagtag.ui.strip.strip_model import StripModel
from bagtag.ui.strip.tape import ROW, paint_across
from bagtag.ui.strip.thumbs import Thumbs

BACK = "the build has come back to here"
_PASSED = {Standing.IN, Standing.SCRAPPED}
SHORT = 5000
"""In a log of at most so many lines the build's place is looked for whenever a row has changed."""
_CHOICE_MS = 60
"""How long a choice rests before its card is asked for: a held arrow key asks for none between."""


class StripView(QTableView):
    """Shows the strip; keys ask for acts by signals."""

    chosen = Signal(int)
    """A removal is chosen; 0 for the line to be logged next."""
    opened = Signal(int)
    insert_wanted = Signal(int)
    moved = Signal(int, int)
    """A removal, and by how many lines."""
    delete_wanted = Signal(int)
    typed = Signal(str)
    """A letter was typed here: it belongs into the one field."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Strip: what came off, in order")
        self.setProperty("bare", "true")
        self.rows = StripModel(desk, self)
        self.thumbs = Thumbs(desk, self)
        self.tape = StripDelegate(self.rows, self.thumbs, self)
        self.back_place = -1
        self._at_end = True
        dress(self, ROW, ROW)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setModel(self.rows)
        self.setItemDelegate(self.tape)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(_CHOICE_MS)
        self._rest.timeout.connect(self._tell_choice)
        self._connect()

    def _connect(self) -> None:
        self.selectionModel().currentChanged.connect(self._choice_moved)
        self.activated.connect(self._activated)
        self.thumbs.arrived.connect(self.viewport().update)
        self.rows.rowsAboutToBeInserted.connect(self._before_more)
        self.rows.rowsInserted.connect(self._after_more)
        for moved in (self.rows.rowsInserted, self.rows.rowsRemoved, self.rows.modelReset):
            moved.connect(self._find_back)
        self.rows.dataChanged.connect(self._rows_told)

    def show_job(self, job_id: int) -> None:
        """Show a job's log, first as many of its newest lines as are in sight."""
        self.rows.show_job(job_id, max(self.viewport().height() // ROW + 2, 8))

    # What is chosen

    @property
    def chosen_id(self) -> int:
        """The removal that is chosen; 0 for none and for the line to be logged next."""
        return self.rows.id_at(self.currentIndex().row()) if self.currentIndex().isValid() else 0

    def choose(self, removal_id: int) -> None:
        """Choose a removal and bring it into sight, if it is in this log."""
        place = self.rows.place_of(removal_id)
        if place >= 0:
            self._go_to(place)
            if place > 0:
                self.scrollTo(self.rows.index(place - 1))  # what comes off around it is seen too
            if place + 1 < self.rows.rowCount():
                self.scrollTo(self.rows.index(place + 1))

    def choose_now(self) -> None:
        """Choose the line to be logged next."""
        if self.rows.with_now:
            self._go_to(self.rows.count)

    def _go_to(self, place: int) -> None:
        index = self.rows.index(place)
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
        self.selectionModel().setCurrentIndex(index, flag)
        self.scrollTo(index)

    def _choice_moved(self, current: QModelIndex, _: QModelIndex) -> None:
        if current.isValid():
            self._rest.start()

    def _tell_choice(self) -> None:
        if self.currentIndex().isValid():
            self.chosen.emit(self.chosen_id)

    def _activated(self, index: QModelIndex) -> None:
        self.opened.emit(self.rows.id_at(index.row()))

    def _before_more(self) -> None:
        bar = self.verticalScrollBar()
        self._at_end = bar.value() >= bar.maximum() - ROW

    def _after_more(self) -> None:
        """Who looks at the end of the log goes on looking at its end."""
        if self._at_end:
            self.scrollToBottom()

    # Which way it is read

    def set_building(self, building: bool) -> None:
        self.tape.building = building
        self.rows.set_now(not building and bool(self.rows.job_id))
        self.viewport().update()

    def set_standings(self, standings: dict[int, Standing] | None) -> None:
        """The build's word on each part; the line is drawn where the build has come back to."""
        self.rows.set_standings(standings)
        self._find_back()

    def _find_back(self) -> None:
        self.back_place = self._back_place()
        self.viewport().update()

    def _rows_told(self) -> None:
        if self.rows.count <= SHORT:
            self._find_back()

    def _back_place(self) -> int:
        """The first row of those at the end that are all in again; -1 where none is."""
        place, fitted = self.rows.count, -1
        while place > 0:
            word = self.rows.standing_at(place - 1)
            if word is None:
                return -1
            if word not in _PASSED:
                break
            place -= 1
            fitted = place if word is Standing.IN else fitted
        return fitted

    def go_to_work(self) -> None:
        """Bring into sight where the work is: the build's line, else the end of the log."""
        if self.tape.building and self.back_place >= 0:
            place = max(self.back_place - 1, 0)
            hint = QAbstractItemView.ScrollHint.PositionAtCenter
            self.scrollTo(self.rows.index(place), hint)
        else:
            self.scrollToBottom()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.back_place < 0:
            return
        top = self.visualRect(self.rows.index(self.back_place)).top()
        if -ROW < top < self.viewport().height() + ROW:
            self._paint_back(top)

    def _paint_back(self, y: int) -> None:
        painter = QPainter(self.viewport())
        paint_across(painter, y, self.viewport().width() - 2, BACK)
        painter.end()

    # Keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, held = event.key(), event.modifiers()
        alt = bool(held & Qt.KeyboardModifier.AltModifier)
        if alt and key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self._ask_move(-1 if key == Qt.Key.Key_Up else 1)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit(self.chosen_id)
        elif key == Qt.Key.Key_Insert and self.chosen_id:
            self.insert_wanted.emit(self.chosen_id)
        elif key == Qt.Key.Key_Delete and self.chosen_id:
            self.delete_wanted.emit(self.chosen_id)
        elif event.text().isprintable() and event.text().strip() and not _is_command(held):
            self.typed.emit(event.text())
        else:
            super().keyPressEvent(event)

    def _ask_move(self, by: int) -> None:
        if self.chosen_id:
            self.moved.emit(self.chosen_id, by)

    def keyboardSearch(self, _: str) -> None:
        """Letters go into the one field; looking through every row for them would take seconds."""


def _is_command(held: Qt.KeyboardModifier) -> bool:
    command = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.MetaModifier
    return bool(held & (command | Qt.KeyboardModifier.AltModifier))
