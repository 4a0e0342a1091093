"""Short forms of a send-out: the batch itself, one part of it, what the shop took off as well."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.errors import BadInput
from bagtag.domain.send_out import SendOut
from bagtag.domain.sending import Batch, Item
from bagtag.domain.sending_check import read_shop_part
from bagtag.ui.away.pack_off import USUAL
from bagtag.ui.away.pack_page import parts_of, pick_row
from bagtag.ui.away.pack_shop import ShopForm
from bagtag.ui.away.pack_wanted import WantedForm
from bagtag.ui.forms.basics import Field, Line
from bagtag.ui.forms.form_dialog import FormDialog

if TYPE_CHECKING:
    from bagtag.services.views import StripRow
    from bagtag.ui.desk import Desk

SHOP_TOOK = "It becomes a line of the log and goes with the send-out, so that it is not forgotten."


def open_batch(desk: Desk, parent: QWidget, batch: SendOut) -> BatchDialog:
    """Open the form of a batch: shop, days, price."""
    dialog = BatchDialog(desk, parent, batch)
    dialog.open()
    return dialog


def open_wanted(desk: Desk, parent: QWidget, batch: Batch, item: Item) -> WantedDialog:
    """Open the form of what is wanted of a part that is out."""
    dialog = WantedDialog(desk, parent, batch, item)
    dialog.open()
    return dialog


def open_shop_took(desk: Desk, parent: QWidget, send_out_id: int, item: Item) -> ShopTookDialog:
    """Open the form of a part that the shop took off as well."""
    dialog = ShopTookDialog(desk, parent, send_out_id, item)
    dialog.open()
    return dialog


class BatchDialog(FormDialog):
    def __init__(self, desk: Desk, parent: QWidget, batch: SendOut) -> None:
        super().__init__(desk, f"Change {batch.called}", parent, keep="Keep it")
        self._send_out_id = batch.id
        self.form = ShopForm(self.inner)
        self.form.fill(batch)
        self.fields = dict(self.form.fields)
        self.column.addWidget(self.form)
        self.column.addStretch(1)
        self.fit(640)
        self.form.promised.setFocus()

    def save(self) -> None:
        try:
            form = self.form.form(date.today())
        except BadInput as wrong:
            self.say_wrong(wrong.sentence, wrong.field)
            return
        self.act(services.send_outs.edit, self._send_out_id, form)

    def unfold(self, field: Field) -> None:
        if field in self.form.more.fields.values():
            self.form.more.open(True)


class WantedDialog(FormDialog):
    def __init__(self, desk: Desk, parent: QWidget, batch: Batch, item: Item) -> None:
        super().__init__(desk, f"What is wanted of {item.called}", parent, keep="Keep it")
        self._item = item
        self.form = WantedForm(self.inner)
        self.fields = dict(self.form.fields) | {
            "by_shop": self.form.takes.field,
            "off": self.form.off.pick.field,
        }
        self.form.fill(services.send_outs.wanted_of(batch, item))
        self.column.addWidget(self.form)
        self.column.addStretch(1)
        self.keep.setEnabled(False)
        self.desk.ask(parts_of, item.removal.job_id, then=self._known)
        self.fit(620)
        self.form.work.setFocus()

    def _known(self, rows: list[StripRow]) -> None:
        self.form.set_parts([pick_row(r) for r in rows if r.removal.id != self._item.removal.id])
        self.keep.setEnabled(True)

    def save(self) -> None:
        if not self.keep.isEnabled():
            return
        try:
            wanted = self.form.wanted(self._item.removal.id)
        except BadInput as wrong:
            self.say_wrong(wrong.sentence, wrong.field)
            return
        self.act(services.send_outs.change_wanted, self._item.away.id, wanted)


class ShopTookDialog(FormDialog):
    def __init__(self, desk: Desk, parent: QWidget, send_out_id: int, item: Item) -> None:
        super().__init__(desk, f"The shop took a part off {item.called}", parent)
        self.say_title(f"The shop took a part off {item.called}", SHOP_TOOK)
        self._send_out_id, self._removal_id = send_out_id, item.removal.id
        self.line = Line(self.inner, "What the shop took off", hint="for example: 3 oil jets")
        self.line.suggest(USUAL)
        self.fields = {"by_shop": Field("What, and how many", self.line, self.inner)}
        self.column.addWidget(self.fields["by_shop"])
        self.column.addStretch(1)
        self.fit(320)
        self.line.setFocus()

    def save(self) -> None:
        try:
            one = read_shop_part(self.line.text())
        except BadInput as wrong:
            self.say_wrong(wrong.sentence, wrong.field)
            return
        self.act(
            services.send_outs.shop_took,
            self._send_out_id, self._removal_id, one.name, one.quantity,
        )  # fmt: skip
