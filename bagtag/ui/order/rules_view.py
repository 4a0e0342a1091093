"""The rules of a job, the newest first: in force or not, and dropped with one key."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import button, tight
from bagtag.ui.forms.scroll import Emptiness
from bagtag.ui.order.left_lines import RuleLine
from bagtag.ui.order.left_list import LeftList
from bagtag.ui.order.rules_delegate import ROW, RulesDelegate

if TYPE_CHECKING:
    from bagtag.services.rules import RuleRow


class RulesList(LeftList):
    """Choosing a rule shows the step that it holds, or that needs another."""

    drop = Signal(int)
    left = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__("Rules: your own word on the order", ROW, parent)
        self.setItemDelegate(RulesDelegate(self))

    @property
    def rule_id(self) -> int:
        """The rule that is chosen; 0 for none."""
        line = self.here
        return line.row.rule.id if isinstance(line, RuleLine) else 0

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Delete and self.rule_id:
            self.drop.emit(self.rule_id)
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)


class RulesView(QWidget):
    left = Signal()

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.empty = Emptiness(self)
        self.empty.say("No rules yet", "Move a step of the plan: that makes a rule.")
        self.list = RulesList(self)
        self.back = button("Back\u2002Esc", self, name="Back to the order")
        self.drop = Act("Drop", "", self)
        self.drop.setText("Drop this rule\u2002Del")
        self._lay()
        self.list.drop.connect(self._drop)
        self.list.left.connect(self.left)
        self.back.clicked.connect(self.left)
        self.drop.clicked.connect(self._drop_chosen)

    def _lay(self) -> None:
        column, row = QVBoxLayout(self), QHBoxLayout()
        tight(column, 8)
        tight(row, 8)
        for press in (self.drop, self.back):
            row.addWidget(press)
        row.addStretch(1)
        column.addWidget(self.empty, 1)
        column.addWidget(self.list, 1)
        column.addLayout(row)

    def show_rules(self, rows: Sequence[RuleRow]) -> None:
        had_keys = self.drop.hasFocus() or self.list.hasFocus()
        self.list.show_lines([RuleLine(row) for row in rows])
        self.list.setVisible(bool(rows))
        self.empty.setVisible(not rows)
        self.drop.offer(bool(rows))
        if had_keys:
            (self.list if rows else self.back).setFocus()

    def begin(self) -> None:
        """The keys go to the newest rule."""
        if self.list.lines.rowCount():
            self.list.setFocus()
            if self.list.currentIndex().row() < 0:
                self.list.go_to(0)
        else:
            self.back.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _drop_chosen(self) -> None:
        self._drop(self.list.rule_id)

    def _drop(self, rule_id: int) -> None:
        if rule_id:
            self.desk.act(services.rules.drop_rule, rule_id)
