"""What a list that is taken in would add and change, line by line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QAbstractItemView, QTableView, QWidget

from bagtag.domain.money import money
from bagtag.domain.new_part import NewPart
from bagtag.domain.phrases import day
from bagtag.ui.forms.spoken_rows import SpokenRows
from bagtag.ui.forms.tape_table import RowPainter, dress
from bagtag.ui.renew.renew_lines import pieces
from bagtag.ui.strip.tape import Tape

if TYPE_CHECKING:
    from bagtag.domain.renewal_import import ImportPlan

ROW, GAP = 62, 8
_TEXTS = ("part_number", "supplier", "note")
_NAMES = {"part_number": "part number"}


@dataclass(frozen=True, slots=True)
class Planned:
    """One line of the preview: what it is, whether it is new or changed, and what it says."""

    title: str
    word: str
    under: str


def planned(plan: ImportPlan) -> list[Planned]:
    new = [Planned(pieces(part), "new", ", ".join(said(part))) for part in plan.new]
    changed = [
        Planned(pieces(one.part), "changed", ", ".join(changes(one.before, one.part)))
        for one in plan.changed
    ]
    return [*changed, *new]


def said(part: NewPart) -> Iterator[str]:
    """What a new line says beside its name."""
    if part.supplier:
        yield f"from {part.supplier}"
    if part.part_number:
        yield part.part_number
    if part.price is not None:
        yield money(part.price, part.currency)
    if part.due is not None:
        yield f"due {day(part.due)}"
    if part.note:
        yield part.note


def changes(before: NewPart, after: NewPart) -> Iterator[str]:
    """`count 2 → 4`, `price 4.20 → 4.50 EUR`: what is other than before."""
    if before.count != after.count:
        yield f"count {before.count} → {after.count}"
    old, new = _price(before), _price(after)
    if old != new:
        yield f"price {old or 'none'} → {new}"
    for name in _TEXTS:
        old, new = getattr(before, name), getattr(after, name)
        if old != new:
            yield f"{_NAMES.get(name, name)} {old or 'none'} → {new}"
    if before.due != after.due and after.due is not None:
        yield f"due {day(before.due) if before.due else 'not set'} → {day(after.due)}"


def _price(part: NewPart) -> str:
    return money(part.price, part.currency) if part.price is not None else ""


class _Rows(SpokenRows):
    def spoken(self, line: Any) -> str:
        return ", ".join(filter(None, (line.title, line.word, line.under)))


class _Painter(RowPainter):
    def __init__(self, rows: SpokenRows, view: QAbstractItemView) -> None:
        super().__init__(view, ROW)
        self._rows = rows

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        line: Planned = self._rows.lines[place]
        painter.translate(rect.left(), rect.top() + GAP / 2)
        tape = Tape(painter, rect.width() - 2, has_keys=self.view.hasFocus(), height=ROW - GAP)
        colours, changed = tape.colours, line.word == "changed"
        tape.ground(colours.tape, chosen=self.is_here(place) and self.view.hasFocus())
        tape.right(22, line.word, colours.accent if changed else colours.muted, bold=changed)
        end = tape.width - tape.right_room(line.word)
        tape.text(14, 22, line.title, 16, True, colours.ink, end)
        tape.text(14, 42, line.under, 13, False, colours.muted, tape.width - 14)


class PlannedList(QTableView):
    """A list to look through; nothing in it is chosen."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.rows = _Rows(self)
        self.setAccessibleName("What would be new and changed")
        self.setProperty("bare", "true")
        self.setModel(self.rows)
        self.setItemDelegate(_Painter(self.rows, self))
        dress(self, ROW, ROW // 2)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)

    def show_plan(self, plan: ImportPlan | None) -> None:
        self.rows.put(planned(plan) if plan is not None else ())
