"""What is asked of a part, and the answers that one key gives."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.asking import answers, open_questions, still_open, with_answer
from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import PartKind, Question
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Hand,
    MatchMark,
    OtherPart,
    Outness,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)

DATUM = Datum("", {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side"})
LIP = Question("faces", "Which way does the lip face?", "lip", ("inward", "outward"))
QUESTIONS = [
    LIP,
    Question("faces", "Which way does the chamfer face?", "chamfer", ("part: the gear", "left")),
    Question("faces", "Which way does the dot face?", "dot"),
    Question("hand", "Which hand is it?"),
    Question("place", "Which cylinder is it from?", "cylinder"),
    Question("place", "Which of the row is it?", "", ("left",)),
    Question("clocking", "Where does the gap stand?", "gap"),
    Question("clocking", "Where does the tab sit?", "tab", ("in the notch", "to the line")),
    Question("seat", "How deep does it sit?"),
    Question("match mark", "Which mark does it carry?"),
    Question("same way", "How does it sit?", "", ("the other fork",)),
]


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.id)
def test_every_answer_has_a_key_of_its_own_and_answers_its_question(question):
    kind = PartKind("x", asks=(question,))
    given = answers(question, DATUM)
    keys = [answer.key for answer in given]
    assert len(set(keys)) == len(keys)
    assert all(len(key) == 1 and key not in " s" for key in keys)  # S and Space skip
    assert keys[-1] == "0"
    for answer in given:
        assert still_open(kind, with_answer((), question, answer)) == ()


def test_the_answers_as_they_are_meant():
    facts = [answer.fact for question in QUESTIONS for answer in answers(question, DATUM)]
    for fact in (
        Faces("lip", Outness.INWARD), Faces("chamfer", OtherPart("the gear")),
        Faces("dot", Side.LEFT), Hand("R", True), Place(3, None, None, "cylinder"),
        Place(9, None, Side.LEFT), Clocking("gap", 12.0), Clocking("tab", target="line"),
        Seat(SeatKind.SHOULDER), MatchMark("paint line"), Without("lip"), Without("match mark"),
        SameWay(OtherPart("the other fork"), True),
    ):  # fmt: skip
        assert fact in facts


def test_a_side_is_called_as_the_machine_calls_it():
    said = [(a.label, a.detail) for a in answers(QUESTIONS[2], DATUM, Side.RIGHT)]
    assert said == [
        ("outward", "the clutch side"), ("inward", "the flywheel side"),
        ("flywheel side", "left"), ("clutch side", "right"), ("There is no dot", ""),
    ]  # fmt: skip


def test_there_is_none_is_said_by_what_there_could_be():
    labels = [answers(question, DATUM)[-1].label for question in QUESTIONS]
    assert labels[0] == "There is no lip"
    assert labels[3] == labels[8] == "There is none"
    assert labels[9] == "There is no match mark"


@given(st.lists(st.sampled_from(QUESTIONS), unique_by=lambda q: q.id), st.data())
def test_asking_one_after_the_other_comes_to_an_end(questions, data):
    kind, facts, skipped = PartKind("x", asks=tuple(questions)), (), []
    for _ in range(len(questions)):
        left = open_questions(kind, facts, skipped)
        if not left:
            break
        choice = data.draw(st.sampled_from([*answers(left[0], DATUM), None]))
        if choice is None:
            skipped.append(left[0].id)
        else:
            facts = with_answer(facts, left[0], choice)
    assert open_questions(kind, facts, skipped) == ()


def test_an_answer_takes_back_that_there_was_none():
    facts = (Without("lip"), Hand("L"))
    first = answers(LIP, DATUM)[0]
    assert with_answer(facts, LIP, first) == (Hand("L"), Faces("lip", Outness.INWARD))
