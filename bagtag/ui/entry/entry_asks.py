"""What the card asks of a part as its kind is recognised, and what it says of the kind."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.asking import Answer, none_of
from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import Kinds, PartKind
from bagtag.domain.which_way import Fact
from bagtag.ui.entry.ask_panel import Asked, AskPanel
from bagtag.ui.entry.ask_round import AskRound
from bagtag.ui.entry.kind_line import KindLine
from bagtag.ui.forms.basics import button, label, tight


class EntryAsks(QWidget):
    """The panel with its question, the kind below it, and what was skipped.

    It is told the name, the facts and the side, and tells what becomes of the facts.
    """

    facts_changed = Signal(object)
    """The facts with an answer more, or with one taken back."""
    changed = Signal()
    """A person chose a kind or skipped a question."""
    kind_changed = Signal(object)
    """The `PartKind` that the part is now, or None."""
    finished = Signal()
    """The last open question has been answered or skipped."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.kind: PartKind | None = None
        self.chosen_kind = ""
        self.round = AskRound()
        self._kinds: Kinds | None = None
        self._name = ""
        self._side: Side | None = None
        self._facts: tuple[Fact, ...] = ()
        self._datum = Datum()
        self._again = False
        self.panel = AskPanel(self)
        self.line = KindLine(self)
        self._left = QWidget(self)
        self.left_words = label("", self._left, tone="muted")
        self.again = button("Ask again", self._left, role="quiet")
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        row = QHBoxLayout(self._left)
        tight(row, 8)
        row.addWidget(self.left_words, 1)
        row.addWidget(self.again)
        column = QVBoxLayout(self)
        tight(column, 4)
        for part in (self.panel, self._left, self.line):
            column.addWidget(part)
        self._left.hide()

    def _connect(self) -> None:
        self.panel.answered.connect(self._answered)
        self.panel.skipped.connect(self._skipped)
        self.panel.back_wanted.connect(self.back)
        self.line.chosen.connect(self._kind_chosen)
        self.again.clicked.connect(self.ask_again)

    # what it is told

    def begin(self, *, correcting: bool) -> None:
        """Another part is taken up; a correction asks again what was skipped before."""
        self._again = correcting
        self.round.begin(self.round.unanswered, again=correcting)
        self.refresh()

    @property
    def unanswered(self) -> tuple[str, ...]:
        return self.round.unanswered

    def set_unanswered(self, ids: Sequence[str]) -> None:
        self.round.begin(ids, again=self._again)
        self.refresh()

    def set_kinds(self, kinds: Kinds, datum: Datum) -> None:
        self._kinds, self._datum = kinds, datum
        self.line.set_kinds(kinds)
        self.refresh()

    def set_chosen_kind(self, name: str) -> None:
        self.chosen_kind = name
        self.refresh()

    def set_name(self, name: str) -> None:
        self._name = name
        self.refresh()

    def set_part(self, facts: tuple[Fact, ...], side: Side | None) -> None:
        self._facts, self._side = facts, side
        self.refresh()

    # what it says

    @property
    def is_asking(self) -> bool:
        return self.panel.asked is not None

    @property
    def knows_kinds(self) -> bool:
        return self._kinds is not None

    @property
    def can_go_back(self) -> bool:
        return self.round.can_go_back

    def back(self) -> None:
        """To the question before, its answer taken back."""
        if self.round.can_go_back:
            self._put(self.round.back(self._facts))
            self.panel.setFocus(Qt.FocusReason.OtherFocusReason)

    def ask_again(self) -> None:
        self.round.ask_again()
        self.refresh()
        self.panel.setFocus(Qt.FocusReason.OtherFocusReason)

    def refresh(self) -> None:
        """The kind, the question and the rest as they follow from what is known."""
        kinds = self._kinds or Kinds()
        was, self.kind = self.kind, kinds.of(self._name, self.chosen_kind)
        self.line.show_kind(self.kind, self._name, self.chosen_kind)
        self._show_question()
        self._show_left()
        if was != self.kind:
            self.kind_changed.emit(self.kind)

    def _show_question(self) -> None:
        open_now = self.round.open(self.kind, self._facts)
        if self.kind is None or not open_now:
            self.panel.ask_nothing()
            return
        total = self.round.place - 1 + len(open_now)
        self.panel.ask(
            Asked(open_now[0], self.kind, self.round.place, total, self._datum, self._side,
                  self.round.can_go_back)
        )  # fmt: skip

    def _show_left(self) -> None:
        passed = self.round.passed(self.kind, self._facts)
        names = ", ".join(none_of(question) for question in passed)
        self.left_words.setText(f"Not answered: {names}")
        self._left.setVisible(bool(passed) and not self.is_asking)

    # what the person does

    def _answered(self, answer: Answer) -> None:
        asked = self.panel.asked
        if asked is not None:
            self._put(self.round.answer(asked.question, answer, self._facts))

    def _skipped(self) -> None:
        asked = self.panel.asked
        if asked is not None:
            self.round.skip(asked.question, self._facts)
            self._put(self._facts)

    def _put(self, facts: tuple[Fact, ...]) -> None:
        self.facts_changed.emit(facts)
        self.changed.emit()
        self.refresh()
        if not self.is_asking:
            self.finished.emit()

    def _kind_chosen(self, name: str) -> None:
        self.set_chosen_kind(name)
        self.changed.emit()
        if self.is_asking:
            self.panel.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.line.other.setFocus(Qt.FocusReason.OtherFocusReason)
