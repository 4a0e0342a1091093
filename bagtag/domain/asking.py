"""What to ask of a part as it comes off, and the answers one key gives."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import PartKind, Question, fold
from bagtag.domain.sentence import ordinal, seat_words, the_side
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Toward,
    Without,
)

_TYPES: dict[str, type] = {
    "faces": Faces,
    "hand": Hand,
    "place": Place,
    "clocking": Clocking,
    "seat": Seat,
    "match mark": MatchMark,
    "same way": SameWay,
}
_FEATURED: dict[str, type] = {"faces": Faces, "clocking": Clocking}
_TURNABLE = ("faces", "clocking", "same way", "hand")
_FACING = ("outward", "inward", "left", "right")
_HOURS = "123456789abc"
_PART = "part:"


@dataclass(frozen=True, slots=True)
class Answer:
    """One large choice: its key, what it says, a word below it, and the fact it is."""

    key: str
    label: str
    fact: Fact
    detail: str = ""


def open_questions(
    kind: PartKind | None, facts: Sequence[Fact], unanswered: Iterable[str] = ()
) -> tuple[Question, ...]:
    """What a kind asks and nobody has answered or skipped, in the order of the kind."""
    skipped = set(unanswered)
    return tuple(q for q in still_open(kind, facts) if q.id not in skipped)


def still_open(kind: PartKind | None, facts: Sequence[Fact]) -> tuple[Question, ...]:
    """What a kind asks and no fact answers, skipped or not.

    A face or a clocking answers the question on that feature; one of another feature, which the
    kind does not ask about, answers the first that is left: people call a face as they see it.
    """
    asks = kind.asks if kind else ()
    left = [question for question in asks if not _is_answered(question, facts)]
    spare = [fact for fact in facts if not any(_is_about(fact, question) for question in asks)]
    for fact in spare:
        taken = next((q for q in left if _FEATURED.get(q.fact) is type(fact)), None)
        if taken is not None:
            left.remove(taken)
    return tuple(left)


def _is_answered(question: Question, facts: Sequence[Fact]) -> bool:
    return any(_is_about(fact, question) or _denies(fact, question) for fact in facts)


def _is_about(fact: Fact, question: Question) -> bool:
    """Whether a fact is an answer to this very question; a part that sits as another one does
    has its faces and clocking from there, and a dot that stands to a line is a match mark too."""
    if question.fact not in _FEATURED:
        meets = isinstance(fact, Clocking) and bool(fact.target)
        return isinstance(fact, _TYPES[question.fact]) or (question.fact == "match mark" and meets)
    if isinstance(fact, Faces | Clocking):
        same = fold(fact.feature) == fold(question.feature)
        return same and isinstance(fact, _TYPES[question.fact])
    return isinstance(fact, SameWay)


def _denies(fact: Fact, question: Question) -> bool:
    if not isinstance(fact, Without):
        return False
    if not fact.feature:
        return question.fact in _TURNABLE
    return fold(fact.feature) == fold(none_of(question))


def none_of(question: Question) -> str:
    """What is not there when the answer is "none": the lip, the match mark, the hand."""
    return question.feature if question.fact in ("faces", "clocking") else question.fact


def answers(question: Question, datum: Datum, side: Side | None = None) -> tuple[Answer, ...]:
    """The choices for a question, the last of them that there is none, on key 0.

    `side` is the side of the machine that the part sits on, where it is known.
    """
    given = _ANSWERS[question.fact](question, datum, side)
    named = question.fact in (*_FEATURED, "match mark")
    label = f"There is no {none_of(question)}" if named else "There is none"
    return (*given, Answer("0", label, Without(none_of(question))))


def with_answer(facts: Sequence[Fact], question: Question, answer: Answer) -> tuple[Fact, ...]:
    """The facts with an answer; an earlier "there is none" to the same question goes."""
    kept = [fact for fact in facts if not _denies(fact, question)]
    return (*kept, answer.fact)


def _faces(question: Question, datum: Datum, side: Side | None) -> list[Answer]:
    choices = question.choices or _FACING
    towards = [_toward(choice) for choice in choices]
    return [
        Answer(str(n), _facing(toward, datum), Faces(question.feature, toward),
               _facing_detail(toward, datum, side))
        for n, toward in enumerate(towards, start=1)
    ]  # fmt: skip


def _toward(choice: str) -> Toward:
    if choice.startswith(_PART):
        return OtherPart(choice.removeprefix(_PART).strip())
    return Outness(choice) if choice in {way.value for way in Outness} else Side(choice)


def _facing(toward: Toward, datum: Datum) -> str:
    if isinstance(toward, OtherPart):
        return f"to {toward.name}"
    return datum.call(toward) if isinstance(toward, Side) else toward.value


def _facing_detail(toward: Toward, datum: Datum, side: Side | None) -> str:
    """Which side outward is here; the plain word of a side that has another name."""
    if isinstance(toward, Outness) and side is not None:
        here = side if toward is Outness.OUTWARD else side.opposite
        return the_side(here, datum)
    if isinstance(toward, Side) and datum.call(toward) != toward.value:
        return toward.value
    return ""


def _hand(_: Question, datum: Datum, __: Side | None) -> list[Answer]:
    return [
        Answer("1", "L", Hand("L", True), "stamped"),
        Answer("2", "R", Hand("R", True), "stamped"),
        Answer("3", "L", Hand("L"), f"by position, {datum.call(Side.LEFT)}"),
        Answer("4", "R", Hand("R"), f"by position, {datum.call(Side.RIGHT)}"),
    ]


def _place(question: Question, datum: Datum, _: Side | None) -> list[Answer]:
    side = Side(question.choices[0]) if question.choices else None
    detail = f"from {the_side(side, datum)}" if side else ""
    return [
        Answer(str(n), _placed(question.feature, n), Place(n, None, side, question.feature), detail)
        for n in range(1, 10)
    ]


def _placed(what: str, number: int) -> str:
    return f"{what} {number}" if what else ordinal(number)


def _clocking(question: Question, _: Datum, __: Side | None) -> list[Answer]:
    if not question.choices:
        return [
            Answer(key, f"{hour} o'clock", Clocking(question.feature, float(hour)))
            for hour, key in enumerate(_HOURS, start=1)
        ]
    return [
        Answer(str(n), choice, Clocking(question.feature, target=choice.removeprefix("to the ")))
        for n, choice in enumerate(question.choices, start=1)
    ]


def _seat(question: Question, _: Datum, __: Side | None) -> list[Answer]:
    kinds = [SeatKind(choice) for choice in question.choices] or list(SeatKind)
    return [Answer(str(n), seat_words(Seat(k)), Seat(k)) for n, k in enumerate(kinds, start=1)]


def _match_mark(question: Question, _: Datum, __: Side | None) -> list[Answer]:
    marks = question.choices or ("two punch dots", "paint line")
    return [Answer(str(n), mark, MatchMark(mark)) for n, mark in enumerate(marks, start=1)]


def _same_way(question: Question, _: Datum, __: Side | None) -> list[Answer]:
    others = question.choices or ("the other one",)
    return [
        Answer(str(n), f"{'opposite to' if opposite else 'as'} {name}",
               SameWay(OtherPart(name), opposite))
        for n, (name, opposite) in enumerate(
            ((name, opposite) for name in others for opposite in (False, True)), start=1
        )
    ]  # fmt: skip


_ANSWERS: dict[str, Callable[[Question, Datum, Side | None], list[Answer]]] = {
    "faces": _faces,
    "hand": _hand,
    "place": _place,
    "clocking": _clocking,
    "seat": _seat,
    "match mark": _match_mark,
    "same way": _same_way,
}
