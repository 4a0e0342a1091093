"""One part of a send-out: its picture, what is wanted, what came off it, whether it is back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.asked import outside
from bagtag.domain.codes import show
from bagtag.domain.model import PhotoRole
from bagtag.domain.phrases import listed
from bagtag.domain.sending import Item
from bagtag.ui.away.away_words import asks_words, back_said, figures_words, part_name
from bagtag.ui.away.looks import LookBox, Looks
from bagtag.ui.card.sign_rows import Verdict
from bagtag.ui.card.task_signs import CROSS, TICK
from bagtag.ui.forms.basics import Press, button, label, tight
from bagtag.ui.forms.flow import FlowBox
from bagtag.ui.photos.photo_strip import PhotoStrip

if TYPE_CHECKING:
    from bagtag.ui.desk import Desk


class BatchItem(QFrame):
    """What the shop took off it stands below it, smaller."""

    shown = Signal(int)
    changing = Signal(int)
    dropping = Signal(int)
    opened_photos = Signal()
    stripping = Signal(int)
    """The shop took something off this part; each signal gives the removal or the item's away."""

    def __init__(
        self, item: Item, taken: Sequence[Item], looks: Looks, desk: Desk, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.item, self._taken, self._desk = item, tuple(taken), desk
        self.look = LookBox(looks, item.removal, item.thumb, self)
        self.photos: PhotoStrip | None = None
        self.presses: list[Press] = []
        self.setProperty("surface", "tape" if item.is_out else "card")
        self.acts = FlowBox(self, 4, lines=0)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(14, 10, 14, 8)
        self._column.setSpacing(6)
        top, words = QHBoxLayout(), QVBoxLayout()
        tight(top, 14)
        tight(words, 2)
        top.addWidget(self.look, 0, Qt.AlignmentFlag.AlignTop)
        top.addLayout(words, 1)
        self._column.addLayout(top)
        self._say(words, taken)
        words.addWidget(self.acts)

    def says(self, item: Item, taken: Sequence[Item]) -> bool:
        """Whether that is what it says already, but for the picture, which is shown at once."""
        same = replace(self.item, thumb=item.thumb) == item and self._taken == tuple(taken)
        if same:
            self.item = item
            self.look.show_thumb(item.thumb)
        return same

    def _say(self, words: QVBoxLayout, taken: Sequence[Item]) -> None:
        away = self.item.away
        words.addWidget(label(part_name(self.item), self, scale="head"))
        tag = f"tag {show(self.item.code)}" if self.item.code else ""
        off, asks = ", ".join(self.item.off), asks_words(away.asks)
        by_shop = ", ".join(_taken(one) for one in taken)
        missing = [_taken(one) for one in taken if one.is_out and not self.item.is_out]
        for said, tone in (
            (away.work, "ink"),
            (f"to work to: {asks}" if asks else "", "ink"),
            (f"taken off it first: {off}" if off else "", "muted"),
            (f"the shop takes off: {by_shop}" if by_shop else "", "muted"),
            (f"still there: {listed(missing)}" if missing else "", "accent"),
            (tag, "muted"),
        ):
            if said:
                words.addWidget(label(said, self, tone=tone))
        self._say_back(words)

    def _say_back(self, words: QVBoxLayout) -> None:
        """That it is back, with what was measured: what is outside its limits has a cross."""
        away = self.item.away
        self.verdict = Verdict(self)
        self.verdict.say(back_said(away, date.today()), TICK if not self.item.is_out else None)
        self.measured = Verdict(self)
        wrong = any(map(outside, away.figures))
        self.measured.say(figures_words(away.figures), CROSS if wrong else TICK)
        for verdict in (self.verdict, self.measured):
            words.addWidget(verdict)
        if away.back_note:
            words.addWidget(label(away.back_note, self))

    # What can be done with it

    def offer_all(self) -> None:
        """All that can be done with a part of a batch; one that is back is only shown."""
        self.offer_card()
        if self.item.is_out:
            self._act("Change what is wanted", self._change)
            self._act("The shop took a part off", self._strip)
            self._act("It did not go", self._drop)
        word = "Photos before it went" if self.item.is_out else "Photos as it came back"
        self.photo_press = self._act(word, self._turn_photos)

    def offer_loose(self) -> None:
        """What can be done with a part that went without a batch."""
        self.offer_card()
        self._act("The shop took a part off", self._strip)

    def offer_card(self) -> None:
        self._act("Show its card", self._show)

    def _act(self, word: str, slot: object) -> Press:
        press = button(word, self.acts, role="quiet", name=f"{word}: {self.item.called}")
        press.clicked.connect(slot)
        self.acts.flow.addWidget(press)
        self.presses.append(press)
        return press

    def _show(self) -> None:
        self.shown.emit(self.item.removal.id)

    def _change(self) -> None:
        self.changing.emit(self.item.away.id)

    def _strip(self) -> None:
        self.stripping.emit(self.item.removal.id)

    def _drop(self) -> None:
        self.dropping.emit(self.item.away.id)

    def _turn_photos(self) -> None:
        """Photos of how it was when it went, or when it came back: dropped, pasted or chosen."""
        if self.has_photos_open:
            self.shut_photos()
            return
        self.opened_photos.emit()
        if self.photos is None:
            role = PhotoRole.SENT if self.item.is_out else PhotoRole.RETURNED
            self.photos = PhotoStrip(self._desk, self, role=role)
            self._column.addWidget(self.photos)
            self.photos.open(self.item.removal.id)
        self.photos.show()
        self.photos.acts.choose.setFocus()

    def shut_photos(self) -> None:
        if self.photos is not None:
            self.photos.hide()

    @property
    def has_photos_open(self) -> bool:
        return self.photos is not None and not self.photos.isHidden()


def _taken(item: Item) -> str:
    name = f"{item.removal.quantity} × {item.removal.name}"
    name = name if item.removal.quantity > 1 else item.removal.name
    return name if item.is_out else f"{name} (back)"
