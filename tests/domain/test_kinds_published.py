"""The part kinds that come with the program, against public manuals and the practice of the trade.

Every rule stands with its source in check_values/mated_and_renewed.json.
"""

import json
from pathlib import Path

import pytest

from bagtag import resources
from bagtag.domain import kind_form
from bagtag.domain.asking import answers
from bagtag.domain.datum import Datum
from bagtag.domain.kinds import Kinds, Pair, PartKind, Question, Renewal

FILE = Path(__file__).parents[1] / "check_values" / "mated_and_renewed.json"
VALUES = json.loads(FILE.read_text("utf-8"))
SHIPPED = [
    kind
    for file in sorted(resources.find("kinds").glob("*.toml"))
    for kind in kind_form.read(file.read_text("utf-8"), file.name)
]
KINDS = Kinds(SHIPPED)
LISTS = ("mated", "renewed", "allowed_by_some", "asked", "never_alone", "alike", "warned")
# One key each: 1 to 9, then a to c for the hours, and 0 for "there is none".
MOST_ANSWERS = 13


def each(name: str) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("rule", VALUES[name], ids=lambda rule: " ".join(_words(rule)))


def _words(rule: dict[str, object]) -> list[str]:
    return [str(rule[key]) for key in ("part", "with", "fact", "feature") if key in rule]


def kind_of(part: str) -> PartKind:
    """The kind a mechanic's name means; no kind is a failure."""
    kind = KINDS.of(part)
    assert kind is not None, f"no kind for {part!r}"
    return kind


def said(kind: PartKind) -> str:
    """All that a kind says, its questions too, in small letters."""
    asked = (question.sentence for question in kind.asks)
    told = (kind.goes_wrong, kind.why, kind.goes_on, kind.home, kind.together_why)
    return " ".join((*told, *asked)).casefold()


@pytest.mark.parametrize("name", LISTS)
def test_every_rule_names_its_source(name):
    for rule in VALUES[name]:
        source = VALUES["sources"][rule["source"]]
        assert source["status"] in ("seen in stored text", "common practice, no source")
        assert source["address"] or source["status"] == "common practice, no source"


@each("mated")
def test_what_has_worn_together_stays_together(rule):
    partners = {KINDS.named(name) for name in kind_of(rule["part"]).together}
    assert kind_of(rule["with"]) in partners


@each("renewed")
def test_what_is_renewed_and_what_goes_back_if_it_is_good(rule):
    assert kind_of(rule["part"]).renew is Renewal(rule["renew"])


@each("allowed_by_some")
def test_where_makers_differ_the_reason_says_so(rule):
    why = kind_of(rule["part"]).why.casefold()
    assert [words for words in rule["why_has"] if words not in why] == []


@each("never_alone")
def test_a_cap_bored_with_its_partner_is_not_renewed_alone(rule):
    assert kind_of(rule["part"]).renew is Renewal.NEVER


@each("asked")
def test_what_decides_how_it_goes_back_is_asked_and_insisted_on(rule):
    asks = [question for question in kind_of(rule["part"]).asks if answers_to(question, rule)]
    assert any(question.must for question in asks)


def answers_to(question: Question, rule: dict[str, str]) -> bool:
    choice = rule.get("choice", "")
    return (
        question.fact == rule["fact"]
        and rule.get("feature", question.feature) == question.feature
        and (not choice or choice in question.choices)
    )


@each("alike")
def test_left_and_right_of_these_face_the_same_way(rule):
    assert kind_of(rule["part"]).pair is Pair.ALIKE


@each("warned")
def test_what_goes_wrong_is_said(rule):
    words = said(kind_of(rule["part"]))
    assert [wanted for wanted in rule["of"] if wanted not in words] == []


def test_what_it_stays_with_is_a_kind_too():
    loose = {(kind.name, name) for kind in SHIPPED for name in kind.together}
    assert {pair for pair in loose if KINDS.named(pair[1]) is None} == set()


@pytest.mark.parametrize("kind", SHIPPED, ids=lambda kind: kind.name)
def test_a_kind_asks_nothing_twice_and_every_question_is_answered_by_one_key(kind):
    assert len({question.id for question in kind.asks}) == len(kind.asks)
    for question in kind.asks:
        given = answers(question, Datum())
        assert 2 <= len(given) <= MOST_ANSWERS
        keys = [answer.key for answer in given]
        assert len(set(keys)) == len(keys)
        assert all(len(key) == 1 for key in keys)


def test_parts_under_a_spring_and_parts_full_of_fuel_say_so():
    for part in (
        "valve spring",
        "valve collets",
        "chain tensioner",
        "recoil spring",
        "relief valve",
    ):
        assert "spring" in kind_of(part).hazards, part
    for part in ("injector", "carburettor", "fuel tank", "injector pipe", "petcock"):
        assert "fuel" in kind_of(part).hazards, part
    assert {"fuel", "pressure"} <= set(kind_of("injector").hazards)
    assert "heavy" in kind_of("flywheel").hazards


def test_a_spark_plug_asks_nothing():
    assert kind_of("spark plug").asks == ()
