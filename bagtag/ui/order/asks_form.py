"""The figures that are asked for when a part is signed off."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.errors import Trouble
from bagtag.domain.model import Removal
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.order.add_asks import AskRows


def open_asks(desk: Desk, parent: QWidget | None, removal_id: int) -> AsksDialog:
    """Open the form of what is measured when this part is signed off."""
    dialog = AsksDialog(desk, parent, removal_id)
    dialog.open()
    return dialog


class AsksDialog(FormDialog):
    def __init__(self, desk: Desk, parent: QWidget | None, removal_id: int) -> None:
        super().__init__(desk, "Measure at sign-off", parent, keep="Keep it")
        self._removal_id = removal_id
        self.asks = AskRows(self.inner)
        self.fields = {"asks": Field("Asked for when it is signed off", self.asks, self.inner)}
        self.column.addWidget(self.fields["asks"])
        self.column.addStretch(1)
        self.keep.setEnabled(False)
        self.desk.ask(services.strip.get_removal, removal_id, then=self._removal_known)
        self.fit(380)

    def _removal_known(self, removal: Removal) -> None:
        self.say_title(
            f"Measure at sign-off: {removal.number} {removal.name}",
            "What is outside its limits is said at once; limits come from the maker's manual.",
        )
        self.asks.set_asks(removal.asks)
        self.keep.setEnabled(True)
        self.asks.add()

    def save(self) -> None:
        if not self.keep.isEnabled():
            return
        try:
            asks = self.asks.asks()
        except Trouble as trouble:
            self.say_wrong(trouble.sentence, trouble.field)
            return
        self.act(services.tasks.ask_at_sign_off, self._removal_id, asks)
