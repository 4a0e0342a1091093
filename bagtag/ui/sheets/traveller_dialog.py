"""The traveller of a send-out, as it will be printed."""

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.sheets.pages_dialog import PagesDialog, file_named

WORDS = (
    "It goes with the parts and comes back with them: what is wanted, what the shop takes off, "
    "room for what was measured, lines to sign."
)


def open_traveller(
    desk: Desk, parent: QWidget | None, send_out_id: int, called: str = ""
) -> "TravellerDialog":
    """Open the traveller of a send-out, which is `called` so in the name of its file."""
    dialog = TravellerDialog(desk, parent, send_out_id, called)
    dialog.open()
    return dialog


class TravellerDialog(PagesDialog):
    def __init__(
        self, desk: Desk, parent: QWidget | None, send_out_id: int, called: str = ""
    ) -> None:
        self._send_out_id = send_out_id
        super().__init__(
            desk, "Print the traveller", WORDS,
            service=services.travellers, file=file_named("traveller", called), parent=parent,
        )  # fmt: skip

    def subject(self) -> int:
        return self._send_out_id
