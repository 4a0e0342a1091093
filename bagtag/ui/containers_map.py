"""Shelves, totes, trays and bags as they stand in one another."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDropEvent,
    QFontMetrics,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.codes import show
from bagtag.domain.standing import Standing
from bagtag.ui.card_parts import Scroll, keyless
from bagtag.ui.forms import Press, clear_layout, label
from bagtag.ui.forms_flow import Flow
from bagtag.ui.stage_list import ids_in
from bagtag.ui.theme import current

if TYPE_CHECKING:
    from bagtag.services.containers import ContainerRow
    from bagtag.services.views import StripRow

LEAF = QSize(208, 118)
"""The size of a container that nothing stands in, in pixels."""


@dataclass(frozen=True, slots=True)
class Whereabouts:
    """Every container of a job and every part still off, by id."""

    containers: "tuple[ContainerRow, ...]"
    parts: "Mapping[int, StripRow]"

    @property
    def on_the_bench(self) -> "list[StripRow]":
        loose = (row for row in self.parts.values() if row.removal.container_id is None)
        return [row for row in loose if row.standing is Standing.OFF]

    def inside(self, container_id: int) -> "list[StripRow]":
        """The parts that lie in this very container."""
        row = self.row(container_id)
        ids = row.removal_ids if row else ()
        return [self.parts[id_] for id_ in ids if id_ in self.parts]

    def row(self, container_id: int) -> "ContainerRow | None":
        return next((row for row in self.containers if row.container.id == container_id), None)

    def standing_in(self, container_id: int | None) -> "list[ContainerRow]":
        known = {row.container.id for row in self.containers}
        parents = {None: None} | {id_: id_ for id_ in known}
        return [
            row for row in self.containers if parents.get(row.container.parent_id) == container_id
        ]


def read(store: Any, job_id: int) -> Whereabouts:
    """Everything the containers page shows."""
    rows = services.containers.list_containers(store, job_id)
    ids = list(services.strip.log_ids(store, job_id))
    parts = services.views.strip_rows(store, job_id, ids)
    return Whereabouts(tuple(rows), {row.removal.id: row for row in parts})


class Head(Press):
    """A container's name; pressing it chooses the container."""

    def __init__(self, row: "ContainerRow", parent: QWidget) -> None:
        super().__init__(keyless(row.container.label), parent)
        self.setProperty("role", "quiet")
        self.setCheckable(True)
        self.setAccessibleName(f"{row.container.label}, tag {show(row.code)}")
        self.setStyleSheet("font-weight: bold; text-align: left; padding: 0 6px;")


class ContainerCard(QFrame):
    """One container: its name, its tag, what lies in it. Parts can be dropped on it."""

    pressed = Signal(int)
    dropped = Signal(int, list)

    def __init__(self, row: "ContainerRow", parts: "Sequence[StripRow]", parent: QWidget) -> None:
        super().__init__(parent)
        self.container_id = row.container.id
        self.setAcceptDrops(True)
        self.setProperty("surface", "card" if row.depth % 2 else "tape")
        self.head = Head(row, self)
        self.head.clicked.connect(self._press)
        self.code = label(show(row.code), self, scale="small", tone="muted")
        self.code.setWordWrap(False)
        self.contents = contents(parts)
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(8, 4, 10, 10)
        self.column.setSpacing(4)
        top = QHBoxLayout()
        top.addWidget(self.head)
        top.addStretch(1)
        top.addWidget(self.code)
        self.column.addLayout(top)

    def choose(self, chosen: bool) -> None:
        self.head.setChecked(chosen)
        self.setProperty("chosen", chosen)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.head.isChecked():
            painter = QPainter(self)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(current().accent, 3))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1.5, 1.5, -1.5, -1.5), 6, 6)
            painter.end()

    def _press(self) -> None:
        self.pressed.emit(self.container_id)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if ids_in(event.mimeData()):
            event.acceptProposedAction()
            self.head.setChecked(True)
            self.update()

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        super().dragLeaveEvent(event)
        self.choose(bool(self.property("chosen")))

    def dropEvent(self, event: QDropEvent) -> None:
        ids = ids_in(event.mimeData())
        self.choose(bool(self.property("chosen")))
        if ids:
            event.acceptProposedAction()
            self.dropped.emit(self.container_id, ids)


class Leaf(ContainerCard):
    """A container that nothing stands in: a small card of fixed size."""

    def __init__(self, row: "ContainerRow", parts: "Sequence[StripRow]", parent: QWidget) -> None:
        super().__init__(row, parts, parent)
        self.setFixedSize(LEAF)
        said = label("", self, scale="small", tone="ink" if parts else "muted")
        said.setText(cut(self.contents, said.fontMetrics(), LEAF.width() - 28))
        said.setAlignment(Qt.AlignmentFlag.AlignTop)
        said.setContentsMargins(6, 0, 0, 0)
        said.setToolTip(self.contents)
        self.column.addWidget(said, 1)


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
        parts = where.inside(row.container.id)
        super().__init__(row, parts, parent)
        cards.append(self)
        if parts:
            said = label(self.contents, self, scale="small")
            said.setContentsMargins(6, 0, 0, 0)
            self.column.addWidget(said)
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


def contents(parts: "Sequence[StripRow]") -> str:
    """`5 shift fork L, 6 shift fork R`"""
    if not parts:
        return "empty"
    return ", ".join(f"{row.removal.number} {row.removal.name}" for row in parts)


def cut(text: str, metrics: QFontMetrics, width: int) -> str:
    """What there is room for in three lines."""
    room = round(width * 2.6)
    return metrics.elidedText(text, Qt.TextElideMode.ElideRight, room)


class ContainersMap(Scroll):
    """All containers of a job, one in another."""

    pressed = Signal(int)
    dropped = Signal(int, list)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, "Containers, one in another")
        self.cards: dict[int, ContainerCard] = {}

    def show_all(self, where: Whereabouts, chosen: int) -> None:
        focused = next((id_ for id_, card in self.cards.items() if card.head.hasFocus()), 0)
        clear_layout(self.column)
        made: list[ContainerCard] = []
        fill(self.column, where.standing_in(None), where, self.body, made)
        self.column.addStretch(1)
        self.cards = {card.container_id: card for card in made}
        for card in made:
            card.pressed.connect(self.pressed)
            card.dropped.connect(self.dropped)
        self.choose(chosen)
        if focused in self.cards:
            self.cards[focused].head.setFocus()

    def choose(self, container_id: int) -> None:
        for id_, card in self.cards.items():
            card.choose(id_ == container_id)
        if container_id in self.cards:
            self.ensureWidgetVisible(self.cards[container_id])
