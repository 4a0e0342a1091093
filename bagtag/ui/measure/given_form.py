"""What is known beforehand: a standard size, oversizes that are made, a number of cylinders."""

from __future__ import annotations

import re
from collections.abc import Iterator

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.measuring.figures import converted, reading, show
from bagtag.domain.measuring.form import GivenSlot, SheetForm
from bagtag.domain.measuring.sheet import Given, MeasureSheet
from bagtag.domain.phrases import capital
from bagtag.ui.forms.basics import Field, clear_layout, tight
from bagtag.ui.measure.reading_cell import ReadingLine

COLUMNS = 2
_BETWEEN = re.compile(r"\s*;\s*|,?\s+")
_UNIT_APART = re.compile(r"(?<=[0-9.])\s+(?=[^\W\d]|[\"″])")


def figures_in(text: str) -> list[str]:
    """Several figures in one line, a space or a semicolon between them: `76,25 76,50; 77 mm`."""
    return [one for one in _BETWEEN.split(_UNIT_APART.sub("", text.strip())) if one]


class GivenField(Field):
    """One thing that is given; `edited` says that it is another one now."""

    edited = Signal()

    def __init__(self, slot: GivenSlot, unit: str, parent: QWidget) -> None:
        self.slot, self.unit = slot, unit
        hint = f"{unit}, several".strip(", ") if slot.several else unit
        self.line = ReadingLine(parent, capital(slot.name), hint=hint)
        super().__init__(capital(slot.name), self.line, parent)
        self.line.entered_figure.connect(self._entered)
        self.line.left_figure.connect(self.edited)

    def show_given(self, sheet: MeasureSheet) -> None:
        kept = [one for one in sheet.given if one.key == self.slot.key]
        self.line.show_kept("  ".join(self._words(one) for one in kept))

    def _words(self, one: Given) -> str:
        same = one.unit in ("", self.unit)
        return show(one.value) if same else f"{show(one.value)} {one.unit}"

    def given(self) -> Iterator[Given]:
        """BadInput for what is no figure."""
        text = self.line.text().strip()
        for one in figures_in(text) if self.slot.several else filter(None, [text]):
            value, unit = reading(one, self.unit, field="given")
            yield Given(self.slot.key, converted(value, unit, self.unit), self.unit)

    def say(self, sentence: str) -> None:
        super().say(sentence)
        if sentence:
            self.line.refuse()

    def _entered(self) -> None:
        if self.line.is_typed:
            self.edited.emit()
        if not self.wrong.text():
            self.focusNextChild()


class GivenForm(QWidget):
    """`changed` gives all that is given now, and which of it was typed."""

    changed = Signal(str, object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.given: list[GivenField] = []
        self._made: tuple[tuple[GivenSlot, ...], str] = ((), "")
        self._grid = QGridLayout(self)
        tight(self._grid, 8)
        self._grid.setHorizontalSpacing(12)

    def show_sheet(self, form: SheetForm, sheet: MeasureSheet) -> None:
        if (form.given, sheet.unit) != self._made:
            self._make(form.given, sheet.unit)
        for field in self.given:
            field.show_given(sheet)

    def _make(self, slots: tuple[GivenSlot, ...], unit: str) -> None:
        had = next((one.slot.key for one in self.given if one.line.hasFocus()), "")
        clear_layout(self._grid)
        self._made = (slots, unit)
        self.given = [GivenField(slot, unit_of(slot, unit), self) for slot in slots]
        for place, field in enumerate(self.given):
            field.edited.connect(self._edited)
            at = divmod(place, COLUMNS)
            self._grid.addWidget(field, *at, Qt.AlignmentFlag.AlignTop)
        for column in range(COLUMNS):
            self._grid.setColumnStretch(column, 1)
        if had:
            self.focus_on(had)

    def focus_on(self, key: str) -> None:
        for field in self.given:
            if field.slot.key == key:
                field.line.setFocus(Qt.FocusReason.TabFocusReason)

    @property
    def wanted(self) -> GivenField | None:
        """The first that is needed and not there yet."""
        needed = (one for one in self.given if one.slot.needed and not one.line.text().strip())
        return next(needed, None)

    def _edited(self) -> None:
        field = self.sender()
        if not isinstance(field, GivenField):
            return
        try:
            all_ = tuple(one for each in self.given for one in each.given())
        except BadInput as wrong:
            field.say(wrong.sentence)
            return
        field.line.settle()
        self.changed.emit(field.slot.key, all_)

    def say(self, key: str, sentence: str) -> bool:
        field = next((one for one in self.given if one.slot.key == key), None)
        if field is not None:
            field.say(sentence)
        return field is not None


def unit_of(slot: GivenSlot, unit: str) -> str:
    """A count or a factor has none."""
    return "" if slot.is_number else slot.unit or unit
