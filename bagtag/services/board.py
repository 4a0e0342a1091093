"""The build: every step in an order that works, what it waits for, and what can go in now."""

from collections.abc import Sequence
from dataclasses import dataclass

from bagtag.domain import tie_words
from bagtag.domain.fitting import Ref, Task, TaskKind, part
from bagtag.domain.model import Area, SignOff
from bagtag.domain.order_problem import Because, Tie
from bagtag.domain.order_why import why
from bagtag.domain.standing import Hindrance, Keeps, Reach, Standing, reach, standing
from bagtag.services.planning import Planned, planned
from bagtag.services.rules import RuleRow, row_of
from bagtag.store.work import Store

NAMED = 3
"""How many steps a step names that it waits for; the rest are counted."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the build. `place` counts from 1, in the order things go back.

    `task` is set where it is no removal; `along` are the steps that go in with it as one;
    `roots` those that keep it out by themselves: without any it can go in today, now or after
    others. `torque_later` is the step after which its fasteners get their
    final torque.
    """

    place: int
    ref: Ref
    number: str
    name: str
    standing: Standing
    hindrances: tuple[Hindrance, ...] = ()
    sign_off: SignOff | None = None
    task: Task | None = None
    area_id: int | None = None
    area: str = ""
    along: tuple[Ref, ...] = ()
    build_id: int | None = None
    roots: tuple[Ref, ...] = ()
    torque_later: str = ""

    @property
    def removal_id(self) -> int | None:
        return self.ref.removal_id

    @property
    def called(self) -> str:
        return f"{self.number} {self.name}".strip()

    @property
    def reach(self) -> Reach:
        return reach(self.standing, self.roots)


@dataclass(frozen=True, slots=True)
class Freed:
    """A step that keeps others out by itself: why, how many wait for it alone, itself among them,
    and how many in all."""

    ref: Ref
    called: str
    why: str
    alone: int
    all: int = 0


@dataclass(frozen=True, slots=True)
class NoOrder:
    """Rules that cannot all hold, as one sentence; `rules` are those that could be dropped, the
    newest first, each with its words; `left_out` are out of force until then."""

    sentence: str
    rules: tuple[tuple[int, str], ...]
    left_out: frozenset[int]


@dataclass(frozen=True, slots=True)
class Board:
    """The whole build of a job, in order. `frees` has what would free the most steps first."""

    job_id: int
    steps: tuple[Step, ...]
    frees: tuple[Freed, ...] = ()
    no_order: NoOrder | None = None

    @property
    def done(self) -> int:
        return sum(step.standing is Standing.IN for step in self.steps)

    def step(self, ref: Ref) -> Step | None:
        return next((step for step in self.steps if step.ref == ref), None)

    def step_of(self, removal_id: int) -> Step | None:
        return self.step(part(removal_id))


def board(store: Store, job_id: int, *, who: str = "") -> Board:
    """The build of a job as it stands now."""
    return board_of(planned(store, job_id), who)


def board_of(known: Planned, who: str = "") -> Board:
    groups = {ref: group for group in known.plan.groups for ref in group}
    steps = tuple(
        step_of(known, ref, place, groups[ref], who)
        for place, ref in enumerate(known.plan.order, 1)
    )
    frees = tuple(
        Freed(one.ref, known.called(one.ref), known.why_stuck(one.ref), one.alone, one.all)
        for one in known.now.frees
    )
    return Board(known.job_id, steps, frees, no_order(known, who))


def one_step(known: Planned, ref: Ref) -> Step | None:
    """A step alone, for a card; None for one that is not in the build."""
    for group in known.plan.groups:
        if ref in group:
            return step_of(known, ref, known.plan.order.index(ref) + 1, group)
    return None


