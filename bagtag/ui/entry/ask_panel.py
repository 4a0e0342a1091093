"""One question at a time, in large type, answered with one key."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtGui import QFocusEvent, QFontMetrics, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.asking import Answer, answers
from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import PartKind, Question
from bagtag.domain.phrases import capital
from bagtag.ui.entry.ask_choices import AskChoices, Block, block_for
from bagtag.ui.forms.ask_keys import AskKeys
from bagtag.ui.forms.basics import ENTER, button, label, tight
from bagtag.ui.theme import mark

_STEPS = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0),
          Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1)}  # fmt: skip
_SKIP = ("s", " ")
EDGES = 24
"""What the margins and the edge take of the width, in pixels."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question as it stands on the panel: which of how many, for a part of what kind."""

    question: Question
    kind: PartKind
    place: int
    total: int
    datum: Datum
    side: Side | None = None
    can_go_back: bool = False


class AskPanel(QFrame):
    """One stop for Tab. Keys in a burst come from a scanner and answer nothing."""

    answered = Signal(object)
    """The `Answer`."""
    skipped = Signal()
    back_wanted = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.asked: Asked | None = None
        self.setProperty("surface", "field")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName("Question")
        self.caption = label("", self, scale="small", tone="muted")
        self.question = label("", self, scale="head")
        self.question.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.choices = AskChoices(self)
        self.skip = button("Skip  S", self, role="quiet", name="Skip this question")
        self.back = button(
            "Back  Backspace", self, role="quiet", name="Back to the question before"
        )
        self.keys = AskKeys(self)
        self._lay_out()
        self._connect()
        self.hide()

    def _lay_out(self) -> None:
        acts = QHBoxLayout()
        tight(acts, 4)
        acts.addWidget(self.skip)
        acts.addWidget(self.back)
        acts.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 8, 10, 4)
        column.setSpacing(4)
        column.addWidget(self.caption)
        column.addWidget(self.question)
        column.addWidget(self.choices)
        column.addLayout(acts)
        column.addStretch(1)

    def _connect(self) -> None:
        self.keys.pressed.connect(self._pressed)
        self.choices.chosen.connect(self._chosen)
        self.skip.clicked.connect(self.skipped)
        self.back.clicked.connect(self.back_wanted)

    def ask(self, asked: Asked) -> None:
        """Put a question; the same one again changes nothing."""
        if asked == self.asked:
            return
        self.asked = asked
        name = asked.kind.name
        self.caption.setText(f"{capital(name)}, {asked.place} of {asked.total}")
        self.question.setText(asked.question.sentence)
        self.back.setEnabled(asked.can_go_back)
        self._lay_answers()
        self._describe()
        self.show()

    def ask_nothing(self) -> None:
        self.asked = None
        self.hide()

    def _describe(self) -> None:
        assert self.asked is not None
        said = "; ".join(
            ", ".join(filter(None, (f"{answer.key}: {answer.label}", answer.detail)))
            for answer in _answers(self.asked.question, self.asked)
        )
        self.setAccessibleName(self.asked.question.sentence)
        self.setAccessibleDescription(f"{said}; S or Space skips it")

    def _lay_answers(self) -> None:
        """The answers, in a panel high enough for every question of the kind: nothing moves with
        the next one."""
        if self.asked is None:
            return
        asks = self.asked.kind.asks
        self.choices.show_block(self._block(self.asked.question))
        most = max(self._block(question).height for question in asks)
        self.choices.setFixedHeight(most)
        self.question.setFixedHeight(max(self._words_height(q.sentence) for q in asks))

    def _block(self, question: Question) -> Block:
        assert self.asked is not None
        given = _answers(question, self.asked)
        return block_for(given, self.asked.datum, self._inner_width(), self.choices)

    def _words_height(self, sentence: str) -> int:
        room = QRect(0, 0, self._inner_width(), 9999)
        metrics = QFontMetrics(self.question.font())
        return metrics.boundingRect(room, Qt.TextFlag.TextWordWrap.value, sentence).height()

    def _inner_width(self) -> int:
        """The width it has or, before it is first laid out, will have."""
        above = self.parentWidget()
        return max((above.width() if above else self.width()) - EDGES, 1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._lay_answers()

    # keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.keys.hear(event):
            return
        was_scan = self.keys.end()
        key = Qt.Key(event.key())
        if key in ENTER and (was_scan or self._take_pointed()):
            return
        if key == Qt.Key.Key_Backspace:
            if self.asked is not None and self.asked.can_go_back:
                self.back_wanted.emit()
        elif key in _STEPS:
            self._point(*_STEPS[key])
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        mark(self, lit="true")

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.keys.end()
        mark(self, lit="false")

    def _pressed(self, key: str) -> None:
        answer = self.choices.with_key(key) if self.asked is not None else None
        if answer is not None:
            self.answered.emit(answer)
        elif key in _SKIP and self.asked is not None:
            self.skipped.emit()

    def _chosen(self) -> None:
        """A click."""
        if self.choices.value is not None:
            self.answered.emit(self.choices.value)

    def _take_pointed(self) -> bool:
        if self.choices.pointed is None:
            return False
        self._chosen()
        return True

    def _point(self, across: int, down: int) -> None:
        now = self.choices.pointed
        place = 0 if now is None else now + across + down * self.choices.columns
        if 0 <= place < self.choices.count:
            self.choices.point(place)


def _answers(question: Question, asked: Asked) -> Sequence[Answer]:
    return answers(question, asked.datum, asked.side)
