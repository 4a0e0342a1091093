"""Shelves, totes, trays and bags as they stand in one another."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from bagtag.ui.containers.containers_card import ContainerCard, Leaf
from bagtag.ui.containers.containers_where import Whereabouts
from bagtag.ui.forms.basics import clear_layout
from bagtag.ui.forms.flow import Flow
from bagtag.ui.forms.scroll import Scroll

if TYPE_CHECKING:
    from bagtag.domain.model import Container
    from bagtag.services.containers import ContainerRow

AIR = 8


class Block(ContainerCard):
    """A container with others in it: as wide as the page, its bags side by side."""

    def __init__(
        self,
        row: "ContainerRow",
        where: Whereabouts,
        parent: QWidget,
        *,
        cards: list[ContainerCard],
    ) -> None:
        super().__init__(row, where.inside(row.container.id), parent)
        cards.append(self)
        fill(self.column, where.standing_in(row.container.id), where, self, cards)


def fill(
    column: QVBoxLayout,
    rows: "Sequence[ContainerRow]",
    where: Whereabouts,
    parent: QWidget,
    cards: list[ContainerCard],
) -> None:
    """Blocks one below the other, then the rest side by side."""
    leaves = [row for row in rows if not where.standing_in(row.container.id)]
    for row in rows:
        if row not in leaves:
            column.addWidget(Block(row, where, parent, cards=cards))
    if leaves:
        side_by_side = Side(parent)
        column.addWidget(side_by_side)
        for row in leaves:
            leaf = Leaf(row, where.inside(row.container.id), side_by_side)
            side_by_side.flow.addWidget(leaf)
            cards.append(leaf)


class Side(QWidget):
    """Cards side by side, line after line."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.flow = Flow(self, 10)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.setMinimumHeight(self.flow.heightForWidth(self.width()))


class ContainersMap(Scroll):
    """All containers of a job, one in another."""

    pressed = Signal(int)
    dropped = Signal(int, list)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, "Containers, one in another")
        self.cards: dict[int, ContainerCard] = {}
        self._frame: list[tuple[Container, str]] = []

    def show_all(self, where: Whereabouts, chosen: int) -> None:
        """Show every container; what still stands where it did only says what lies in it now."""
        if where.frame != self._frame:
            self._frame = where.frame
            self._build(where)
        for id_, card in self.cards.items():
            card.show_contents(where.inside(id_))
        self.choose(chosen)

    def _build(self, where: Whereabouts) -> None:
        focused = next((id_ for id_, card in self.cards.items() if card.head.hasFocus()), 0)
        clear_layout(self.column)
        made: list[ContainerCard] = []
        fill(self.column, where.standing_in(None), where, self.body, made)
        self.column.addStretch(1)
        self.cards = {card.container_id: card for card in made}
        for card in made:
            card.pressed.connect(self.pressed)
            card.dropped.connect(self.dropped)
        if focused in self.cards:
            self.cards[focused].head.setFocus()

    def choose(self, container_id: int) -> None:
        for id_, card in self.cards.items():
            card.choose(id_ == container_id)
        if container_id in self.cards:
            for widget in (self.cards[container_id], self.cards[container_id].head):
                self.ensureWidgetVisible(widget, AIR, AIR)  # its name above all
