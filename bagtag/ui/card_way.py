"""Which way: the picture first and large, the sentence below it in letters read from a metre."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QSizePolicy, QVBoxLayout, QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.picture import draw
from bagtag.domain.which_way import Fact
from bagtag.ui.card_parts import inks_of
from bagtag.ui.forms import label, tight
from bagtag.ui.picture import PictureWidget
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.services.views import BenchCard

LEAST, MOST = 112, 520
"""How high the picture's panel is: never less than can be read, never more than looks calm."""
PEEK = 64
"""How much of what follows is seen below picture and sentence."""
NARROW, WIDE = 2.7, 3.8
"""The shapes a picture is drawn for, width to height."""


class WayPicture(PictureWidget):
    """The wide picture, drawn for the shape that its panel has."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._facts: Sequence[Fact] = ()
        self._datum = Datum()

    def show_facts(self, facts: Sequence[Fact], datum: Datum) -> None:
        self._facts, self._datum = facts, datum
        self._draw()

    def _draw(self) -> None:
        shape = min(max(self.width() / max(self.height(), 1), NARROW), WIDE)
        self.set_picture(draw(self._facts, self._datum, wide=True, aspect=shape))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._draw()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.StyleChange):
            self.set_inks(*inks_of(self))

    def sizeHint(self) -> QSize:
        return QSize(400, LEAST - 14)

    def minimumSizeHint(self) -> QSize:
        return QSize(160, LEAST - 14)


class CardWay(QWidget):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.panel = QFrame(self)
        self.panel.setProperty("surface", "card")
        self.picture = WayPicture(self.panel)
        self.sentence = label("", self, scale="big")
        self._lay()

    def _lay(self) -> None:
        inside = QVBoxLayout(self.panel)
        inside.setContentsMargins(14, 6, 14, 6)
        inside.addWidget(self.picture)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addWidget(self.panel)
        column.addWidget(self.sentence)
        self.sentence.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def show_card(self, card: "BenchCard") -> None:
        facts = card.removal.which_way
        self.picture.show_facts(facts, card.datum)
        self.picture.set_sentence(card.sentence)
        self.panel.setVisible(bool(facts))
        self.sentence.setText(card.sentence or "Nothing was noted about which way it sat.")
        said = bool(card.sentence)
        mark(self.sentence, scale="big" if said else "body", tone="ink" if said else "muted")

    def fit(self, width: int, height: int) -> None:
        """Give the picture the room that the sentence leaves in what is seen at once."""
        sentence = self.sentence.heightForWidth(width)
        self.panel.setFixedHeight(min(max(height - sentence - PEEK, LEAST), MOST))
