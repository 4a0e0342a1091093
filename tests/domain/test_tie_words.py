"""Ties, circles and rules as a person reads them."""

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.fitting import Ref, Rule, RuleKind, part, task
from bagtag.domain.order_problem import Because, Circle, Tie
from bagtag.domain.tie_words import (
    Words,
    circle_words,
    droppable,
    forced,
    forced_words,
    held_words,
    holds,
    rule_words,
    says,
)

DRUM, FORK, COVER, CRANK, FLOAT = part(26), part(27), part(31), part(12), task(1)
NAMES = {
    DRUM: "26 drum",
    FORK: "27 fork L",
    COVER: "31 cover",
    CRANK: "12 crankshaft",
    FLOAT: "measure end float",
}
AREAS = {5: "gearbox", 6: "the lower case", 7: "cylinder 2"}
MADE = datetime(2026, 11, 12, 23, 30, tzinfo=UTC)


def rule(id_: int, kind: RuleKind, *members: Ref, **more) -> Rule:
    return Rule(id_, 1, kind, members, **{"made_at": MADE, **more})


RULES = {
    1: rule(1, RuleKind.FIRST, DRUM, FORK),
    2: rule(2, RuleKind.UNTIL, FORK, DRUM, why="the fork swings on the drum.", made_by="Mo"),
    3: rule(3, RuleKind.TOGETHER, FORK, DRUM, COVER, made_at=None),
}
WORDS = Words(NAMES.__getitem__, AREAS.__getitem__, RULES)


def tie(because: Because, before: Ref, after: Ref, source: int = 0) -> Tie:
    waits = (Because.OPENER, Because.UNTIL, Because.TIGHTENING)
    return Tie(before, after, because in waits, because, source)


BY_2 = ", by your rule of 12 Nov (“the fork swings on the drum”)"


@pytest.mark.parametrize(
    ("made", "held", "early"),
    [
        (
            tie(Because.OPENER, CRANK, COVER, 5),
            "it waits for 12 crankshaft: 31 cover closes the gearbox",
            "put in early: 31 cover can close the gearbox only after it",
        ),
        (
            tie(Because.OPENER, CRANK, COVER, 6),
            "it waits for 12 crankshaft: 31 cover closes the lower case",
            "put in early: 31 cover can close the lower case only after it",
        ),
        (
            tie(Because.OPENER, CRANK, COVER, 7),
            "it waits for 12 crankshaft: 31 cover closes cylinder 2",
            "put in early: 31 cover can close cylinder 2 only after it",
        ),
        (
            tie(Because.FIRST, FORK, DRUM, 1),
            "it waits for 27 fork L, which it must have in first, by your rule of 12 Nov",
            "put in early: 26 drum must have it in first, by your rule of 12 Nov",
        ),
        (
            tie(Because.UNTIL, DRUM, FORK, 2),
            "held until 26 drum" + BY_2,
            "put in early: 27 fork L must wait for it" + BY_2,
        ),
        (
            tie(Because.TOGETHER, DRUM, FORK, 3),
            "it goes in together with 26 drum, by your rule",
            "put in early: it goes in together with 27 fork L, by your rule",
        ),
        (
            tie(Because.TIGHTENING, COVER, FLOAT),
            "its final tightening waits for 31 cover",
            "put in early: measure end float must wait for it",
        ),
        (
            tie(Because.BENCH, CRANK, FLOAT),
            "it waits for 12 crankshaft, which is built into it",
            "put in early: it is built into measure end float",
        ),
        (
            tie(Because.ANCHOR, FLOAT, COVER),
            "it comes after measure end float",
            "put in early: it comes before 31 cover",
        ),
    ],
)
def test_a_tie_says_what_it_waits_for_and_what_needs_it(made, held, early):
    assert (holds(made, WORDS), forced(made, WORDS)) == (held, early)


def test_a_chain_names_the_step_of_each_tie_but_the_nearest():
    held = (tie(Because.OPENER, DRUM, COVER, 5), tie(Because.UNTIL, FORK, DRUM, 3))
    assert held_words(held, WORDS) == (
        "it waits for 26 drum: 31 cover closes the gearbox",
        "26 drum must wait for 27 fork L, by your rule",
    )
    pulled = (tie(Because.ANCHOR, FLOAT, CRANK), tie(Because.FIRST, CRANK, COVER, 3))
    assert forced_words(pulled, WORDS) == (
        "put in early: it comes before 12 crankshaft",
        "31 cover must have 12 crankshaft in first, by your rule",
    )
    assert held_words((), WORDS) == forced_words((), WORDS) == ()


