"""Which way: the picture first and large, the sentence below it in letters read from a metre."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.model import PhotoRole
from bagtag.domain.picture import draw
from bagtag.domain.which_way import Fact
from bagtag.ui.card.card_photos import PhotoBox, thumb_of
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import label, tight
from bagtag.ui.forms.inks import inks_of
from bagtag.ui.picture import PictureWidget
from bagtag.ui.theme import mark

if TYPE_CHECKING:
    from bagtag.services.views import BenchCard

LEAST, MOST = 112, 520
"""How high the picture's panel is: never less than can be read, never more than this or half of
what is seen, whichever is more."""
PEEK = 64
"""How much of what follows is seen below picture and sentence."""
LOW = 215
"""A card with less height than this has its sentence beside the picture."""
BESIDE = 600
"""The least width for a photo beside the picture."""
QWIDGETSIZE_MAX = 16_777_215
NARROW, WIDE = 2.2, 3.8
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
    """Picture and photo side by side, the sentence below; in a low card the sentence beside."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.top = QWidget(self)
        self.panel = QFrame(self.top)
        self.panel.setProperty("surface", "card")
        self.picture = WayPicture(self.panel)
        self.photo = PhotoBox(PhotoRole.OFF, self.top)
        self.photo.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        self.sentence = label("", self, scale="big")
        self._lay()

    def _lay(self) -> None:
        inside = QVBoxLayout(self.panel)
        inside.setContentsMargins(14, 6, 14, 6)
        inside.addWidget(self.picture)
        across = QHBoxLayout(self.top)
        tight(across, 12)
        across.addWidget(self.panel, 7)
        across.addWidget(self.photo, 3)
        self._box = QBoxLayout(QBoxLayout.Direction.TopToBottom, self)
        tight(self._box, 12)
        self._box.addWidget(self.top)
        self._box.addWidget(self.sentence)
        self.sentence.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def show_card(self, card: "BenchCard") -> None:
        facts, photos = card.told, card.photos_off
        self.picture.show_facts(facts, card.datum)
        self.picture.set_sentence(card.sentence)
        self.panel.setVisible(bool(facts))
        self.photo.show_photos(photos, thumb_of(self.desk, photos))
        self.sentence.setText(card.sentence or "Nothing was noted about which way it sat.")
        said = bool(card.sentence)
        mark(self.sentence, scale="big" if said else "body", tone="ink" if said else "muted")

    @property
    def shows_photo(self) -> bool:
        """Whether the photo as it came off stands here, and need not stand below as well."""
        return self.photo.isVisibleTo(self)

    def fit(self, width: int, height: int) -> None:
        """Give the picture the room that the sentence leaves in what is seen at once."""
        has_picture = self.panel.isVisibleTo(self.top)
        self.photo.setVisible(bool(self.photo.photos) and (width >= BESIDE or not has_picture))
        low = height < LOW and width >= 420 and has_picture
        way = QBoxLayout.Direction
        self._box.setDirection(way.LeftToRight if low else way.TopToBottom)
        self.top.setVisible(has_picture or self.shows_photo)
        top = Qt.AlignmentFlag.AlignTop
        self._box.setAlignment(self.top, top if low else Qt.AlignmentFlag(0))
        if low:
            self.photo.hide()
            self.top.setFixedSize(width // 2, max(min(height - 8, LOW), LEAST))
            return
        sentence = self.sentence.heightForWidth(width)
        self.top.setMinimumWidth(0)
        self.top.setMaximumWidth(QWIDGETSIZE_MAX)
        most = max(MOST, height // 2)
        self.top.setFixedHeight(min(max(height - sentence - PEEK, LEAST), most))
