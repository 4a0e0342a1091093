"""What is still out, said large; out of sight where nothing is."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QHBoxLayout, QWidget

from bagtag.domain.tools import ToolSheet, out_words
from bagtag.ui.forms.basics import label
from bagtag.ui.tools.tools_lines import still_out


class StillOut(QFrame):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "tape")
        self.head = label("", self, scale="big")
        self.head.setWordWrap(False)
        self.names = label("", self)
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 4, 14, 6)
        row.setSpacing(24)
        row.addWidget(self.head)
        row.addWidget(self.names, 1)
        self.hide()

    def show_sheet(self, sheet: ToolSheet) -> None:
        said = still_out(sheet)
        self.head.setText(said)
        self.names.setText(out_words(sheet.out))
        self.setAccessibleName(said)
        self.setAccessibleDescription(self.names.text())
        self.setVisible(bool(said))
