"""All that is away, a card for each send-out: those still out first, then what is all back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from textwrap import shorten

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.sending import Batch, Item
from bagtag.ui.away.away_words import back_words, called, how_many, key_of, part_name, when
from bagtag.ui.away.looks import LookBox, Looks
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import button, clear_layout, label, tight
from bagtag.ui.forms.flow import FlowBox
from bagtag.ui.forms.scroll import Emptiness, Scroll

MOST = 8
"""How many parts a card shows; the rest are counted."""
PIECE, WORK = 250, 100
"""How wide a part stands, in pixels, and how many letters are shown of what is wanted of it."""
NEXT = (
    "Send castings and shafts out from here, with what is wanted of each in writing. "
    "What waits for them says so, and the day they are promised for."
)


class Piece(QWidget):
    """A part with its picture, as small as can be read."""

    def __init__(self, item: Item, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        row = QHBoxLayout(self)
        tight(row, 10)
        top = Qt.AlignmentFlag.AlignTop
        row.addWidget(LookBox(looks, item.removal, item.thumb, self), 0, top)
        words = QVBoxLayout()
        tight(words, 0)
        words.addStretch(1)
        words.addWidget(label(part_name(item), self))
        said = shorten(item.away.work, WORK, placeholder=" …") if item.is_out else "back"
        if said:
            words.addWidget(label(said, self, scale="small", tone="muted"))
        words.addStretch(1)
        row.addLayout(words, 1)
        self.setFixedWidth(PIECE)

    def sizeHint(self) -> QSize:
        """As high as its words need at its width."""
        return QSize(PIECE, self.heightForWidth(PIECE))


class BatchCard(QFrame):
    """One send-out. A click anywhere opens it; so does its button."""

    opened = Signal(int)
    checked_in = Signal(int)

    def __init__(self, batch: Batch, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        self.key = key_of(batch)
        today = date.today()
        self.setProperty("surface", "tape" if batch.out else "card")
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.head = label(called(batch), self, scale="head")
        tone = "accent" if batch.days_late(today) else "muted"
        self.when = label(when(batch, today), self, tone=tone)
        self.count = label(back_words(batch) if batch.out else "", self, tone="muted")
        self.count.setVisible(bool(self.count.text()))
        self.show_it = button("Open", self, name=f"Open {batch_name(batch)}")
        self.back = button("What is back?", self, name=f"What is back of {batch_name(batch)}?")
        self.back.setVisible(bool(batch.out))
        self.show_it.clicked.connect(self._open)
        self.back.clicked.connect(self._back)
        self.pieces = FlowBox(self, 14, lines=8)
        self._fill(batch, looks)
        self._lay()

    def _fill(self, batch: Batch, looks: Looks) -> None:
        shown = batch.out or batch.items
        for item in shown[:MOST]:
            self.pieces.flow.addWidget(Piece(item, looks, self.pieces))
        more = len(shown) - MOST
        if more > 0:
            self.pieces.flow.addWidget(label(f"and {more} more", self.pieces, tone="muted"))

    def _lay(self) -> None:
        words = QVBoxLayout()
        tight(words, 2)
        for said in (self.head, self.when, self.count):
            words.addWidget(said)
        top = QHBoxLayout()
        tight(top, 10)
        top.addLayout(words, 1)
        for press in (self.show_it, self.back):
            top.addWidget(press, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 14)
        column.setSpacing(10)
        column.addLayout(top)
        column.addWidget(self.pieces)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        if event.button() == Qt.MouseButton.LeftButton:
            self._open()

    def _open(self) -> None:
        self.opened.emit(self.key)

    def _back(self) -> None:
        self.checked_in.emit(self.key)


def batch_name(batch: Batch) -> str:
    """As it stands in a sentence."""
    said = called(batch)
    return said[:1].lower() + said[1:]


class BatchList(QWidget):
    opened = Signal(int)
    checked_in = Signal(int)

    def __init__(self, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        self._looks = looks
        self.cards: list[BatchCard] = []
        self.head = label("", self, scale="head")
        self.send = Act("Send parts away", "Ctrl+N", self, role="primary")
        self.empty = Emptiness(self)
        self.view = Scroll(self, "Send-outs")
        self.view.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # Tab goes from card to card in it
        top = QHBoxLayout()
        top.addWidget(self.head, 1)
        top.addWidget(self.send)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addLayout(top)
        column.addWidget(self.empty)
        column.addWidget(self.view, 1)
        self.empty.say("", NEXT)

    def show_batches(self, batches: Sequence[Batch]) -> None:
        """Those out first, the latest of them on top; then those that are back, newest first."""
        today = date.today()
        gone = [batch for batch in batches if batch.out]
        gone.sort(key=lambda batch: -batch.days_late(today))
        home = [batch for batch in reversed(batches) if not batch.out]
        had = self._focused()
        clear_layout(self.view.column)
        self.cards = [BatchCard(batch, self._looks, self.view.body) for batch in (*gone, *home)]
        for card in self.cards:
            card.opened.connect(self.opened)
            card.checked_in.connect(self.checked_in)
            self.view.column.addWidget(card)
        self.view.column.addStretch(1)
        self.head.setText(how_many(batches, today))
        self.empty.setVisible(not self.cards)
        self.view.setVisible(bool(self.cards))
        self._focus(had)

    def begin(self, key: int = 0) -> None:
        """The keys on this send-out; where it is not there, on the first, or on sending one."""
        cards = [card for card in self.cards if card.key == key] or self.cards
        (cards[0].show_it if cards else self.send).setFocus()

    def _focused(self) -> int:
        """Which send-out has the keys, so that they can be given back; 0 for none."""
        focus = self.focusWidget()
        has = focus is not None and focus.hasFocus()
        found = (card.key for card in self.cards if has and card.isAncestorOf(focus))
        return next(found, 0)

    def _focus(self, key: int) -> None:
        for card in self.cards:
            if card.key == key:
                card.show_it.setFocus()
