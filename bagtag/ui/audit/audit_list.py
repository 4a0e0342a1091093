"""The findings as pieces of tape, to walk and to choose from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelection, QItemSelectionModel, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QAbstractItemView, QTableView, QWidget

from bagtag.ui.audit.audit_delegate import HEAD, ROW, AuditDelegate
from bagtag.ui.audit.audit_model import AuditModel
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.spoken_rows import Index
from bagtag.ui.forms.tape_table import dress
from bagtag.ui.strip.thumbs import Thumbs

if TYPE_CHECKING:
    from bagtag.services.audit import AuditRow

_NO_TEXT = (
    Qt.KeyboardModifier.ControlModifier
    | Qt.KeyboardModifier.AltModifier
    | Qt.KeyboardModifier.MetaModifier
)


class AuditList(QTableView):
    """A table of one column, for the same reason as the strip: a long list paints at once."""

    entered = Signal()
    moved = Signal()
    """Another finding is chosen, or more of them."""
    left = Signal()
    typed = Signal(str)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.findings = AuditModel(self)
        self.thumbs = Thumbs(desk, self)
        self.setAccessibleName("What is missing, the worst first")
        self.setProperty("bare", "true")
        self.setModel(self.findings)
        self.setItemDelegate(AuditDelegate(self.findings, self.thumbs, self))
        dress(self, ROW, ROW // 2)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.thumbs.arrived.connect(self.viewport().update)
        self.selectionModel().currentChanged.connect(self.moved)
        self.selectionModel().selectionChanged.connect(self.moved)
        self.activated.connect(self.entered)

    def show_rows(self, rows: tuple[AuditRow, ...]) -> None:
        down = self.verticalHeader()
        for place in self.findings.headings():
            down.resizeSection(place, ROW)
        self.findings.show_rows(rows)
        for place in self.findings.headings():
            down.resizeSection(place, HEAD)

    @property
    def here(self) -> AuditRow | None:
        """The finding that Enter is for."""
        return self.findings.row_at(self.currentIndex().row())

    def chosen(self) -> list[AuditRow]:
        """All that are chosen, in their order."""
        places = sorted(index.row() for index in self.selectionModel().selectedIndexes())
        rows = (self.findings.row_at(place) for place in places)
        return [row for row in rows if row is not None]

    def go_to(self, place: int) -> None:
        """Choose a finding and bring it into sight, with its heading where it is the first."""
        index = self.findings.index(place)
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
        self.selectionModel().setCurrentIndex(index, flag)
        if place and self.findings.row_at(place - 1) is None:
            self.scrollTo(self.findings.index(place - 1))
        self.scrollTo(index)

    def choose_group(self) -> None:
        """All findings of the same lack as this one; the one that Enter is for stays."""
        if self.here is None:
            return
        places = self.findings.of_lack(self.here.finding.lack)
        first, last = self.findings.index(places[0]), self.findings.index(places[-1])
        flag = QItemSelectionModel.SelectionFlag.ClearAndSelect
        self.selectionModel().select(QItemSelection(first, last), flag)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        text = event.text()
        if event.key() in ENTER:
            self.entered.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() in (Qt.Key.Key_Home, Qt.Key.Key_End) and not event.modifiers():
            places = [place for place, _ in self.findings.keyed()]
            if places:
                self.go_to(places[0 if event.key() == Qt.Key.Key_Home else -1])
        elif event.matches(QKeySequence.StandardKey.SelectAll):
            self.choose_group()
        elif event.matches(QKeySequence.StandardKey.Paste):
            event.ignore()
        elif text.isprintable() and text.strip() and not event.modifiers() & _NO_TEXT:
            self.typed.emit(text)
        else:
            super().keyPressEvent(event)

    def keyboardSearch(self, _: str) -> None:
        """Letters go into the one field."""

    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.viewport().update()
