"""Problems of the order of a build, as a person might set them and as nobody would."""

import random
from collections.abc import Iterable
from dataclasses import replace
from typing import TypeGuard

from hypothesis import strategies as st

from bagtag.domain.fitting import Anchor, Beside, Ref, part, task
from bagtag.domain.model import Area
from bagtag.domain.order_problem import (
    Added,
    Because,
    Circle,
    Item,
    Plan,
    Problem,
    Tie,
    Together,
)

RULES = {Because.FIRST: False, Because.BENCH: False, Because.UNTIL: True, Because.TIGHTENING: True}
PARTS = tuple(part(number) for number in range(1, 9))
TASKS = tuple(task(number) for number in range(1, 5))
ABSENT = part(99)


@st.composite
def area_trees(draw, parts=PARTS, most=4):
    count = draw(st.integers(0, most))
    opener = st.none() | st.sampled_from([ref.id for ref in parts]) if parts else st.none()
    return tuple(
        Area(n, 1, f"area {n}", draw(st.none() | st.integers(1, n - 1)) if n > 1 else None,
             draw(opener))
        for n in range(1, count + 1)
    )  # fmt: skip


@st.composite
def added_steps(draw, refs, in_area):
    tasks = TASKS[: draw(st.integers(0, len(TASKS)))]
    of = st.none() | st.sampled_from([*refs, *tasks, ABSENT])
    anchor = st.builds(Anchor, st.sampled_from(Beside), of)
    after_all = st.lists(st.sampled_from([*refs, *tasks, ABSENT]), max_size=3).map(tuple)
    return tuple(
        Added(Item(ref, draw(in_area)), draw(anchor), draw(st.just(()) | after_all))
        for ref in tasks
    )


@st.composite
def tie_lists(draw, refs, most=5):
    """Mostly one way along some hidden order, so that most problems have a plan."""
    hidden = draw(st.permutations(refs)) if refs else ()
    ties = []
    for source in range(1, draw(st.integers(0, most)) + 1):
        pair = draw(st.lists(st.sampled_from(refs), min_size=2, max_size=2)) if refs else ()
        if draw(st.integers(0, 9)):
            pair = sorted(pair, key=hidden.index)
        if pair:
            because = draw(st.sampled_from(list(RULES)))
            ties.append(Tie(*pair, RULES[because], because, source))
    return tuple(ties)


@st.composite
def problems(draw, least=0, most=8, added=True, together=True, signed=True, rules=True):
    parts = PARTS[: draw(st.integers(least, most))]
    areas = draw(area_trees(parts))
    in_area = st.sampled_from([None, 98, *(area.id for area in areas)])
    log = tuple(Item(ref, draw(in_area)) for ref in draw(st.permutations(parts)))
    rows = draw(added_steps(parts, in_area)) if added else ()
    refs = [*parts, *(row.item.ref for row in rows)]
    any_of = st.lists(st.sampled_from([*refs, ABSENT]), max_size=4).map(tuple)
    sets = draw(st.lists(any_of, max_size=2)) if together else ()
    return Problem(
        log,
        areas,
        rows,
        draw(tie_lists(refs)) if rules else (),
        tuple(Together(members, 100 + n) for n, members in enumerate(sets)),
        tuple(draw(st.lists(st.sampled_from([*refs, ABSENT]), unique=True, max_size=4)))
        if signed else (),
    )  # fmt: skip


def a_problem(chance: random.Random, *, sets: float = 0.3) -> Problem:
    """Three to eight parts, up to three areas and four ties, sometimes a together set."""
    parts = PARTS[: chance.randint(3, 8)]
    opener = [None, *(ref.id for ref in parts)]
    areas = tuple(
        Area(n, 1, f"area {n}", chance.choice([None, *range(1, n)]), chance.choice(opener))
        for n in range(1, chance.randint(0, 3) + 1)
    )
    lies_in = [None, *(area.id for area in areas)]
    log = [Item(ref, chance.choice(lies_in)) for ref in chance.sample(parts, len(parts))]
    hidden = chance.sample(parts, len(parts))
    ties = [a_tie(chance, hidden, source) for source in range(1, chance.randint(0, 4) + 1)]
    members = tuple(chance.sample(parts, 2)) if chance.random() < sets else ()
    return Problem(log, areas, (), ties, [Together(members, 100)])


def a_tie(chance: random.Random, hidden: list[Ref], source: int) -> Tie:
    before, after = sorted(chance.sample(hidden, 2), key=hidden.index)
    because = chance.choice(list(RULES))
    return Tie(before, after, RULES[because], because, source)


def is_plan(found: Plan | Circle) -> TypeGuard[Plan]:
    return isinstance(found, Plan)


def refs(found: Plan | Circle) -> tuple[int | Ref, ...]:
    """The order, each part by its number alone."""
    assert isinstance(found, Plan)
    return tuple(ref.id if ref.kind == "part" else ref for ref in found.order)


def log_of(*lines: int | tuple[int, int]) -> tuple[Item, ...]:
    """Lines in the order off: a part's number, or that and its area."""
    return tuple(
        Item(part(line)) if isinstance(line, int) else Item(part(line[0]), line[1])
        for line in lines
    )


def pull(before: int | Ref, after: int | Ref, source: int = 1) -> Tie:
    return Tie(_ref(before), _ref(after), False, Because.FIRST, source)


def wait(before: int | Ref, after: int | Ref, source: int = 1) -> Tie:
    return Tie(_ref(before), _ref(after), True, Because.UNTIL, source)


def _ref(named: int | Ref) -> Ref:
    return part(named) if isinstance(named, int) else named


def is_circle(found: Plan | Circle) -> TypeGuard[Circle]:
    return isinstance(found, Circle)


def sources(ties: Iterable[Tie]) -> set[int]:
    return {tie.source for tie in ties}


@st.composite
def contrary(draw, most=8):
    """Problems whose ties go every way, so that most of them have a circle."""
    problem = draw(problems(3, most, added=False, rules=False))
    order = draw(st.permutations([item.ref for item in problem.log]))
    pairs = [(before, after) for before in order for after in order if before != after]
    said = st.tuples(st.sampled_from(pairs), st.sampled_from(list(RULES)))
    rows = draw(st.lists(said, min_size=3, max_size=7))
    ties = tuple(Tie(*pair, RULES[why], why, n) for n, (pair, why) in enumerate(rows, 1))
    return replace(problem, ties=ties)
