"""Away: what is at an outside shop, since when and until when; sending and checking back in."""

from datetime import date
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import part
from bagtag.domain.model import Away, Origin, Removal
from bagtag.domain.standing import Standing
from bagtag.ui.card.card_asks import AskShop
from bagtag.ui.card.card_parts import Act, Emptiness, Scroll
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import button, clear_layout, label, tight
from bagtag.ui.stage import Stage
from bagtag.ui.stages.stage_list import PartList

if TYPE_CHECKING:
    from bagtag.services.views import StripRow


class AwayCard(QFrame):
    """One part that is out."""

    is_back = Signal(int)
    shown = Signal(int)
    stripped = Signal(int)
    """The shop took something off it that was never logged here."""

    def __init__(self, removal: Removal, away: Away, parent: QWidget) -> None:
        super().__init__(parent)
        self.removal_id = removal.id
        self.setProperty("surface", "tape")
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 10, 14, 10)
        words = QVBoxLayout()
        tight(words, 2)
        row.addLayout(words, 1)
        words.addWidget(label(f"{removal.number}  {removal.name}", self, scale="head"))
        work = f": {away.work}" if away.work else ""
        words.addWidget(label(f"at {away.shop}{work}", self))
        late = is_late(away, date.today())
        tone = "accent" if late else "muted"
        words.addWidget(label(since(away, date.today()), self, scale="small", tone=tone))
        back = button("It is back", self, name=f"{removal.name} is back")
        back.clicked.connect(self._back)
        show = button("Show", self, role="quiet", name=f"Show {removal.name}")
        show.clicked.connect(self._show)
        took = button("The shop took a part off", self, role="quiet")
        took.setAccessibleName(f"The shop took a part off {removal.name}")
        took.clicked.connect(self._took)
        for press in (show, took, back):
            row.addWidget(press)

    def _took(self) -> None:
        self.stripped.emit(self.removal_id)

    def _back(self) -> None:
        self.is_back.emit(self.removal_id)

    def _show(self) -> None:
        self.shown.emit(self.removal_id)


def is_late(away: Away, today: date) -> bool:
    return away.due is not None and away.due < today


def since(away: Away, today: date) -> str:
    """`since 3 May, due 12 May, 4 days late`"""
    sent = away.sent_at.astimezone()
    said = f"since {sent.day} {sent:%B}"
    if away.due is None:
        return f"{said}, no day set"
    said = f"{said}, due {away.due.day} {away.due:%B}"
    days = (today - away.due).days
    return f"{said}, {days} day{'s' * (days != 1)} late" if days > 0 else said


class AwayStage(Stage):
    title = "Away"

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.cards: list[AwayCard] = []
        self.head = label("", self, scale="head")
        self.send = Act("Send parts away", "Ctrl+N", self, role="primary")
        self.empty = Emptiness(self)
        self.view = Scroll(self, "Parts that are away")
        self.choosing = QFrame(self)
        self.parts = PartList("Parts to send away", self.choosing)
        self.ask = AskShop(self.choosing)
        self._lay()
        self.choosing.hide()
        self.send.clicked.connect(self.begin)
        self.ask.answered.connect(self.send_away)
        self.ask.shut.connect(self._stop)

    def _lay(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.head, 1)
        top.addWidget(self.send)
        inside = QVBoxLayout(self.choosing)
        tight(inside, 12)
        inside.addWidget(label("Which parts go? Arrows and Space choose.", self.choosing))
        inside.addWidget(self.parts, 1)
        inside.addWidget(self.ask)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addLayout(top)
        column.addWidget(self.empty)
        column.addWidget(self.view, 1)
        column.addWidget(self.choosing, 1)

    def enter(self) -> None:
        if self.desk.job_id:
            self.desk.ask(services.fates.away_list, self.desk.job_id, then=self._show)

    def _show(self, out: list[tuple[Removal, Away]]) -> None:
        clear_layout(self.view.column)
        self.cards = [AwayCard(removal, away, self.view.body) for removal, away in out]
        for card in self.cards:
            card.is_back.connect(self.came_back)
            card.shown.connect(self.desk.show_removal)
            card.stripped.connect(self.log_of_shop)
            self.view.column.addWidget(card)
        self.view.column.addStretch(1)
        late = sum(is_late(away, date.today()) for _, away in out)
        said = f"{len(out)} part{'s' * (len(out) != 1)} away" if out else "Nothing is away"
        self.head.setText(f"{said}, {late} late" if late else said)
        self.empty.say("", "Send castings and shafts out from here; what waits for them says so.")
        self._arrange()

    def _arrange(self) -> None:
        choosing = self.ask.isVisibleTo(self)
        self.empty.setVisible(not self.cards and not choosing)
        self.view.setVisible(bool(self.cards) and not choosing)
        self.send.setVisible(not choosing)

    def begin(self) -> None:
        """Choose parts and a shop."""
        self.choosing.show()
        self.ask.open_with("Where do they go?")
        self._arrange()
        self.desk.ask(parts_here, self.desk.job_id, then=self._parts)

    def _parts(self, rows: "list[StripRow]") -> None:
        self.parts.show_rows(rows)
        self.parts.setFocus()

    def _stop(self, is_shut: bool) -> None:
        if is_shut:
            self.choosing.hide()
            self._arrange()

    def send_away(self) -> None:
        try:
            answer = self.ask.answer()
        except Trouble as trouble:
            self.ask.say_wrong(trouble)
            return
        self.desk.act(
            services.fates.send_away,
            self.parts.chosen(),
            **answer,
            then=self._sent,
            failed=self._not_sent,
        )

    def _sent(self, _: Change) -> None:
        self.ask.hide()

    def _not_sent(self, error: Exception) -> None:
        if isinstance(error, Trouble):
            self.ask.say_wrong(error)
        else:
            self.desk.tell_error(error)

    def log_of_shop(self, removal_id: int) -> None:
        """Log what the shop took off a casting, so that it goes back in."""
        from bagtag.ui.order.add_part import open_part

        open_part(self.desk, self, Origin.SHOP, part(removal_id))

    def came_back(self, removal_id: int) -> None:
        self.desk.act(services.fates.came_back, [removal_id])


def parts_here(store: Any, job_id: int) -> "list[StripRow]":
    """The parts of a job that could go: neither away nor fitted nor scrapped, the newest first."""
    ids = list(services.strip.log_ids(store, job_id))
    rows = services.views.strip_rows(store, job_id, ids)
    return [row for row in reversed(rows) if row.standing is Standing.OFF]
