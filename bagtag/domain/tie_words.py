"""Ties, circles and rules in plain English: why a step waits, or was put in early.

But for an opener, no verb agrees with a part's name: "22 studs" and "21 dowel" read alike.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from bagtag.domain.fitting import Ref, Rule, RuleKind
from bagtag.domain.order_problem import Because, Circle, Tie
from bagtag.domain.phrases import capital, day, listed
from bagtag.domain.sentence import subject, tidy

# `{before}` goes in before `{after}`. What holds speaks of `after`, what forces of `before`.
_HOLDS = {
    Because.OPENER: "it waits for {before}: {after} closes {area}",
    Because.FIRST: "it waits for {before}, which it must have in first{rule}",
    Because.UNTIL: "held until {before}{rule}",
    Because.TIGHTENING: "its final tightening waits for {before}",
    Because.BENCH: "it waits for {before}, which is built into it",
    Because.ANCHOR: "it comes after {before}",
    Because.TOGETHER: "it goes in together with {before}{rule}",
}
_FORCED = {
    Because.OPENER: "put in early: {after} can close {area} only after it",
    Because.FIRST: "put in early: {after} must have it in first{rule}",
    Because.UNTIL: "put in early: {after} must wait for it{rule}",
    Because.TIGHTENING: "put in early: {after} must wait for it",
    Because.BENCH: "put in early: it is built into {after}",
    Because.ANCHOR: "put in early: it comes before {after}",
    Because.TOGETHER: "put in early: it goes in together with {after}{rule}",
}
_SAYS = {
    Because.OPENER: "{after} can close {area} only after {before}",
    Because.FIRST: "{after} must have {before} in first{rule}",
    Because.UNTIL: "{after} must wait for {before}{rule}",
    Because.TIGHTENING: "{after} must wait for {before}, as a final tightening",
    Because.BENCH: "{after} must have {before} built in first",
    Because.ANCHOR: "{after} must come after {before}",
    Because.TOGETHER: "{after} must go in together with {before}{rule}",
}
_OF_RULES = (Because.FIRST, Because.UNTIL, Because.TOGETHER)


@dataclass(frozen=True, slots=True)
class Words:
    """What is called what: `named` a step ("21 dowel"), `area_name` an area by its id, `rules` the
    rules by their ids. `who` is the person at the bench; another's rule is told as that other's.
    """

    named: Callable[[Ref], str]
    area_name: Callable[[int], str]
    rules: Mapping[int, Rule]
    who: str = ""


def holds(tie: Tie, words: Words) -> str:
    """Why `tie.after` stands later than it was logged, or waits: "held until 22 cover, by your
    rule of 12 Nov (“the drum fouls it”)". No capital, no full stop."""
    return _told(_HOLDS, tie, words)


def forced(tie: Tie, words: Words) -> str:
    """Why `tie.before` was brought forward: "put in early: 14 gasket must have it in first,
    by your rule of 12 Nov". No capital, no full stop."""
    return _told(_FORCED, tie, words)


def says(tie: Tie, words: Words) -> str:
    """A tie with both its steps: "26 drum must wait for 27 fork L, by your rule of 12 Nov"."""
    return _told(_SAYS, tie, words)


def held_words(chain: Sequence[Tie], words: Words) -> tuple[str, ...]:
    """A sentence for each tie that leads from a step back to what held it, the nearest first: "it
    waits for 30 head, which it must have in first", "30 head must wait for 22 studs"."""
    return tuple(holds(tie, words) if at == 0 else says(tie, words) for at, tie in enumerate(chain))


def forced_words(chain: Sequence[Tie], words: Words) -> tuple[str, ...]:
    """The same for what brought a step forward: "put in early: 14 gasket must have it in first",
    "30 head must have 14 gasket in first"."""
    return tuple(
        forced(tie, words) if at == 0 else says(tie, words) for at, tie in enumerate(chain)
    )


def circle_words(circle: Circle, words: Words) -> str:
    """The circle as one sentence, each step leading to the one it waits for or needs: "26 drum
    must have 27 fork in first, by your rule of 3 Nov; 27 fork must wait for 26 drum, by your
    rule of 12 Nov." """
    chain = (says(tie, words) for tie in reversed(circle.ties))
    return capital("; ".join(chain)) + "."


def droppable(circle: Circle) -> tuple[int, ...]:
    """The ids of the rules in a circle, the newest first: dropping any of them opens it."""
    ids = {tie.source for tie in circle.ties if tie.because in _OF_RULES}
    return tuple(sorted(ids, reverse=True))


def rule_words(rule: Rule, named: Callable[[Ref], str]) -> str:
    """A rule as one line: "Fit 21 dowel before 14 gasket (“it locates it”)", "Oil the bore before
    27 barrel"."""
    names = [named(ref) for ref in rule.members]
    match rule.kind:
        case RuleKind.FIRST:
            verb = "Fit " if rule.members[1].removal_id is not None else ""
            said = capital(f"{verb}{names[1]} before {names[0]}")
        case RuleKind.UNTIL:
            said = f"Hold {names[0]} until {names[1]}"
        case RuleKind.TOGETHER:
            said = capital(f"{listed(names)} go in together")
    return said + _reason(rule)


def _told(sentences: Mapping[Because, str], tie: Tie, words: Words) -> str:
    return sentences[tie.because].format(
        before=words.named(tie.before),
        after=words.named(tie.after),
        area=_the(words.area_name(tie.source)) if tie.because is Because.OPENER else "",
        rule=_by_rule(tie.source, words) if tie.because in _OF_RULES else "",
    )


def _the(area: str) -> str:
    """ "the gearbox", but "cylinder 2"."""
    return tidy(area) if area[-1:].isdigit() else subject(area)


def _by_rule(rule_id: int, words: Words) -> str:
    rule = words.rules.get(rule_id)
    if rule is None:  # one that is only tried
        return ", by your rule"
    made = f" of {day(rule.made_at)}" if rule.made_at else ""
    return f", by {_whose(rule, words)} rule{made}{_reason(rule)}"


def _whose(rule: Rule, words: Words) -> str:
    if not rule.made_by or not words.who or rule.made_by.casefold() == words.who.casefold():
        return "your"
    return f"{rule.made_by}’s"


def _reason(rule: Rule) -> str:
    why = tidy(rule.why)
    return f" (“{why}”)" if why else ""
