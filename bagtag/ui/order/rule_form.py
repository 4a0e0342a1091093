"""The mechanic's own word on the order: fit first, hold until, goes in together."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.fitting import Ref, Rule, RuleKind
from bagtag.domain.tie_words import rule_words
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, Line
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.forms.pick_several import PickSeveral
from bagtag.ui.order.add_outcome import Outcome
from bagtag.ui.order.pick_rows import Rows, rows_of
from bagtag.ui.theme import mark


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
MAKE, ANYWAY = "Make the rule", "Make it all the same"


def open_rule(desk: Desk, parent: QWidget | None, kind: RuleKind, ref: Ref | None) -> RuleDialog:
    """Open the form of a rule of this kind for a step."""
    dialog = RuleDialog(desk, parent, kind, ref)
    dialog.open()
    return dialog


class RuleDialog(FormDialog):
    def __init__(self, desk: Desk, parent: QWidget | None, kind: RuleKind, ref: Ref | None) -> None:
        super().__init__(desk, WORDS[kind].title, parent, keep=MAKE)
        self.kind = kind
        self._rows = Rows()
        self._wants_to_save = self._is_warned = False
        self.other: PickLine | PickSeveral
        self._make(WORDS[kind])
        self.step.set_value(ref)
        self.desk.ask(rows_of, self.job_id, then=self._rows_known)
        self.fit(600)
        (self.step if ref is None else self.other).setFocus()

    def _make(self, words: RuleWords) -> None:
        self.step = PickLine(words.step, "step", self.inner, eager=True)
        if self.kind is RuleKind.TOGETHER:
            self.other = PickSeveral(words.other, self.inner)
            self.other.changed.connect(self._say)
        else:
            self.other = PickLine(words.other, "step", self.inner, eager=True)
            self.other.picked.connect(self._say)
        self.why = Line(self.inner, "Why (optional)", hint="it locates it")
        self.outcome = Outcome(self.desk, self.inner)
        why = Field("Why (optional)", self.why, self.inner)
        self.fields = {"step": self.step.field, "members": self.other.field, "why": why}
        for part in (self.step, self.other, why, self.outcome):
            self.column.addWidget(part)
        self.column.addStretch(1)
        self.step.picked.connect(self._say)
        self.outcome.known.connect(self._outcome_known)

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
        """The rule in its words as soon as it is one, and what it would do to the plan."""
        self._warn(False)
        self._wants_to_save = False
        members = self.members
        if len(set(members)) < 2:
            self.outcome.forget()
            return
        words = rule_words(Rule(0, 0, self.kind, members), self._rows.called)
        is_tie = self.kind is not RuleKind.TOGETHER
        is_so = is_tie and self._rows.is_before(members[1], members[0])
        self.outcome.show_rule(words, is_so=is_so)
        if is_tie and not is_so:
            self.outcome.look(self.kind, members[0], members[1])

    def _outcome_known(self) -> None:
        if self._wants_to_save:
            self._wants_to_save = False
            self.save()

    def save(self) -> None:
        """Make the rule; one that breaks others only when it is wanted all the same."""
        if not (self.step.settle() and self.other.settle()):
            return
        if self.step.value is None:
            self.say_wrong("Choose the step that the rule is for.", "step")
        elif len(self.members) < 2:
            self.say_wrong("Choose the other step.", "members")
        elif self.outcome.is_waiting:
            self._wants_to_save = True
        elif self.outcome.has_breaks and not self._is_warned:
            self._warn(True)
        else:
            add = services.rules.add_rule
            self.act(add, self.job_id, self.kind, self.members, why=self.why.text())

    def _warn(self, is_warned: bool) -> None:
        """It breaks others: the safe choice has the keys."""
        self._is_warned = is_warned
        self.keep.setText(ANYWAY if is_warned else f"{MAKE}\u2002Enter")
        self.keep.setAccessibleName(ANYWAY if is_warned else MAKE)
        mark(self.keep, role="plain" if is_warned else "primary")
        mark(self.leave, role="primary" if is_warned else "quiet")
        if is_warned:
            self.leave.setFocus()
