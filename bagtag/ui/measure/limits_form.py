"""The limits of the maker's manual for each figure of a sheet: as new, and worn but still good."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring.figures import converted, reading, show
from bagtag.domain.measuring.form import FigureSlot, SheetForm
from bagtag.domain.measuring.sheet import Limits, MeasureSheet
from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.measure.reading_cell import ReadingLine

SIDES = (
    ("new_low", "new, from"),
    ("new_high", "new, to"),
    ("wear_low", "worn, at least"),
    ("wear_high", "worn, at most"),
)


class LimitRow(QWidget):
    """The limits of one figure; `edited` says that they are others now."""

    edited = Signal()

    def __init__(self, slot: FigureSlot, unit: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.slot = slot
        self.unit = "" if slot.is_number else slot.unit or unit
        self.lines: dict[str, ReadingLine] = {}
        for side, words in SIDES:
            if slot.low if side.endswith("low") else slot.high:
                self.lines[side] = ReadingLine(self, f"{slot.name}: {words}", hint=self.unit)
                self.lines[side].setMinimumWidth(60)
        self.wrong = label("", self, scale="small", tone="accent")
        self.wrong.hide()
        self._lay()
        for line in self.lines.values():
            line.entered_figure.connect(self._entered)
            line.left_figure.connect(self.edited)
            line.textEdited.connect(self._mended)

    def _lay(self) -> None:
        grid = QGridLayout(self)
        tight(grid, 6)
        said = ", ".join(filter(None, (self.slot.name, self.slot.unit)))
        grid.addWidget(label(said, self), 0, 0)
        for at, (side, _) in enumerate(SIDES):
            if side in self.lines:
                grid.addWidget(self.lines[side], 0, at + 1)
            grid.setColumnStretch(at + 1, 2)
        grid.setColumnStretch(0, 3)
        grid.addWidget(self.wrong, 1, 0, 1, 5)

    def show_limits(self, limits: Limits | None) -> None:
        """What is typed and not handed on yet stays as it is."""
        for side, line in self.lines.items():
            value = getattr(limits, side) if limits is not None else None
            line.show_kept(_words(value, limits, self.unit))

    def limits(self) -> Limits | None:
        """What the fields say; None where all are empty. BadInput for what is no figure."""
        values: dict[str, Decimal] = {}
        for side, line in self.lines.items():
            if line.text().strip():
                value, unit = reading(line.text(), self.unit, field="limits")
                values[side] = converted(value, unit, self.unit)
        return Limits(self.slot.key, unit=self.unit, **values) if values else None

    def settled(self) -> None:
        for line in self.lines.values():
            line.settle()

    def say(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
        for line in self.lines.values():
            line.setAccessibleDescription(sentence)
            if sentence:
                line.refuse()

    def _mended(self) -> None:
        self.say("")

    def _entered(self) -> None:
        line = self.sender()
        if isinstance(line, ReadingLine) and line.is_typed:
            self.edited.emit()
        if not self.wrong.text():
            self.focusNextChild()


class LimitsForm(QWidget):
    """`changed` gives the limits of every figure as they are now, and which figure's were typed."""

    changed = Signal(str, object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.rows: list[LimitRow] = []
        self._made: tuple[tuple[FigureSlot, ...], str] = ((), "")
        self._grid = QGridLayout(self)
        tight(self._grid, 6)

    def show_sheet(self, form: SheetForm, sheet: MeasureSheet) -> None:
        if (form.figures, sheet.unit) != self._made:
            self._make(form.figures, sheet.unit)
        kept = {one.key: one for one in sheet.limits}
        for row in self.rows:
            row.show_limits(kept.get(row.slot.key))

    def _make(self, slots: tuple[FigureSlot, ...], unit: str) -> None:
        clear_layout(self._grid)
        self._made = (slots, unit)
        self._grid.addWidget(self._head(), 0, 0)
        self.rows = [LimitRow(slot, unit, self) for slot in slots]
        for place, row in enumerate(self.rows):
            row.edited.connect(self._edited)
            self._grid.addWidget(row, place + 1, 0)

    def _head(self) -> QWidget:
        head = QWidget(self)
        grid = QGridLayout(head)
        tight(grid, 6)
        grid.setColumnStretch(0, 3)
        for at, (_, words) in enumerate(SIDES):
            caption = label(words, head, scale="small", tone="muted")
            grid.addWidget(caption, 0, at + 1, Qt.AlignmentFlag.AlignBottom)
            grid.setColumnStretch(at + 1, 2)
        return head

    def _edited(self) -> None:
        row = self.sender()
        if not isinstance(row, LimitRow):
            return
        try:
            all_ = tuple(filter(None, (one.limits() for one in self.rows)))
        except BadInput as wrong:
            row.say(wrong.sentence)
            return
        row.settled()
        self.changed.emit(row.slot.key, all_)

    def say(self, key: str, sentence: str) -> bool:
        """Say what is wrong with a figure's limits; False where there is no such figure."""
        row = next((row for row in self.rows if row.slot.key == key), None)
        if row is not None:
            row.say(sentence)
        return row is not None


def _words(value: Decimal | None, limits: Limits | None, unit: str) -> str:
    if value is None or limits is None:
        return ""
    return show(value) if limits.unit == unit else f"{show(value)} {limits.unit}"
