"""The places of a sheet as fields, in the order they are read: figure and Enter, the next one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.domain.measuring.figures import show
from bagtag.domain.measuring.form import Place, SheetForm
from bagtag.domain.measuring.sheet import MeasureSheet, Reading
from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.measure.reading_cell import ReadingCell

COLUMNS = 3
"""Places without a column of their own stand in this many."""


class ReadingTable(QWidget):
    """`typed` says that the figure at a place is there, by its key; an empty text takes it out.
    `reached` names the place that has the keys; `finished` says that the last one was read."""

    typed = Signal(str, str)
    reached = Signal(str)
    finished = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.cells: list[ReadingCell] = []
        self._places: tuple[Place, ...] = ()
        self._unit = ""
        self._grid = QGridLayout(self)
        tight(self._grid, 8)

    # What is shown

    def show_sheet(self, form: SheetForm, sheet: MeasureSheet) -> None:
        """Other fields only where the form has other places: what is being typed stays."""
        if sheet.unit != self._unit or _alike(form.places) != _alike(self._places):
            self._make(form.places, sheet.unit)
        self._places = form.places
        for cell, place in zip(self.cells, form.places, strict=True):
            cell.place = place
        kept = {one.key: one for one in sheet.readings}
        for cell in self.cells:
            reading = kept.get(cell.place.key)
            wanted = cell.place.unit or sheet.unit
            cell.show_kept(*(_words(reading, wanted) if reading else ("", "")))

    def _make(self, places: tuple[Place, ...], unit: str) -> None:
        had = next((cell.place.key for cell in self.cells if cell.line.hasFocus()), "")
        clear_layout(self._grid)
        self._places, self._unit = places, unit
        self.cells = [ReadingCell(place, unit, self) for place in places]
        for cell in self.cells:
            cell.entered.connect(self._entered)
            cell.left.connect(self._left)
            cell.reached.connect(self._reached)
        rows, columns = (list(dict.fromkeys(of)) for of in zip(*map(_where, places), strict=True))
        if columns == [""]:
            self._lay_list(rows)
        elif len(rows) * len(columns) == len(places):
            self._lay_table(columns, rows)
        else:
            self._lay_rows(rows)
        for one, other in pairwise(self.cells):
            QWidget.setTabOrder(one.line, other.line)
        if had:
            self.focus_on(had)

    def _lay_table(self, columns: Sequence[str], rows: Sequence[str]) -> None:
        for at, column in enumerate(columns):
            self._caption(column, 0, at + 1)
        for at, row in enumerate(rows):
            self._caption(row, at + 1, 0)
        for cell in self.cells:
            down, over = rows.index(cell.place.row), columns.index(cell.place.column)
            self._grid.addWidget(cell, down + 1, over + 1, Qt.AlignmentFlag.AlignTop)
        self._stretch(0, *(1 for _ in columns))

    def _lay_list(self, rows: Sequence[str]) -> None:
        """Each place with its name above it, side by side."""
        columns = min(COLUMNS, len(rows))
        for at, cell in enumerate(self.cells):
            self._put_named(cell, *divmod(at, columns))
        self._stretch(*(1 for _ in range(columns)))

    def _lay_rows(self, rows: Sequence[str]) -> None:
        """The same, where not every row has the same columns: each begins a line."""
        of_rows = [[cell for cell in self.cells if cell.place.row == row] for row in rows]
        for at, cells in enumerate(of_rows):
            for column, cell in enumerate(cells):
                self._put_named(cell, at, column)
        self._stretch(*(1 for _ in range(max(map(len, of_rows)))))

    def _put_named(self, cell: ReadingCell, row: int, column: int) -> None:
        said = ", ".join(filter(None, (cell.place.name, cell.place.unit)))
        self._caption(said, 2 * row, column)
        self._grid.addWidget(cell, 2 * row + 1, column, Qt.AlignmentFlag.AlignTop)

    def _caption(self, words: str, row: int, column: int) -> None:
        self._grid.addWidget(label(words, self, scale="small", tone="muted"), row, column)

    def _stretch(self, *shares: int) -> None:
        for column in range(self._grid.columnCount()):
            share = shares[column] if column < len(shares) else 0
            self._grid.setColumnStretch(column, share)

    # What is typed

    def _entered(self) -> None:
        """The caliper's Enter: the next field is there before its next figure comes."""
        cell = self.sender()
        if not isinstance(cell, ReadingCell):
            return
        self._hand_on(cell)
        now = self.cell(cell.place.key)  # what was read may ask for other places
        if now is not None and not now.wrong.text():
            self._go_on(now)

    def _left(self) -> None:
        cell = self.sender()
        if isinstance(cell, ReadingCell):
            self._hand_on(cell)

    def _reached(self) -> None:
        cell = self.sender()
        if isinstance(cell, ReadingCell):
            self.reached.emit(cell.place.key)

    def _hand_on(self, cell: ReadingCell) -> None:
        if cell.line.is_typed:
            cell.line.settle()
            self.typed.emit(cell.place.key, cell.text)

    def _go_on(self, cell: ReadingCell) -> None:
        """To the next empty place; where none is empty, to the next one, and after the last on."""
        at = self.cells.index(cell)
        turn = (*self.cells[at + 1 :], *self.cells[:at])
        empty = next((one for one in turn if not one.text and one.place.needed), None)
        after = self.cells[at + 1 : at + 2]
        if empty is None and not after:
            self.finished.emit()
        else:
            (empty or after[0]).line.setFocus(Qt.FocusReason.TabFocusReason)

    def cell(self, key: str) -> ReadingCell | None:
        return next((cell for cell in self.cells if cell.place.key == key), None)

    def focus_on(self, key: str) -> None:
        cell = self.cell(key)
        if cell is not None:
            cell.line.setFocus(Qt.FocusReason.TabFocusReason)

    def begin(self) -> bool:
        """Put the keys on the first place that is still to be read; False where there is none."""
        cell = next((one for one in self.cells if not one.text and one.place.needed), None)
        cell = cell or next(iter(self.cells), None)
        if cell is not None:
            cell.line.setFocus(Qt.FocusReason.TabFocusReason)
        return cell is not None


def _where(place: Place) -> tuple[str, str]:
    return place.row, place.column


def _alike(places: tuple[Place, ...]) -> list[Place]:
    """Which places there are, whether they need be read or not."""
    return [replace(place, needed=True) for place in places]


def _words(reading: Reading, wanted: str) -> tuple[str, str]:
    """A reading as it stands in its field, and what it was read with."""
    text = show(reading.value)
    if reading.unit != wanted:
        text = f"{text} {reading.unit}".strip()
    return text, "; ".join(_about(reading))


def _about(reading: Reading) -> Iterable[str]:
    if reading.instrument:
        yield f"read with {reading.instrument}"
    if reading.resolution is not None:
        yield f"step {show(reading.resolution)} {reading.unit}"
    if reading.temperature is not None:
        yield f"at {show(reading.temperature)} °C"
