"""One container as a card: its name, its tag, what lies in it."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDropEvent,
    QFontMetrics,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.codes import show
from bagtag.domain.standing import Standing
from bagtag.ui.forms.acts import keyless
from bagtag.ui.forms.basics import Press, label
from bagtag.ui.stages.stage_list import ids_in
from bagtag.ui.theme import current, mark

if TYPE_CHECKING:
    from bagtag.services.containers import ContainerRow
    from bagtag.services.views import StripRow

LEAF = QSize(208, 118)
"""The size of a container that nothing stands in, in pixels."""


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
        self.contents = ""
        self.said = label("", self, scale="small")
        self.said.setContentsMargins(6, 0, 0, 0)
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(8, 4, 10, 10)
        self.column.setSpacing(4)
        top = QHBoxLayout()
        top.addWidget(self.head)
        top.addStretch(1)
        top.addWidget(self.code)
        self.column.addLayout(top)
        self.column.addWidget(self.said)
        self.show_contents(parts)

    def show_contents(self, parts: "Sequence[StripRow]") -> None:
        """What lies in it now."""
        said = contents(parts)
        if said != self.contents:
            self.contents = said
            self.said.setToolTip(said)
            self.say(said, is_empty=not parts)

    def say(self, said: str, *, is_empty: bool) -> None:
        """A container with others in it says nothing when no part lies beside them."""
        self.said.setText(said)
        self.said.setHidden(is_empty)

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
        self.said.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.column.setStretchFactor(self.said, 1)

    def say(self, said: str, *, is_empty: bool) -> None:
        mark(self.said, tone="muted" if is_empty else "ink")
        self.said.setText(cut(said, self.said.fontMetrics(), LEAF.width() - 28))


def contents(parts: "Sequence[StripRow]") -> str:
    """`5 shift fork L, 6 shift fork R`"""
    if not parts:
        return "empty"
    return ", ".join(map(_called, parts))


def _called(row: "StripRow") -> str:
    """What is away keeps its place here, and says that it is not in it."""
    away = " (away)" if row.standing is Standing.AWAY else ""
    return f"{row.removal.number} {row.removal.name}{away}"


def cut(text: str, metrics: QFontMetrics, width: int) -> str:
    """What there is room for in three lines."""
    room = round(width * 2.6)
    return metrics.elidedText(text, Qt.TextElideMode.ElideRight, room)