def test_a_circle_reads_as_a_chain_from_each_step_to_the_one_it_waits_for():
    circle = Circle((tie(Because.UNTIL, DRUM, FORK, 2), tie(Because.FIRST, FORK, DRUM, 1)))
    assert circle_words(circle, WORDS) == (
        "26 drum must have 27 fork L in first, by your rule of 12 Nov; "
        f"27 fork L must wait for 26 drum{BY_2}."
    )


def test_a_circle_goes_on_where_the_step_before_ended():
    """Every step is named twice: as what is waited for, and then as what waits."""
    circle = Circle(
        (
            tie(Because.BENCH, CRANK, FLOAT),
            tie(Because.ANCHOR, FLOAT, COVER),
            tie(Because.TOGETHER, COVER, DRUM, 3),
            tie(Because.TIGHTENING, DRUM, FORK),
            tie(Because.OPENER, FORK, CRANK, 5),
        )
    )
    assert circle_words(circle, WORDS) == (
        "12 crankshaft can close the gearbox only after 27 fork L; "
        "27 fork L must wait for 26 drum, as a final tightening; "
        "26 drum must go in together with 31 cover, by your rule; "
        "31 cover must come after measure end float; "
        "measure end float must have 12 crankshaft built in first."
    )


def test_a_circle_that_starts_with_a_task_starts_with_a_capital():
    circle = Circle((tie(Because.ANCHOR, FLOAT, DRUM), tie(Because.TIGHTENING, DRUM, FLOAT)))
    assert circle_words(circle, WORDS).startswith("Measure end float must wait for 26 drum")


def test_the_rules_of_a_circle_can_be_dropped_the_newest_first_and_no_area_can():
    ties = (
        tie(Because.FIRST, FORK, DRUM, 1),
        tie(Because.OPENER, DRUM, COVER, 5),
        tie(Because.TOGETHER, COVER, CRANK, 3),
        tie(Because.UNTIL, CRANK, FORK, 2),
        tie(Because.TOGETHER, COVER, CRANK, 3),
    )
    assert droppable(Circle(ties)) == (3, 2, 1)
    assert droppable(Circle((tie(Because.OPENER, DRUM, COVER, 5),))) == ()


@pytest.mark.parametrize(
    ("made", "line"),
    [
        (RULES[1], "Fit 27 fork L before 26 drum"),
        (RULES[2], "Hold 27 fork L until 26 drum (“the fork swings on the drum”)"),
        (RULES[3], "27 fork L, 26 drum and 31 cover go in together"),
        (rule(4, RuleKind.TOGETHER, FLOAT, DRUM), "Measure end float and 26 drum go in together"),
    ],
)
def test_a_rule_is_one_line_with_its_reason(made, line):
    assert rule_words(made, NAMES.__getitem__) == line


@pytest.mark.parametrize(("who", "whose"), [("", "your"), ("mo", "your"), ("Jo", "Mo’s")])
def test_another_person_s_rule_is_told_as_that_person_s(who, whose):
    words = Words(NAMES.__getitem__, AREAS.__getitem__, RULES, who=who)
    held = holds(tie(Because.UNTIL, DRUM, FORK, 2), words)
    assert held.startswith(f"held until 26 drum, by {whose} rule of 12 Nov")


def test_a_rule_that_is_only_tried_has_no_day():
    assert says(tie(Because.FIRST, FORK, DRUM, 99), WORDS) == (
        "26 drum must have 27 fork L in first, by your rule"
    )


@given(st.text(min_size=1), st.text(min_size=1), st.text())
def test_what_a_person_typed_is_told_as_typed(name, area, why):
    """Braces, quotes and per cent signs in a name are text; every tie has its words."""
    kept = {2: rule(2, RuleKind.UNTIL, FORK, DRUM, why=why)}
    words = Words(lambda ref: f"7 {name}", lambda _: area, kept)
    for because in Because:
        made = tie(because, DRUM, FORK, 2)
        for told in (holds(made, words), forced(made, words), says(made, words)):
            assert f"7 {name}" in told
    assert " ".join(why.split()).rstrip(".") in rule_words(kept[2], NAMES.__getitem__)
