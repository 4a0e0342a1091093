"""Why here: what holds the chosen step back, what forced it forward, which rules name it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QSize, QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.errors import Trouble
from bagtag.domain.phrases import capital
from bagtag.ui.card.why_here import as_it_stands
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import clear_layout, label, tight
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.order.order_newest import Newest
from bagtag.ui.order.rules_row import RuleSlip

if TYPE_CHECKING:
    from bagtag.services.board import Reasons, Step

MOST = 6
"""How many reasons of a kind are said; the rest are counted."""
SHARE = 0.4
"""How much of the height it takes at most; beyond that it scrolls."""
BAR = 14
HINT = "Alt+Up, Alt+Down move it"


class ReasonsPanel(QFrame):
    """A quiet strip; empty while no step is chosen."""

    def __init__(self, desk: Desk, page: QWidget) -> None:
        super().__init__(page)
        self.desk, self._page = desk, page
        self.slips: list[RuleSlip] = []
        self._said: tuple[str, ...] = ()
        self._step: Step | None = None
        self.head = label("", self, scale="small", tone="muted")
        self.view = Scroll(self, "Why the step stands here")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self._later = QTimer(self)  # the area it scrolls in keeps to itself what it needs
        self._later.setSingleShot(True)
        self._later.setInterval(0)
        self._later.timeout.connect(self.updateGeometry)
        self.view.body.installEventFilter(self)
        self.newest = Newest(desk, self)
        self.newest.answered.connect(self._show)
        self.newest.failed.connect(self._failed)
        self.hint = label(HINT, self, scale="small", tone="muted")
        self.hint.setWordWrap(False)
        column, top = QVBoxLayout(self), QHBoxLayout()
        tight(column, 4)
        tight(top, 8)
        top.addWidget(self.head, 1)
        top.addWidget(self.hint)
        column.addLayout(top)
        column.addWidget(self.view, 1)
        tight(self.view.column, 6)

    def show_step(self, step: Step | None) -> None:
        """Ask why a step stands where it does."""
        self._step = step
        if step is None:
            self.newest.forget()
            self._clear()
            return
        read = partial(services.board.reasons, who=self.desk.who)
        self.newest.ask(read, self.desk.job_id, step.ref)

    def sentences(self) -> list[str]:
        """What is said now, but for the rules."""
        return list(self._said)

    def _clear(self) -> None:
        self.head.setText("")
        self.hint.hide()
        self.slips, self._said = [], ()
        clear_layout(self.view.column)

    def _failed(self, error: Exception) -> None:
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
        self._clear()

    def _show(self, found: Reasons) -> None:
        self._clear()
        if self._step is None:
            return
        self.head.setText(f"Why here: {self._step.called}")
        self.hint.setVisible(self._step.sign_off is None)
        said = [*_first(found.held), *_first(found.forced)]
        self._said = tuple(f"{capital(sentence)}." for sentence in said) or (
            as_it_stands(self._step.ref),
        )
        for sentence in self._said:
            self._add(label(sentence, self.view.body))
        for row in found.rules[:MOST]:
            self._add_rule(row.rule.id, row.words, row.in_force)
        self.view.column.addStretch(1)
        self.view.verticalScrollBar().setValue(0)

    def sizeHint(self) -> QSize:
        """As high as what it says, up to its share of what it stands in."""
        inside = self.view.column.heightForWidth(self.width() - BAR)
        most = int(self._page.height() * SHARE)
        return QSize(200, min(inside + self.head.sizeHint().height() + 8, most))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self._later.start()
        return super().eventFilter(watched, event)

    def hasHeightForWidth(self) -> bool:
        return False

    def minimumSizeHint(self) -> QSize:
        return QSize(120, 24)

    def _add_rule(self, rule_id: int, words: str, in_force: bool) -> None:
        slip = RuleSlip(rule_id, words, self.view.body, in_force=in_force)
        slip.dropped.connect(self.drop)
        self.slips.append(slip)
        self._add(slip)

    def _add(self, widget: QWidget) -> None:
        self.view.column.addWidget(widget)
        widget.show()

    def drop(self, rule_id: int) -> None:
        self.desk.act(services.rules.drop_rule, rule_id)


def _first(sentences: tuple[str, ...]) -> list[str]:
    more = len(sentences) - MOST
    return [*sentences[:MOST], *([f"and {more} more"] if more > 0 else [])]
