"""What the lists of the build share: tapes that are walked by arrows, and never typed in."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QItemSelectionModel, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QTableView, QWidget

from bagtag.domain.fitting import Ref
from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.spoken_rows import Index
from bagtag.ui.forms.tape_table import dress
from bagtag.ui.order.left_lines import Line, ref_of
from bagtag.ui.order.left_model import LinesModel

CHOICE_MS = 60
"""How long a choice rests before its card is asked for: a held arrow key asks for none between."""
_COMMAND = (
    Qt.KeyboardModifier.ControlModifier
    | Qt.KeyboardModifier.AltModifier
    | Qt.KeyboardModifier.MetaModifier
)


class LeftList(QTableView):
    """A table of one column, for the same reason as the strip: a long list paints at once."""

    chosen = Signal(object)
    """The `Ref` of the step that is chosen, once the choice rests."""
    opened = Signal(object)
    """Enter, or two clicks: the keys go on to the card."""
    typed = Signal(str)
    """A letter was typed here: it belongs into the one field."""

    def __init__(self, name: str, row: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.row_height = row
        self.shown: Ref | None = None
        """The step that is on the card."""
        self.lines = LinesModel(self)
        self._other: list[int] = []
        self._is_quiet = False
        self.setAccessibleName(name)
        self.setProperty("bare", "true")
        self.setModel(self.lines)
        dress(self, row, row)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(CHOICE_MS)
        self._rest.timeout.connect(self._tell)
        self.doubleClicked.connect(self._double_clicked)

    # What is shown

    def height_of(self, line: Line) -> int:
        return self.row_height

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Show other lines. What was chosen stays so, and so does what is in sight."""
        here, top = self.currentIndex().row(), self.verticalScrollBar().value()
        key = self.lines.key_at(here)
        if not self.lines.show_lines(lines):
            return
        self._set_heights()
        place = self.lines.place_of(key) if key is not None else -1
        self._put(place if place >= 0 else self._near(here))
        self.verticalScrollBar().setValue(top)

    def _set_heights(self) -> None:
        down = self.verticalHeader()
        for place in self._other:
            if place < self.lines.rowCount():
                down.resizeSection(place, self.row_height)
        self._other = []
        for place, line in enumerate(self.lines.lines):
            high = self.height_of(line)
            if high != self.row_height:
                down.resizeSection(place, high)
                self._other.append(place)

    def _near(self, place: int) -> int:
        """The nearest line at or below a place that can be chosen, else the last one."""
        if place < 0:
            return -1
        after = [n for n in range(place, self.lines.rowCount()) if self.lines.key_at(n) is not None]
        before = [n for n in range(self.lines.rowCount()) if self.lines.key_at(n) is not None]
        return after[0] if after else before[-1] if before else -1

    def resizeEvent(self, event: QResizeEvent) -> None:
        """What is chosen stays in sight, also when the list first gets its measures."""
        super().resizeEvent(event)
        self.keep_in_sight()

    def keep_in_sight(self) -> None:
        if self.currentIndex().isValid():
            self._bring(self.currentIndex().row())

    def minimumSizeHint(self) -> QSize:
        return QSize(120, 60)

    # What is chosen

    @property
    def here(self) -> Line | None:
        return self.lines.line_at(self.currentIndex().row())

    def choose(self, ref: Ref) -> bool:
        """Choose the step that is on the card, without telling of it; False where it is in no
        line."""
        self.shown = ref
        self._rest.stop()
        place = self.lines.place_of(("step", ref))
        if ref_of(self.here) != ref and place >= 0:
            self._put(place)
            self._bring(place)
        self.viewport().update()
        return place >= 0

    def go_to(self, place: int) -> None:
        """Choose a line as a person would."""
        self._put(place)
        self._bring(place)
        self._rest.start()

    def is_shown(self, place: int) -> bool:
        """Whether the step of a line is the one on the card."""
        return self.shown is not None and ref_of(self.lines.line_at(place)) == self.shown

    def _put(self, place: int) -> None:
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
        self._is_quiet = True
        self.selectionModel().setCurrentIndex(self.lines.index(place), flag)
        self._is_quiet = False

    def _bring(self, place: int) -> None:
        """Into sight, with a line above and below it."""
        for near in (place - 1, place + 1, place):
            if 0 <= near < self.lines.rowCount():
                self.scrollTo(self.lines.index(near))

    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.viewport().update()
        if current.isValid() and not self._is_quiet:
            self._rest.start()

    def _tell(self) -> None:
        ref = ref_of(self.here)
        if ref is not None:
            self.shown = ref
            self.chosen.emit(ref)
            self.viewport().update()

    def _double_clicked(self, _: Index) -> None:
        self.enter()

    def enter(self) -> None:
        """What Enter does with the line it is on."""
        ref = ref_of(self.here)
        if ref is not None:
            self._rest.stop()
            self.shown = ref
            self.opened.emit(ref)

    # Keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        text = event.text()
        if event.key() in ENTER:
            self.enter()
        elif event.key() in (Qt.Key.Key_Home, Qt.Key.Key_End) and not event.modifiers():
            self._to_end(event.key() == Qt.Key.Key_Home)
        elif event.matches(QKeySequence.StandardKey.Paste):
            event.ignore()
        elif text.isprintable() and text.strip() and not event.modifiers() & _COMMAND:
            self.typed.emit(text)
        else:
            super().keyPressEvent(event)

    def _to_end(self, first: bool) -> None:
        places = range(self.lines.rowCount())
        for place in places if first else reversed(places):
            if self.lines.key_at(place) is not None:
                self.go_to(place)
                return

    def keyboardSearch(self, _: str) -> None:
        """Letters go into the one field."""
