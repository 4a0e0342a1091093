"""Words along the top of the hole map: its pages, and how near one looks."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QWidget

from bagtag.ui.forms.basics import Press, button, tight
from bagtag.ui.holes.hole_sheet import HoleSheet


class PageBar(QWidget):
    """Alt and a figure opens a page; a click does, and Tab reaches them."""

    chosen = Signal(str)

    def __init__(self, titles: Sequence[str], sheet: HoleSheet, parent: QWidget) -> None:
        super().__init__(parent)
        self._group = QButtonGroup(self)
        self._row = QHBoxLayout(self)
        tight(self._row, 4)
        self.words = {title: self._word(title, at) for at, title in enumerate(titles, 1)}
        self._row.addStretch(1)
        self.away = self._look("−", "Look from farther away, key minus")
        self.closer = self._look("+", "Look closer, key plus")
        self.fit = self._look("All of it\u20020", "Show all of it, key 0")
        self.away.clicked.connect(sheet.away)
        self.closer.clicked.connect(sheet.closer)
        self.fit.clicked.connect(sheet.fit)
        self.words[titles[0]].setChecked(True)

    def choose(self, title: str) -> None:
        self.words[title].click()

    def _word(self, title: str, at: int) -> Press:
        press = button(title, self, role="stage", name=f"{title}, Alt+{at}")
        press.setToolTip(f"{title} (Alt+{at})")
        press.setCheckable(True)
        press.clicked.connect(self._clicked)
        shortcut = QShortcut(QKeySequence(f"Alt+{at}"), press)
        shortcut.activated.connect(press.click)
        self._group.addButton(press)
        self._row.addWidget(press)
        return press

    def _look(self, text: str, name: str) -> Press:
        press = button(text, self, role="quiet", name=name)
        press.setToolTip(name)
        self._row.addWidget(press)
        return press

    def _clicked(self) -> None:
        press = self.sender()
        self.chosen.emit(next(title for title, word in self.words.items() if word is press))
