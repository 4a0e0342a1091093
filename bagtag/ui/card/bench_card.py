"""The card: the part in hand, large, with what one must know and do about it now."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtWidgets import QBoxLayout, QFrame, QStackedLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.cautions import has_torque
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import part
from bagtag.domain.model import Photo, PhotoRole
from bagtag.ui.card.card_acts import CardActs
from bagtag.ui.card.card_asks import AskShop
from bagtag.ui.card.card_block import Block
from bagtag.ui.card.card_facts import (
    CardCautions,
    CardFacts,
    before_words,
    run_in_words,
    torque_cautions,
)
from bagtag.ui.card.card_head import CardHead
from bagtag.ui.card.card_match import CardMatch
from bagtag.ui.card.card_photos import CardPhotos
from bagtag.ui.card.card_tags import CardTags
from bagtag.ui.card.card_taking import CardTaking
from bagtag.ui.card.card_way import CardWay
from bagtag.ui.card.joint_view import JointView
from bagtag.ui.card.sign_panel import SignPanel
from bagtag.ui.card.why_here import WhyHere
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import tight
from bagtag.ui.forms.scroll import Emptiness, Scroll

if TYPE_CHECKING:
    from bagtag.services.tags import Match
    from bagtag.services.views import BenchCard

SIDE_BY_SIDE = 760
"""The least width for photos beside the facts, in pixels."""
LOW_VIEW = 240
"""What is known of the part, with less height than this, has the pass now due in smaller letters.
"""
LOW = 420
"""A card with less height than this has its name in smaller letters while a step is signed."""


class BenchCardView(QFrame):
    """Shows one removal. `correct` asks for its entry to be opened."""

    correct = Signal(int)
    shown = Signal(int)
    """A removal now stands on the card; 0 for none."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.removal_id = 0
        self.card: BenchCard | None = None
        self.tags = CardTags(desk, self)
        self.taking = CardTaking(desk, self)
        self.setProperty("surface", "card")
        self.setAccessibleName("The card")
        self._make()
        self._lay()
        self._connect()
        self.show_nothing()

    def _make(self) -> None:
        self.empty = Emptiness(self)
        self.page = QWidget(self)
        self.match = CardMatch(self)
        self.head = CardHead(self.page)
        self.view = Scroll(self.page, "What to know about the part")
        self.why = WhyHere(self.desk, self.view.body)
        self.way = CardWay(self.desk, self.view.body)
        self.before = Block(self.view.body)
        self.run_in = Block(self.view.body)
        self.joint = JointView(self.desk, self.view.body)
        self.cautions = CardCautions(self.view.body)
        self.torque_cautions = torque_cautions(self.view.body)
        self.facts = CardFacts(self.view.body)
        self.photos = CardPhotos(self.desk, self.view.body)
        self.signing = SignPanel(self.desk, "Fitted", self.page)
        self.shop = AskShop(self.page)
        self.acts = CardActs(self.page)

    def _lay(self) -> None:
        around = QVBoxLayout(self)
        around.setContentsMargins(20, 12, 20, 12)
        self._stack = QStackedLayout()
        around.addLayout(self._stack)
        for page in (self.empty, self.page, self.match):
            self._stack.addWidget(page)
        column = QVBoxLayout(self.page)
        tight(column, 10)
        column.addWidget(self.head)
        column.addWidget(self.view, 1)
        column.addWidget(self.signing, 1)
        column.addWidget(self.shop)
        column.addWidget(self.acts)
        self._beside = QBoxLayout(QBoxLayout.Direction.TopToBottom)
        self._beside.setSpacing(20)
        self._beside.addWidget(self.facts, 5)
        self._beside.addWidget(self.photos, 4)
        inside = self.view.column
        for widget in (self.why, self.before, self.run_in, self.way, self.cautions):
            inside.addWidget(widget)
        inside.addWidget(self.joint)
        inside.addWidget(self.torque_cautions)
        inside.addLayout(self._beside)
        inside.addStretch(1)
        self.view.viewport().installEventFilter(self)

    def _connect(self) -> None:
        acts = self.acts
        acts.fitted.clicked.connect(self.fit)
        acts.take_back.clicked.connect(self.take_back)
        acts.photo.clicked.connect(self.choose_photo_as_fitted)
        acts.tag.clicked.connect(self.print_tag)
        acts.correct.clicked.connect(self._correct)
        acts.in_strip.clicked.connect(self._show_in_strip)
        acts.send_away.clicked.connect(self._ask_shop)
        acts.came_back.clicked.connect(self.came_back)
        acts.twins.clicked.connect(self.print_twins)
        acts.why.clicked.connect(self._why_here)
        acts.later.clicked.connect(self._tighten_later)
        acts.asks.clicked.connect(self._ask_figures)
        acts.passes.clicked.connect(self._passes)
        acts.holes.clicked.connect(self._holes)
        acts.torque.clicked.connect(self._torque)
        self.joint.shown.connect(self._fit)
        self.joint.ticked.connect(self._show_joint)
        self.signing.shut.connect(self._signing_shut)
        self.shop.shut.connect(self.acts.setVisible)
        self.shop.answered.connect(self._send_away)
        self.photos.wanted.connect(self.choose_photo)
        self.photos.dropped.connect(self.add_photos)
        self.photos.looked_at.connect(self._look_at)
        self.way.photo.pressed.connect(self._look_at_photo)
        self.way.photo.dropped.connect(self._dropped_on_photo)
        self.match.closed.connect(self._close_match)
        self.desk.changed.connect(self._heard)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._fit()
        return super().eventFilter(watched, event)

    def _fit(self) -> None:
        """The picture takes what room there is; photos stand beside the facts where it is wide."""
        room = self.view.viewport().size()
        self.joint.be_small(room.height() < LOW_VIEW)
        told = self._high(self.run_in) + self._high(self.before)
        if self.joint.head_height:
            told += self._high(self.cautions) + self.joint.head_height
        self.way.fit(room.width(), room.height() - told)
        self.photos.off.setVisible(not self.way.shows_photo)
        wide = room.width() >= SIDE_BY_SIDE
        way = QBoxLayout.Direction
        self._beside.setDirection(way.LeftToRight if wide else way.TopToBottom)

    def _high(self, block: QWidget) -> int:
        """How high a block stands with the air below it; nothing while it is out of sight."""
        return block.sizeHint().height() + 12 if block.isVisibleTo(self.page) else 0

    def _show_joint(self) -> None:
        """Keep the pass now due in sight while it is gone over."""
        self.view.ensureVisible(0, self.joint.y() + self.joint.head_height, 0, 0)
        self.view.ensureVisible(0, self.joint.y(), 0, 0)

    # What is shown

    def show_nothing(self, sentence: str = "") -> None:
        self.removal_id, self.card = 0, None
        self.signing.set_aside(None)
        self.why.put_away()
        self.joint.show_nothing()
        self.empty.say(
            sentence or "No part is on the card.", "Scan a tag, or choose a part in the strip."
        )
        self._stack.setCurrentWidget(self.empty)
        self.shown.emit(0)

    def show_removal(self, removal_id: int) -> None:
        """Put a removal on the card."""
        if removal_id != self.removal_id:
            self.signing.set_aside(part(removal_id))
            self.why.put_away()
            self.shop.hide()
        self.removal_id = removal_id
        self.desk.ask(services.views.card, removal_id, then=self._show, failed=self._gone)

    def show_match(self, match: "Match") -> None:
        """Whether two twin tags belong together, over the whole card."""
        self.match.show_match(match)
        self._stack.setCurrentWidget(self.match)

    def _close_match(self) -> None:
        self._stack.setCurrentWidget(self.page if self.card else self.empty)

    def _show(self, card: "BenchCard") -> None:
        if card.removal.id != self.removal_id:
            return
        fresh = self.card is None or self.card.removal.id != card.removal.id
        self.card = card
        for shown in (self.head, self.way, self.cautions, self.facts, self.photos, self.acts):
            shown.show_card(card)
        self.torque_cautions.setVisible(has_torque(card.removal.held_by, card.removal.passes))
        self.before.say("Before it goes in", before_words(card))
        self.run_in.say("Run in by hand only", run_in_words(card))
        self.joint.show_step(part(card.removal.id), card.standing)
        if card.sign_off is not None:
            self.signing.set_aside(None)
        self._fit()
        if self._stack.currentWidget() is not self.match:
            self._stack.setCurrentWidget(self.page)
        if fresh:
            self.view.verticalScrollBar().setValue(0)
        self.shown.emit(card.removal.id)

    def _gone(self, error: Exception) -> None:
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
        else:
            self.show_nothing(error.sentence)

    def _heard(self, change: Change) -> None:
        if self.removal_id:
            self.show_removal(self.removal_id)

    # What can be done

    def fit(self) -> None:
        """Sign the part off as fitted; what is asked is asked in place."""
        if self.card is not None:
            self.signing.begin(part(self.removal_id))

    def _signing_shut(self, is_shut: bool) -> None:
        self.head.be_small(not is_shut and self.height() < LOW)
        self.view.setVisible(is_shut)
        self.acts.setVisible(is_shut)
        if is_shut:
            self.setFocus()  # Enter must not press what Qt would choose next

    def take_back(self) -> None:
        self.desk.act(services.signing.take_back, part(self.removal_id))

    def came_back(self) -> None:
        """What went with a send-out is looked at first, item by item; else it is back at once."""
        away = self.card.away if self.card is not None else None
        if away is not None and away.send_out_id is not None:
            self.desk.check_in.emit(away.send_out_id, self.removal_id)
        else:
            self.desk.act(services.fates.came_back, [self.removal_id])

    def _ask_shop(self) -> None:
        if self.card is not None:
            self.shop.open_with(f"Where does {self.card.removal.name} go?")

    def _send_away(self) -> None:
        try:
            answer = self.shop.answer()
        except Trouble as trouble:
            self.shop.say_wrong(trouble)
            return
        self.desk.act(
            services.fates.send_away,
            [self.removal_id],
            **answer,
            then=self._sent,
            failed=self._not_sent,
        )

    def _sent(self, _: Change) -> None:
        self.shop.hide()

    def _not_sent(self, error: Exception) -> None:
        if isinstance(error, Trouble):
            self.shop.say_wrong(error)
        else:
            self.desk.tell_error(error)

    def _correct(self) -> None:
        self.correct.emit(self.removal_id)

    def _show_in_strip(self) -> None:
        self.desk.show_removal.emit(self.removal_id)

    # The order

    def _why_here(self) -> None:
        self.why.show_step(part(self.removal_id))
        self.view.verticalScrollBar().setValue(0)

    def _tighten_later(self) -> None:
        from bagtag.ui.order.later_form import open_tighten_later

        open_tighten_later(self.desk, self, self.removal_id)

    def _ask_figures(self) -> None:
        from bagtag.ui.order.asks_form import open_asks

        open_asks(self.desk, self, self.removal_id)

    def _passes(self) -> None:
        from bagtag.ui.order.passes_form import open_passes

        open_passes(self.desk, self, self.removal_id)

    def _holes(self) -> None:
        from bagtag.ui.holes.hole_dialog import open_hole_map

        open_hole_map(self.desk, self, self.removal_id)

    def _torque(self) -> None:
        from bagtag.ui.torque.torque_dialog import open_torque

        open_torque(self.desk, self, self.removal_id)

    # Tags and photos

    def print_tag(self) -> None:
        self.tags.print_tag(self.removal_id)

    def print_twins(self) -> None:
        self.tags.print_twins(self.removal_id, self.card.tags if self.card else ())

    def choose_photo_as_fitted(self) -> None:
        self.choose_photo(PhotoRole.FITTED)

    def choose_photo(self, role: PhotoRole) -> None:
        self.taking.choose(self.removal_id, role)

    def add_photos(self, role: PhotoRole, paths: Sequence[Path]) -> None:
        """Take picture files in for the part on the card."""
        self.taking.add(self.removal_id, role, paths)

    def _dropped_on_photo(self, paths: list[Path]) -> None:
        self.add_photos(PhotoRole.OFF, paths)

    def _look_at_photo(self) -> None:
        self._look_at(self.way.photo.photos[0])

    def _look_at(self, photo: Photo) -> None:
        if self.card is not None:
            self.taking.show_large(self.card.photos, photo)
