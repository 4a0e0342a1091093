"""One line to buy, field by field."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.new_part import NewPart
from bagtag.domain.renewal_check import read_price
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.days import read_day, written
from bagtag.ui.forms.fields_form import FieldsForm
from bagtag.ui.forms.figures import count
from bagtag.ui.forms.words import WordField

COLUMNS = 24
_PLACES = {
    "what": (0, 0, 16), "count": (0, 16, 8), "size": (1, 0, 10), "part_number": (1, 10, 14),
    "supplier": (2, 0, 24), "price": (3, 0, 5), "currency": (3, 5, 4), "ordered_on": (3, 9, 7),
    "due": (3, 16, 8), "note": (4, 0, 24), "arrived": (5, 0, 12),
}  # fmt: skip


class LineForm(FieldsForm):
    """`part` is what the fields say; None, said below its field, while one cannot be read.
    `counted` is how many pieces are here where that was counted anew, None where it was not."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._part = NewPart(0, "", 0)
        self.counted: int | None = None
        self.what = Line(self, "What", hint="sealant, flange")
        self.count = Line(self, "How many", hint="1")
        self.its_size = Line(self, "Size", hint="25x42x7")
        self.part_number = Line(self, "Part number")
        self.supplier = WordField("From whom", (), self, "bearing house")
        self.price = Line(self, "Price of one", hint="4.20")
        self.currency = Line(self, "Currency", hint="EUR")
        self.ordered_on = Line(self, "Ordered on", hint="not yet")
        self.due = Line(self, "Due", hint="12 May, 2 weeks")
        self.arrived = Line(self, "Of these are here", hint="0")
        self.note = Line(self, "Note")
        self.fields = {name: self._field(name) for name in _PLACES}
        self._lay_out()

    def _field(self, name: str) -> Field:
        editor = self.its_size if name == "size" else getattr(self, name)
        if isinstance(editor, Field):
            return editor
        return Field(editor.accessibleName(), editor, self)

    def _lay_out(self) -> None:
        grid = QGridLayout()
        tight(grid, 10)
        before: QWidget | None = None
        for name, (row, at, wide) in _PLACES.items():
            grid.addWidget(self.fields[name], row, at, 1, wide, Qt.AlignmentFlag.AlignTop)
            if before is not None:
                self.setTabOrder(before, self.fields[name].editor)
            before = self.fields[name].editor
        for at in range(COLUMNS):
            grid.setColumnStretch(at, 1)
        column = QVBoxLayout(self)
        tight(column, 0)
        column.addLayout(grid)
        column.addStretch(1)

    def begin(self) -> None:
        first = self.what if self.what.isEnabled() else self.supplier.line
        first.setFocus()
        first.selectAll()

    def load(self, part: NewPart, suppliers: Sequence[str], currency: str = "") -> None:
        """Show a line; the name of what is of a part is the part's own."""
        self._part = part
        self.say_nothing()
        self.what.setText(part.what)
        self.what.setEnabled(part.removal_id is None)
        self.count.setText(str(part.count))
        self.its_size.setText(part.size)
        self.part_number.setText(part.part_number)
        self.supplier.suggest(suppliers)
        self.supplier.set_text(part.supplier)
        self.price.setText(f"{part.price:f}" if part.price is not None else "")
        self.currency.setText(part.currency or currency)
        self.ordered_on.setText(written(part.ordered_on))
        self.due.setText(written(part.due))
        self.arrived.setText(str(part.arrived))
        self.fields["arrived"].setVisible(part.arrived > 0)
        self.note.setText(part.note)

    def part(self) -> NewPart | None:
        self.say_nothing()
        price, currency = self._price()
        many, here = self._count(), self._here()
        today = date.today()
        ordered_on, is_ordered_read = read_day(self.fields["ordered_on"], today, past=True)
        due, is_due_read = read_day(self.fields["due"], today, past=False)
        if many is None or not (is_ordered_read and is_due_read) or self.first_wrong():
            return None
        self.counted = here
        return replace(
            self._part,
            what=self.what.text().strip(),
            size=self.its_size.text().strip(),
            part_number=self.part_number.text().strip(),
            supplier=self.supplier.text,
            count=many,
            price=price,
            currency=currency,
            ordered_on=ordered_on,
            due=due,
            note=self.note.text().strip(),
        )

    def _price(self) -> tuple[Decimal | None, str]:
        """The price, and its currency: that typed behind the figure, else that of its field."""
        try:
            price, typed = read_price(self.price.text())
        except BadInput as wrong:
            self.fields["price"].say(wrong.sentence)
            return None, ""
        return price, (typed or self.currency.text().strip()) if price is not None else ""

    def _count(self) -> int | None:
        many = count(self.count.text())
        if many is None:
            self.fields["count"].say("A whole number, 1 or more.")
        return many

    def _here(self) -> int | None:
        """How many are here, where they were counted anew."""
        typed = self.arrived.text().strip()
        if typed == str(self._part.arrived):
            return None
        here = 0 if typed in ("", "0") else count(typed)
        if here is None:
            self.fields["arrived"].say("A whole number, 0 or more.")
        return here
