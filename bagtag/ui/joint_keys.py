"""The keys for a part's joint, on Strip and on Build: its holes, its torque, its passes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QKeySequence, QShortcut

from bagtag.ui.card.card_parts import HOLES, PASSES, TORQUE

if TYPE_CHECKING:
    from bagtag.ui.bench_page import BenchPage

_NO_PART = "Choose a part in the list first."


class JointKeys(QObject):
    """Opens what belongs to the part that is on the card of a page."""

    def __init__(self, page: BenchPage) -> None:
        super().__init__(page)
        self.page, self.desk = page, page.desk
        for key, slot in (
            (HOLES, self.open_holes),
            (TORQUE, self.open_torque),
            (PASSES, self.open_passes),
        ):
            made = QShortcut(QKeySequence(key), page)
            made.setAutoRepeat(False)
            made.activated.connect(slot)

    def open_holes(self) -> None:
        from bagtag.ui.holes.hole_dialog import open_hole_map

        if self._has_part():
            open_hole_map(self.desk, self.page, self.part_id)

    def open_torque(self) -> None:
        """Without a part it is there to convert and to check."""
        from bagtag.ui.torque.torque_dialog import open_torque

        open_torque(self.desk, self.page, self.part_id or None)

    def open_passes(self) -> None:
        from bagtag.ui.order.passes_form import open_passes

        if self._has_part():
            open_passes(self.desk, self.page, self.part_id)

    @property
    def part_id(self) -> int:
        """The part on the card, or the entry that is being corrected; 0 for none."""
        page = self.page
        if "entry" in vars(page) and page.right.currentWidget() is page.entry:
            return page.entry.removal_id or 0
        if page.building and page.side.task_id:
            return 0
        return page.card_id

    def _has_part(self) -> bool:
        if not self.part_id:
            self.desk.say(_NO_PART)
        return bool(self.part_id)
