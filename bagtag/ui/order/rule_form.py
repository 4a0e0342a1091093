"""The mechanic's own word on the order: fit first, hold until, goes in together."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.fitting import Ref, Rule, RuleKind
from bagtag.domain.tie_words import rule_words
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, Line, label
from bagtag.ui.order.add_dialog import BuildDialog
from bagtag.ui.order.pick_line import PickLine
from bagtag.ui.order.pick_rows import Rows, rows_of
from bagtag.ui.order.pick_several import PickSeveral


@dataclass(frozen=True, slots=True)
class RuleWords:
    """The title of a form, and what its two steps are in it."""

    title: str
    step: str
    other: str


WORDS = {
    RuleKind.FIRST: RuleWords("Fit first", "This step", "needs this one in already"),
    RuleKind.UNTIL: RuleWords("Hold until", "This step", "is held until this one is in"),
    RuleKind.TOGETHER: RuleWords("Goes in together", "This step", "goes in together with"),
}


def open_rule(desk: Desk, parent: QWidget | None, kind: RuleKind, ref: Ref | None) -> RuleDialog:
    """Open the form of a rule of this kind for a step."""
    dialog = RuleDialog(desk, parent, kind, ref)
    dialog.open()
    return dialog


class RuleDialog(BuildDialog):
    def __init__(self, desk: Desk, parent: QWidget | None, kind: RuleKind, ref: Ref | None) -> None:
        super().__init__(desk, WORDS[kind].title, parent, keep="Make the rule")
        self.kind = kind
        self._rows = Rows()
        self.other: PickLine | PickSeveral
        self._make(WORDS[kind])
        self.step.set_value(ref)
        self.desk.ask(rows_of, self.job_id, then=self._rows_known)
        self.fit(600)
        (self.step if ref is None else self.other).setFocus()

    def _make(self, words: RuleWords) -> None:
        self.said = label("", self.inner, scale="head")
        self.said.hide()
        self.step = PickLine(words.step, "step", self.inner, eager=True)
        if self.kind is RuleKind.TOGETHER:
            self.other = PickSeveral(words.other, self.inner)
            self.other.changed.connect(self._say)
        else:
            self.other = PickLine(words.other, "step", self.inner, eager=True)
            self.other.picked.connect(self._say)
        self.why = Line(self.inner, "Why (optional)", hint="it locates it")
        why = Field("Why (optional)", self.why, self.inner)
        self.fields = {"step": self.step.field, "members": self.other.field, "why": why}
        for part in (self.step, self.other, why, self.said):
            self.column.addWidget(part)
        self.column.addStretch(1)
        self.step.picked.connect(self._say)

    def _rows_known(self, rows: Rows) -> None:
        self._rows = rows
        self.other.near = self.step.value
        self.step.set_rows(rows.pick_steps())
        self.other.set_rows(rows.pick_steps())
        self._say()

    @property
    def members(self) -> tuple[Ref, ...]:
        """The steps of the rule as they are chosen, the one it is made for first."""
        others = self.other.values if isinstance(self.other, PickSeveral) else [self.other.value]
        return tuple(ref for ref in (self.step.value, *others) if ref is not None)

    def _say(self) -> None:
        """The rule in its words, as soon as it is one."""
        members = self.members
        if len(members) > 1:
            self.said.setText(rule_words(Rule(0, 0, self.kind, members), self._rows.called))
        self.said.setVisible(len(members) > 1)

    def save(self) -> None:
        if not (self.step.settle() and self.other.settle()):
            return
        if self.step.value is None:
            self.say_wrong("Choose the step that the rule is for.", "step")
        elif len(self.members) < 2:
            self.say_wrong("Choose the other step.", "members")
        else:
            add = services.rules.add_rule
            self.act(add, self.job_id, self.kind, self.members, why=self.why.text())