def step_of(known: Planned, ref: Ref, place: int, group: Sequence[Ref], who: str = "") -> Step:
    line, task = known.lines.get(ref), known.tasks.get(ref)
    hindrances = () if ref in known.signed else hindrances_of(known, ref, who)
    return Step(
        place=place,
        ref=ref,
        number=line.number if line else "",
        name=line.name if line else known.called(ref),
        standing=_word(known, ref, hindrances),
        hindrances=hindrances,
        sign_off=known.signed.get(ref),
        task=task,
        area_id=known.places.get(ref),
        area=known.area_path(ref),
        along=tuple(other for other in group if other != ref),
        build_id=known.build_id(ref),
        roots=known.now.roots.get(ref, ()),
        torque_later=known.torque_after(ref),
    )


def _word(known: Planned, ref: Ref, hindrances: Sequence[Hindrance]) -> Standing:
    line, fitted = known.lines.get(ref), ref in known.signed
    if line is None:
        return Standing.IN if fitted else Standing.WAITS if hindrances else Standing.NEXT
    return standing(line, fitted=fitted, away=line.id in known.out, hindrances=hindrances)


def hindrances_of(known: Planned, ref: Ref, who: str = "") -> tuple[Hindrance, ...]:
    """Every reason why a step cannot go in now; those behind an opener past the first few are
    only counted."""
    waiting = known.now.waiting.get(ref)
    if waiting is None:
        return known.own(ref)
    first = [_tied(known, tie, who) for tie in waiting.ties]
    first += [_comes_first(known, before) for before in waiting.before]
    first += [
        Hindrance(f"{known.called(mate)} goes in with it, and {known.why_stuck(mate)}", mate)
        for mate in waiting.along
    ]
    room = max(NAMED - len(first), 1)
    behind = [
        Hindrance(f"{known.called(other)} must go behind it", other, Keeps.BEHIND)
        for other in waiting.behind[:room]
    ]
    rest = len(waiting.behind) - len(behind)
    more = [Hindrance(f"and {rest} more behind it", keeps=Keeps.BEHIND)] if rest else []
    return (*known.own(ref), *first, *behind, *more)


_PLAIN = (Because.BENCH, Because.ANCHOR, Because.TIGHTENING)


def _tied(known: Planned, tie: Tie, who: str) -> Hindrance:
    """A rule is named as such; what lies in the steps themselves needs no reason."""
    if tie.because in _PLAIN:
        return _comes_first(known, tie.before)
    return Hindrance(tie_words.holds(tie, known.words(who)), tie.before)


def _comes_first(known: Planned, ref: Ref) -> Hindrance:
    task = known.tasks.get(ref)
    is_done = task is not None and task.kind is not TaskKind.BENCH_BUILD
    return Hindrance(f"{known.called(ref)} must {'be done' if is_done else 'go in'} first", ref)


def no_order(known: Planned, who: str = "") -> NoOrder | None:
    """Why not all rules hold, where they do not."""
    circle = known.found.circle
    if circle is None:
        return None
    said = tuple(
        (id_, tie_words.rule_words(known.rules[id_], known.called))
        for id_ in tie_words.droppable(circle)
    )
    return NoOrder(tie_words.circle_words(circle, known.words(who)), said, known.found.suspended)


@dataclass(frozen=True, slots=True)
class Reasons:
    """Why a step stands where it does: a sentence for each tie, the nearest first; and the rules
    that name it."""

    held: tuple[str, ...]
    forced: tuple[str, ...]
    rules: tuple[RuleRow, ...]


def reasons(store: Store, job_id: int, ref: Ref, *, who: str = "") -> Reasons:
    """What holds a step back, what brought it forward, and which rules name it."""
    known = planned(store, job_id)
    words = known.words(who)
    found = why(known.plan, ref)
    rules = (rule for rule in known.rows.rules if ref in rule.members)
    return Reasons(
        tie_words.held_words(found.held, words),
        tie_words.forced_words(found.pulled, words),
        tuple(row_of(known, rule) for rule in rules),
    )


def areas_opened(areas: Sequence[Area], removal_id: int) -> tuple[str, ...]:
    """The names of the areas that a removal opens."""
    return tuple(area.name for area in areas if area.opener_id == removal_id)
