"""Ordering what is wanted from a supplier: which lines, on which day, due when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QListView, QVBoxLayout, QWidget

from bagtag.domain.new_part import NewPart
from bagtag.ui.forms.basics import Field, Line, label, tight
from bagtag.ui.forms.days import read_day, written
from bagtag.ui.forms.fields_form import FieldsForm
from bagtag.ui.forms.spoken_rows import SpokenRows
from bagtag.ui.forms.ticks import Ticks
from bagtag.ui.forms.words import WordField
from bagtag.ui.renew.renew_lines import pieces, totals


class _Lines(SpokenRows):
    def spoken(self, line: Any) -> str:
        number = f", {line.part_number}" if line.part_number else ""
        return f"{pieces(line)}{number}"


class LineTicks(QListView):
    """Lines to tick: arrows and Space, or a click."""

    def __init__(self, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.rows = _Lines(self)
        self.setModel(self.rows)
        self.setItemDelegate(Ticks(self))
        self.setAccessibleName(name)
        self.setUniformItemSizes(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.MultiSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setMinimumHeight(96)

    def show_lines(self, parts: Sequence[NewPart]) -> None:
        """Show these, the first of them ticked."""
        self.rows.put(parts)
        self.clearSelection()
        flags = self.selectionModel().SelectionFlag
        self.selectionModel().setCurrentIndex(self.rows.index(0), flags.Select)

    def chosen(self) -> list[NewPart]:
        places = sorted(index.row() for index in self.selectionModel().selectedIndexes())
        return [self.rows.lines[place] for place in places]

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Letters are left to the page: a scan must not choose."""
        if event.text().isalnum() and not event.modifiers():
            event.ignore()
        else:
            super().keyPressEvent(event)


class OrderForm(FieldsForm):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.lines = LineTicks("Which lines are ordered", self)
        self.total = label("", self, tone="muted")
        self.supplier = WordField("From whom", (), self, "bearing house")
        self.on = Line(self, "Ordered on", hint="today")
        self.due = Line(self, "Due", hint="12 May, 2 weeks")
        self.fields = {
            "lines": Field("Which are ordered? Space ticks one, Ctrl+A all.", self.lines, self),
            "supplier": self.supplier,
            "ordered_on": Field("Ordered on", self.on, self),
            "due": Field("Due, if they said a day", self.due, self),
        }
        self._lay_out()
        self.lines.selectionModel().selectionChanged.connect(self._sum_up)

    def _lay_out(self) -> None:
        days = QHBoxLayout()
        tight(days, 10)
        days.addWidget(self.fields["ordered_on"])
        days.addWidget(self.fields["due"])
        column = QVBoxLayout(self)
        tight(column, 10)
        column.addLayout(days)
        column.addWidget(self.supplier)
        column.addWidget(self.fields["lines"], 1)
        column.addWidget(self.total)

    def load(self, parts: Sequence[NewPart], suppliers: Sequence[str]) -> None:
        """Ask about lines of one supplier, the first of them ticked."""
        self.say_nothing()
        self.lines.show_lines(parts)
        self.supplier.suggest(suppliers)
        self.supplier.set_text(parts[0].supplier if parts else "")
        self.supplier.setVisible(not self.supplier.text)
        self.on.setText(written(date.today()))
        self.due.clear()
        self._sum_up()

    def begin(self) -> None:
        alone = len(self.lines.rows.lines) == 1
        first = self.due if self.supplier.text else self.supplier.line
        (first if alone else self.lines).setFocus()

    def answer(self) -> tuple[list[NewPart], date, date | None] | None:
        """What is ordered, when, and when it is due; None, said at its field, where it is not
        clear."""
        today = date.today()
        on, is_on_read = read_day(self.fields["ordered_on"], today, past=True)
        due, is_due_read = read_day(self.fields["due"], today, past=False)
        chosen = [replace(part, supplier=self.supplier.text) for part in self.lines.chosen()]
        self.fields["lines"].say("" if chosen else "Choose at least one line: Space ticks it.")
        return (chosen, on or today, due) if chosen and is_on_read and is_due_read else None

    def say(self, field: str, sentence: str) -> bool:
        return super().say({"on": "ordered_on"}.get(field, field), sentence)

    def _sum_up(self) -> None:
        chosen = self.lines.chosen()
        many = f"{len(chosen)} line{'s' * (len(chosen) != 1)}"
        self.total.setText(", ".join((many, *totals(chosen))))
