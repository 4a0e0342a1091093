"""The form of a batch: which shop, until when, and what few batches need."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.errors import Trouble
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import PackForm
from bagtag.domain.sending_days import out_day, promised_day
from bagtag.ui.forms.around import Around
from bagtag.ui.forms.basics import Field, Line, Note, tight
from bagtag.ui.forms.fold import Fold
from bagtag.ui.forms.words import WordField

CURRENCIES = ("EUR", "GBP", "USD", "CHF", "SEK", "PLN")


class MoreOfBatch(Fold):
    """What is wanted of all of it, contact, the day it goes, price and note."""

    def __init__(self, parent: QWidget) -> None:
        self.work = Line(parent, "Work wanted of all of it", hint="what is wanted of each part")
        self.contact = Line(parent, "Contact", hint="name, telephone")
        self.out_on = Line(parent, "Day it goes", hint="today")
        self.price = Line(parent, "Price", hint="as the shop named it")
        self.currency = Line(parent, "Currency", hint="EUR")
        self.note = Note(parent, "Note on the send-out", lines=2)
        super().__init__("work on all of it, contact, day, price, note", parent)
        self.currency.suggest(CURRENCIES)
        self.fields = {
            "work": Field("Work wanted of all of it", self.work, self.fold),
            "contact": Field("Contact", self.contact, self.fold),
            "out_on": Field("Goes on", self.out_on, self.fold),
            "price": Field("Price", self.price, self.fold),
            "currency": Field("Currency", self.currency, self.fold),
            "note": Field("Note", self.note, self.fold),
        }
        self._lay()

    def _lay(self) -> None:
        grid = QGridLayout(self.fold)
        tight(grid, 10)
        grid.addWidget(self.fields["work"], 0, 0, 1, 3)
        grid.addWidget(self.fields["contact"], 1, 0, 1, 2)
        grid.addWidget(self.fields["out_on"], 1, 2)
        grid.addWidget(self.fields["price"], 2, 0, 1, 2)
        grid.addWidget(self.fields["currency"], 2, 2)
        grid.addWidget(self.fields["note"], 3, 0, 1, 3)
        for column in range(3):
            grid.setColumnStretch(column, 1)

    def begin(self) -> None:
        self.work.setFocus()


class ShopForm(Around):
    """What is said of a batch as a whole."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.shop = WordField("Shop", (), self, hint="for example: cylinder grinder")
        self.promised = Line(self, "Promised for", hint="12 May, 2 weeks")
        self.more = MoreOfBatch(self)
        self.fields: dict[str, Field] = {
            "shop": self.shop,
            "promised": Field("Promised for", self.promised, self),
        } | self.more.fields
        self._lay()

    def _lay(self) -> None:
        row = QHBoxLayout()
        tight(row, 12)
        top = Qt.AlignmentFlag.AlignTop
        row.addWidget(self.shop, 3, top)
        row.addWidget(self.fields["promised"], 2, top)
        column = QVBoxLayout(self)
        tight(column, 8)
        column.addLayout(row)
        column.addWidget(self.more)

    def first(self) -> QWidget:
        return self.shop.line

    def clear(self) -> None:
        """An empty form."""
        for line in self._lines():
            line.clear()
        self.more.note.clear()
        self.more.open(False)
        self.say_nothing()

    def fill(self, batch: SendOut) -> None:
        self.shop.set_text(batch.shop)
        self.promised.setText(batch.promised.isoformat() if batch.promised else "")
        self.more.work.setText(batch.work)
        self.more.contact.setText(batch.contact)
        self.more.out_on.setText(batch.out_on.isoformat())
        self.more.price.setText(str(batch.price) if batch.price is not None else "")
        self.more.currency.setText(batch.currency)
        self.more.note.setPlainText(batch.note)
        self.more.open(True)

    def form(self, today: date) -> PackForm:
        """As filled in; BadInput for what is no day."""
        return PackForm(
            self.shop.text,
            out_day(self.more.out_on.text(), today),
            promised_day(self.promised.text(), today),
            self.more.contact.text().strip(),
            self.more.work.text().strip(),
            self.more.price.text().strip(),
            self.more.currency.text().strip(),
            self.more.note.toPlainText().strip(),
        )

    def say_nothing(self) -> None:
        for field in self.fields.values():
            field.say("")

    def say_wrong(self, error: Trouble) -> bool:
        """Say it at the field it is about, and go there; False where there is no such field."""
        field = self.fields.get(error.field)
        if field is None:
            return False
        if error.field in self.more.fields:
            self.more.open(True)
        field.say(error.sentence)
        field.editor.setFocus(Qt.FocusReason.TabFocusReason)  # chosen whole, to be typed anew
        return True

    def _lines(self) -> tuple[Line, ...]:
        more = self.more
        return (
            self.shop.line, self.promised,
            more.work, more.contact, more.out_on, more.price, more.currency,
        )  # fmt: skip
