"""The order list of one job or several, as it will be printed."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum, auto
from typing import Any

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.sheets.pages_dialog import PagesDialog, file_named

WORDS = "What to order, each supplier on pages of its own, with boxes for ordered and here."


class Of(Enum):
    """What goes on the paper."""

    OPEN = auto()
    ALL = auto()


OPTIONS = (Option(Of.OPEN, "Still to order"), Option(Of.ALL, "All that is renewed"))


def open_order_list(
    desk: Desk, parent: QWidget | None, job_ids: Sequence[int], supplier: str = ""
) -> OrderDialog:
    """Open the order list of these jobs, of one supplier where one is named."""
    dialog = OrderDialog(desk, parent, job_ids, supplier)
    dialog.open()
    return dialog


class OrderDialog(PagesDialog):
    _of = Of.OPEN

    def __init__(
        self, desk: Desk, parent: QWidget | None, job_ids: Sequence[int], supplier: str = ""
    ) -> None:
        self._job_ids, self._supplier = tuple(job_ids), supplier
        super().__init__(
            desk, "Print the order list", WORDS,
            service=services.order_sheets, file=file_named("order list", supplier), parent=parent,
        )  # fmt: skip
        self.of = Choices("What goes on the paper", OPTIONS, self, columns=2)
        self.of.set_value(Of.OPEN)
        self.controls.addWidget(Field("What goes on the paper", self.of, self))
        self.of.chosen.connect(self._chosen)

    def _chosen(self) -> None:
        self._of = self.of.value
        self.later()

    def subject(self) -> tuple[int, ...]:
        return self._job_ids

    def more(self) -> tuple[Any, ...]:
        return (services.order_sheets.Which(self._supplier, self._of is Of.ALL),)
