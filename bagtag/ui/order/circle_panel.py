"""Rules that cannot all hold: said in one sentence, with the way out beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, Qt, QTimer
from PySide6.QtGui import QFontMetrics, QPainter, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.errors import BadInput
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import TOUCH, Press, button, clear_layout, label, tight
from bagtag.ui.forms.inks import inks, sized
from bagtag.ui.forms.plain import Plain
from bagtag.ui.forms.scroll import Scroll

if TYPE_CHECKING:
    from bagtag.services.board import NoOrder

HEAD = "Not every rule can hold"
BELOW = "Until one is dropped, the newest is left out and the plan stays as it was."
SHARE, LOW = 0.55, 400
"""How much of the column it may take, less of a low one; beyond that it scrolls."""

_SIZE = 15


class DropRule(Plain):
    """A button with the rule's own words."""

    def __init__(self, rule_id: int, words: str, parent: QWidget) -> None:
        super().__init__(f"Drop: {words}", parent)
        self.rule_id = rule_id
        self.setToolTip(words)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Two lines high where one is too short."""
        super().resizeEvent(event)
        wide = QFontMetrics(sized(self, _SIZE)).horizontalAdvance(self.text())
        self.setFixedHeight(TOUCH if wide < self._room().width() else TOUCH + 14)

    def _room(self) -> QRect:
        return self.rect().adjusted(self.pad, 3, -self.pad, -3)

    def paint_text(self, painter: QPainter) -> None:
        painter.setPen(inks().ink)
        painter.setFont(sized(self, _SIZE))
        dots, two = Qt.TextElideMode.ElideRight, 1.85 * self._room().width()
        text = painter.fontMetrics().elidedText(self.text(), dots, int(two))
        flags = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(self._room(), int(flags), text)


class CirclePanel(QFrame):
    """Hidden while every rule holds."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk, self._column = desk, parent
        self.drops: list[DropRule] = []
        self.setProperty("surface", "field")
        self.setProperty("lit", "true")
        self.setAccessibleName(HEAD)
        self._shown: NoOrder | None = None
        self.later = QTimer(self)
        self.later.setSingleShot(True)
        self.later.setInterval(0)
        self.later.timeout.connect(self.fit)
        self.view = Scroll(self, HEAD)
        around = QVBoxLayout(self)
        around.setContentsMargins(14, 10, 10, 10)
        around.addWidget(self.view)
        body = self.view.body
        self.sentence = label("", body)
        self._rules = QVBoxLayout()
        tight(self._rules, 6)
        self.undo: Press = button("Undo\u2002Ctrl+Z", body, name="Undo the last act")
        self.undo.clicked.connect(self._undo)
        column = self.view.column
        tight(column, 8)
        top = QHBoxLayout()
        top.addWidget(label(HEAD, body, scale="head", tone="accent"), 1)
        top.addWidget(self.undo)
        column.addLayout(top)
        column.addWidget(self.sentence)
        column.addLayout(self._rules)
        column.addWidget(label(BELOW, body, scale="small", tone="muted"))
        self.hide()

    def show_no_order(self, found: NoOrder | None) -> None:
        """What is in the way of an order that keeps every rule; None where nothing is."""
        if found == self._shown:
            return
        self._shown = found
        self.setVisible(found is not None)
        self.drops = []
        clear_layout(self._rules)
        if found is None:
            return
        self.sentence.setText(found.sentence)
        self.setAccessibleDescription(found.sentence)
        for rule_id, words in found.rules:
            self._add(rule_id, words)
        self.view.verticalScrollBar().setValue(0)
        self.later.start()

    def _add(self, rule_id: int, words: str) -> None:
        press = DropRule(rule_id, words, self.view.body)
        press.clicked.connect(self._drop)
        self.drops.append(press)
        self._rules.addWidget(press)
        press.show()

    def fit(self) -> None:
        """As high as it needs to be, and no more than its share of the column it stands in."""
        needed = self.view.column.heightForWidth(self.view.viewport().width()) + 24
        room = self._column.height()
        share = SHARE if room > LOW else 0.8 * SHARE
        high = min(max(needed, 80), max(int(room * share), 120))
        if high != self.height():
            self.setFixedHeight(high)
            self.later.start()  # what is in it has its measures only a moment later

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.later.start()

    def _drop(self) -> None:
        press = self.sender()
        if isinstance(press, DropRule):
            self.desk.act(services.rules.drop_rule, press.rule_id)

    def _undo(self) -> None:
        self.desk.act(services.history.undo, self.desk.job_id, failed=self._not_undone)

    def _not_undone(self, error: Exception) -> None:
        if isinstance(error, BadInput):
            self.desk.say(error.sentence)
        else:
            self.desk.tell_error(error)
