"""The mechanic's own word on the order: rules made, dropped, and tried before they are made."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bagtag.domain import tie_words
from bagtag.domain.change import Change
from bagtag.domain.entry import clean_text
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import Beside, Ref, Rule, RuleKind
from bagtag.domain.model import Fate
from bagtag.domain.order_trial import trial
from bagtag.services import forgetting
from bagtag.services.planning import Planned, planned
from bagtag.store import fittings, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store

MOST = 50
"""How many steps can go in as one."""


@dataclass(frozen=True, slots=True)
class RuleRow:
    """A rule as a list shows it: in words, whether it is in force, and why where it is not."""

    rule: Rule
    words: str
    in_force: bool
    why_not: str = ""


@dataclass(frozen=True, slots=True)
class WhatIf:
    """What would come of moving a step: the rule that it makes (None where it changes nothing), the
    ties it would break, in words, and the other steps that would move with it."""

    words: str
    kind: RuleKind | None
    members: tuple[Ref, ...]
    breaks: tuple[str, ...]
    moves: tuple[str, ...]


def add_rule(
    store: Store,
    job_id: int,
    kind: RuleKind,
    members: Sequence[Ref],
    *,
    why: str = "",
    who: str = "",
) -> Change:
    """Make a rule; `new_id` is its id. One that leaves no order that works is kept and out of force
    until another is dropped (the board says so)."""
    known = planned(store, job_id)
    named = tuple(members)
    _check(known, kind, named)
    rule = Rule(0, job_id, kind, named, clean_text(why, limit=300))

    def do(act: Act) -> None:
        if any(_same(other, rule) for other in fittings.rules(act.connection, job_id)):
            raise BadInput(f"This rule is there already: {_said(rule, known)}.", field="members")
        rule_id = act.insert(
            tables.rule,
            job_id=job_id,
            kind=kind.value,
            why=rule.why,
            made_at=rows.now(),
            made_by=act.who,
        )
        for rank, ref in enumerate(named):
            columns = rows.ref_columns(ref)
            act.insert(tables.rule_member, rule_id=rule_id, rank=rank, **columns)

    return store.act(f"rule: {_said(rule, known)}"[:200], do, who=who, job_id=job_id)


def _said(rule: Rule, known: Planned) -> str:
    return tie_words.rule_words(replace(rule, why=""), known.called)


def _same(one: Rule, other: Rule) -> bool:
    if one.kind is not other.kind:
        return False
    if one.kind is RuleKind.TOGETHER:
        return set(one.members) == set(other.members)
    return one.members == other.members


def _check(known: Planned, kind: RuleKind, members: tuple[Ref, ...]) -> None:
    if len(set(members)) < len(members):
        raise BadInput(
            f"{known.called(members[0])} cannot be tied to itself. Choose another step.",
            field="members",
        )
    if len(members) < 2 or (kind is not RuleKind.TOGETHER and len(members) > 2):
        raise BadInput("A rule ties two steps. Choose both.", field="members")
    if len(members) > MOST:
        raise BadInput(f"At most {MOST} steps go in as one. Choose fewer.", field="members")
    for ref in members:
        _check_member(known, ref)


def _check_member(known: Planned, ref: Ref) -> None:
    line = known.lines.get(ref)
    if line is None and ref not in known.tasks:
        raise BadInput(
            "A rule ties steps of one job, and one of these is not in it. Choose it again.",
            field="members",
        )
    if line is not None and line.fate is Fate.SCRAP:
        raise BadInput(
            f"{line.called} is scrapped and does not go back. Choose another step, or change its "
            "fate first.",
            field="members",
        )


def say_why(store: Store, rule_id: int, why: str, *, who: str = "") -> Change:
    """Say why a rule is there, after it was made."""
    with store.read() as connection:
        rule = fittings.get_rule(connection, rule_id)
    if rule is None:
        raise NotFound("This rule is no longer there.")
    said = clean_text(why, limit=300)

    def do(act: Act) -> None:
        act.update(tables.rule, rule_id, why=said)

    title = f"why of the rule: {_said(rule, planned(store, rule.job_id))}"
    return store.act(title[:200], do, who=who, job_id=rule.job_id)


def drop_rule(store: Store, rule_id: int, *, who: str = "") -> Change:
    """Take a rule away; undo brings it back."""
    with store.read() as connection:
        rule = fittings.get_rule(connection, rule_id)
    if rule is None:
        raise NotFound("This rule is no longer there.")
    title = f"drop the rule: {_said(rule, planned(store, rule.job_id))}"
    return store.act(
        title[:200], lambda act: forgetting.delete_rule(act, rule_id), who=who, job_id=rule.job_id
    )


def rules_of(store: Store, job_id: int) -> list[RuleRow]:
    """The rules of a job, the newest first."""
    known = planned(store, job_id)
    return [row_of(known, rule) for rule in reversed(known.rows.rules)]


def row_of(known: Planned, rule: Rule) -> RuleRow:
    """A rule as a list shows it, by a plan that is at hand."""
    words = tie_words.rule_words(rule, known.called)
    asleep = next((ref for ref in rule.members if ref not in known.steps), None)
    if asleep is not None:
        return RuleRow(rule, words, False, f"{known.called(asleep)} does not go back")
    if rule.id in known.found.suspended:
        return RuleRow(rule, words, False, "no order keeps it beside the others")
    return RuleRow(rule, words, True)


def what_if(
    store: Store, job_id: int, moved: Ref, beside: Beside, other: Ref, *, who: str = ""
) -> WhatIf:
    """What would come of a step standing just before or after another. BadInput where it cannot
    be asked: a step that is in already."""
    known = planned(store, job_id)
    newest = max((rule.id for rule in known.rows.rules), default=0) + 1
    found = trial(known.found.problem, moved, beside, other, source=newest)
    if found.kind is None:
        return WhatIf("It stands there already.", None, (), (), ())
    rule = Rule(newest, known.job_id, found.kind, found.members)
    return WhatIf(
        words=_said(rule, known),
        kind=found.kind,
        members=found.members,
        breaks=tuple(tie_words.says(tie, known.words(who)) for tie in found.broken),
        moves=tuple(known.called(ref) for ref in found.moves),
    )
