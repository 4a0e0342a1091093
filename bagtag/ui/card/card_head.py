"""The top of the card: what the part is called, its tag, and where it belongs and lies."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.domain.codes import show
from bagtag.domain.days import day_words
from bagtag.domain.standing import Standing
from bagtag.ui.card.card_parts import is_long
from bagtag.ui.forms.basics import label, tight
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.services.views import BenchCard

WORDS = {
    Standing.OFF: "off",
    Standing.NEXT: "can go in now",
    Standing.WAITS: "waits",
    Standing.AWAY: "away",
    Standing.IN: "fitted",
    Standing.SCRAPPED: "scrapped",
}


class CardHead(QWidget):
    """Name and tag code in the largest letters, place and whereabouts below."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.name = label("", self, scale="big")
        self.code = label("", self, scale="head")
        self.code.setWordWrap(False)
        self.place = label("", self, tone="muted")
        self.standing = label("", self, tone="accent")
        self.standing.setWordWrap(False)
        self._lay()

    def _lay(self) -> None:
        grid = QGridLayout(self)
        tight(grid)
        grid.setColumnStretch(0, 1)
        grid.setHorizontalSpacing(16)
        right = Qt.AlignmentFlag.AlignRight
        grid.addWidget(self.name, 0, 0)
        grid.addWidget(self.code, 0, 1, right | Qt.AlignmentFlag.AlignVCenter)
        grid.addWidget(self.place, 1, 0)
        grid.addWidget(self.standing, 1, 1, right | Qt.AlignmentFlag.AlignTop)

    def be_small(self, small: bool) -> None:
        """Leave room for what stands below."""
        self._is_small = small
        self._size()
        self.place.setVisible(not small)
        self.standing.setVisible(not small)

    _is_small = False

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._size()

    def _size(self) -> None:
        wide = max(self.width() - self.code.sizeHint().width() - 16, 1)
        is_small = self._is_small or is_long(self.name.text(), wide)
        mark(self.name, scale="head" if is_small else "big")

    def show_card(self, card: "BenchCard") -> None:
        removal = card.removal
        pieces = f"{removal.quantity} × " if removal.quantity > 1 else ""
        self.name.setText(pieces + removal.name)
        self.code.setText(show(card.code) if card.code else "")
        self._size()
        self.code.setAccessibleName(f"Tag {show(card.code)}" if card.code else "No tag")
        self.place.setText(whereabouts(card))
        fitted = card.standing is Standing.IN
        self.standing.setText(WORDS[card.standing])
        mark(self.standing, tone="muted" if fitted else "accent")


def whereabouts(card: "BenchCard") -> str:
    """`No. 28, engine > gearbox. In bag 12, tray 3, shelf B.`"""
    area = f", {card.area}" if card.area else ""
    return f"No. {card.removal.number}{area}. {_lies(card)}".strip()


def _lies(card: "BenchCard") -> str:
    if card.away is not None:
        due = card.away.due
        promised = f", promised for {day_words(due, date.today())}" if due else ""
        return f"Away at {card.away.shop}{promised}."
    if card.standing in (Standing.IN, Standing.SCRAPPED):
        return ""
    if not card.where:
        return "On the bench."
    word = "On" if card.where[0].startswith("shelf") else "In"
    return f"{word} {', '.join(card.where)}."
