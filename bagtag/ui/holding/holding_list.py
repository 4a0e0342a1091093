"""What holds the job up, as pieces of tape: the first to chase at the top."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.walked_list import WalkedList, WalkedRows
from bagtag.ui.holding import holding_words as words
from bagtag.ui.holding.holding_delegate import ROW, HoldingDelegate
from bagtag.ui.strip.thumbs import Thumbs

if TYPE_CHECKING:
    from bagtag.services.readiness import HeldRow


class HoldingModel(WalkedRows):
    def spoken(self, line: Any) -> str:
        return words.spoken(line)


class HoldingList(WalkedList):
    """Arrows walk it; Enter goes to where the chosen one is settled."""

    entered = Signal()
    moved = Signal()
    left = Signal()
    typed = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        rows = HoldingModel()
        super().__init__("What holds the job up, what to chase first at the top", rows, ROW, parent)
        self.rows = rows
        self.thumbs = Thumbs(desk, self)
        self.setItemDelegate(HoldingDelegate(self.rows, self.thumbs, self))
        self.thumbs.arrived.connect(self.viewport().update)
        self.selectionModel().currentChanged.connect(self.moved)
        self.activated.connect(self.entered)

    def show_rows(self, rows: tuple[HeldRow, ...]) -> None:
        """Show other rows; what was chosen stays so, else what stands in its place."""
        was, at = self.here, max(self.currentIndex().row(), 0)
        self.rows.put(rows)
        same = [n for n, row in enumerate(rows) if was is not None and row.ref == was.ref]
        self.go_to(same[0] if same else at)

    @property
    def here(self) -> HeldRow | None:
        found: HeldRow | None = self.rows.line_at(self.currentIndex().row())
        return found

    def keyPressEvent(self, event: QKeyEvent) -> None:
        text, plain = event.text(), not event.modifiers() & Qt.KeyboardModifier.ControlModifier
        if event.key() in ENTER:
            self.entered.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif plain and text.isprintable() and text.strip():
            self.typed.emit(text)
        elif not self.walk(Qt.Key(event.key())):
            super().keyPressEvent(event)

    def keyboardSearch(self, _: str) -> None:
        """Letters go into the one field."""
