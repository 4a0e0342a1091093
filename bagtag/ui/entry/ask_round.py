"""One sitting of questions on a part: what is asked next, what was skipped, the way back."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bagtag.domain.asking import Answer, open_questions, still_open, with_answer
from bagtag.domain.kinds import PartKind, Question
from bagtag.domain.which_way import Fact


@dataclass(frozen=True, slots=True)
class Step:
    """A question that was answered (the facts before and after) or skipped (the same facts)."""

    question: str
    before: tuple[Fact, ...]
    after: tuple[Fact, ...]


class AskRound:
    """`unanswered` are the ids of the questions that were skipped, now or when it was logged."""

    def __init__(self) -> None:
        self.unanswered: tuple[str, ...] = ()
        self._passed: set[str] = set()
        self._steps: list[Step] = []

    def begin(self, unanswered: Iterable[str], *, again: bool) -> None:
        """A part is taken up; `again` asks once more what was skipped."""
        self.unanswered = tuple(sorted(set(unanswered)))
        self._passed = set() if again else set(self.unanswered)
        self._steps.clear()

    @property
    def place(self) -> int:
        """Which question of this sitting the next one is, from 1."""
        return len(self._steps) + 1

    @property
    def can_go_back(self) -> bool:
        return bool(self._steps)

    def open(self, kind: PartKind | None, facts: Sequence[Fact]) -> tuple[Question, ...]:
        """What is to be asked now, the next one first."""
        return open_questions(kind, facts, self._passed)

    def passed(self, kind: PartKind | None, facts: Sequence[Fact]) -> tuple[Question, ...]:
        """What was skipped and nothing has answered since."""
        return tuple(q for q in still_open(kind, facts) if q.id in self._passed)

    def answer(
        self, question: Question, answer: Answer, facts: tuple[Fact, ...]
    ) -> tuple[Fact, ...]:
        after = with_answer(facts, question, answer)
        self._steps.append(Step(question.id, facts, after))
        self._forget(question.id)
        return after

    def skip(self, question: Question, facts: tuple[Fact, ...]) -> None:
        self._steps.append(Step(question.id, facts, facts))
        self._passed.add(question.id)
        self.unanswered = tuple(sorted({*self.unanswered, question.id}))

    def back(self, facts: tuple[Fact, ...]) -> tuple[Fact, ...]:
        """Take the last step back; what was changed in the facts by hand since then stays."""
        step = self._steps.pop()
        self._forget(step.question)
        if facts == step.after:
            return step.before
        given = set(step.after) - set(step.before)
        return tuple(fact for fact in facts if fact not in given)

    def ask_again(self) -> None:
        """What was skipped is asked once more."""
        self._passed.clear()
        self._steps.clear()

    def _forget(self, id_: str) -> None:
        self._passed.discard(id_)
        self.unanswered = tuple(known for known in self.unanswered if known != id_)
