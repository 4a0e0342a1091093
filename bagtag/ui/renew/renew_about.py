"""The chosen line in full: what it is, where the old part lies, and what can be done now."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.model import Photo, PhotoRole
from bagtag.ui.card.card_photos import PhotoBox, thumb_of
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Press, clear_layout, label, tight
from bagtag.ui.forms.flow import FlowBox
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.forms.values import Values
from bagtag.ui.photos.photo_view import PhotoView
from bagtag.ui.renew.renew_acts import KEYS, Do, acts_for
from bagtag.ui.renew.renew_asks import AskArrived, AskCompare, AskWrong
from bagtag.ui.renew.renew_lines import pieces
from bagtag.ui.renew.renew_words import facts, why

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine

ROOM = 400
"""How high the panel is where a photo has room beside a question, in pixels."""


class ActPress(Press):
    """A button that says its key; `do` is what it means."""

    def __init__(self, do: Do, parent: QWidget, *, is_next: bool) -> None:
        super().__init__(f"{do.value}\u2002{KEYS[do]}", parent)
        self.do = do
        self.setProperty("role", "primary" if is_next else "plain")
        self.setAccessibleName(do.value)


class AboutLine(QWidget):
    """`pressed` says what is to be done with the line; small questions stand below it."""

    pressed = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.line: RenewLine | None = None
        self.presses: list[ActPress] = []
        self._has_photo = False
        self.name = label("", self, scale="head")
        self.pane = Scroll(self, "The chosen line")
        self.why = label("", self.pane.body, tone="muted")
        self.values = Values(self.pane.body)
        self.photo = PhotoBox(PhotoRole.OFF, self.pane.body)
        self.acts = FlowBox(self, 8, 8)
        self.spare = QWidget(self)
        self.arrived, self.wrong, self.compare = AskArrived(self), AskWrong(self), AskCompare(self)
        self.asks = (self.arrived, self.wrong, self.compare)
        self._lay()
        self.photo.pressed.connect(self._look)
        for ask in self.asks:
            ask.shut.connect(self._arrange)

    def _lay(self) -> None:
        self.pane.column.addWidget(self.why)
        self.pane.column.addWidget(self.values)
        self.pane.column.addWidget(self.photo)
        self.pane.column.addStretch(1)
        column = QVBoxLayout(self)
        tight(column, 8)
        column.addWidget(self.name)
        column.addWidget(self.pane, 1)
        column.addWidget(self.acts)
        for ask in self.asks:
            column.addWidget(ask)
        column.addWidget(self.spare, 1)
        self.spare.hide()
        self.photo.hide()

    def show_line(self, line: RenewLine | None) -> None:
        """Show another line; a question about the one before is put away."""
        if line == self.line:
            return
        self.line = line
        for ask in self.asks:
            ask.hide()
        self.name.setText(pieces(line.new_part) if line else "")
        self.why.setText(why(line) if line else "")
        self.values.show_values(facts(line) if line else [])
        self.pane.verticalScrollBar().setValue(0)
        self._offer(acts_for(line) if line else ())
        self._ask_photos()

    def _offer(self, acts: Sequence[Do]) -> None:
        clear_layout(self.acts.flow)
        self.presses = [ActPress(do, self.acts, is_next=not n) for n, do in enumerate(acts)]
        for press in self.presses:
            press.clicked.connect(self._pressed)
            self.acts.flow.addWidget(press)
            press.show()
        self.acts.updateGeometry()

    def _pressed(self) -> None:
        press = self.sender()
        assert isinstance(press, ActPress)
        self.pressed.emit(press.do)

    @property
    def is_asking(self) -> bool:
        return any(not ask.isHidden() for ask in self.asks)

    def _arrange(self) -> None:
        """A question has the room; the old part stays in sight while it is compared."""
        asking = self.is_asking
        self.acts.setVisible(not asking)
        for widget in (self.why, self.values):
            widget.setVisible(not asking)
        has_room = self._has_photo and self.height() >= ROOM
        comparing = not self.compare.isHidden() and has_room
        self.pane.setVisible(not asking or comparing)
        self.spare.setVisible(not self.pane.isVisibleTo(self))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    # The old part

    def _ask_photos(self) -> None:
        self._has_photo = False
        self.photo.hide()
        removal = self.line.removal if self.line is not None else None
        if removal is not None:
            self.desk.ask(services.photos.photos_of, removal.id, then=self._photos)

    def _photos(self, photos: Sequence[Photo]) -> None:
        removal = self.line.removal if self.line is not None else None
        kept = tuple(p for p in photos if p.role is PhotoRole.OFF)
        is_mine = removal is not None and all(photo.removal_id == removal.id for photo in kept)
        self._has_photo = bool(kept) and is_mine
        self.photo.setVisible(self._has_photo)
        if self._has_photo:
            self.photo.show_photos(kept, thumb_of(self.desk, kept))

    def _look(self) -> None:
        PhotoView(self.desk, self.photo.photos, 0, self).open()
