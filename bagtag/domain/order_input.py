"""From the rows of a job to what the order of its build is computed from."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from bagtag.domain.fitting import Anchor, Beside, Ref, Rule, RuleKind, Task, TaskKind, part, task
from bagtag.domain.model import Area, Fate
from bagtag.domain.order_problem import Added, Because, Item, Problem, Tie, Together
from bagtag.domain.standing import Outline


@dataclass(frozen=True, slots=True)
class BuildRows:
    """What is known of a job's build. `log` is in the order off, `signed` in the order signed."""

    log: Sequence[Outline]
    areas: Sequence[Area] = ()
    tasks: Sequence[Task] = ()
    rules: Sequence[Rule] = ()
    signed: Sequence[Ref] = ()


def problem(rows: BuildRows) -> Problem:
    """What the order is computed from; scrapped parts are left out."""
    log = [line for line in rows.log if line.fate is not Fate.SCRAP]
    places = areas_of_steps(rows)
    pieces = pieces_of_builds(rows)
    stead = _in_the_stead_of_scrapped(rows.log)
    return Problem(
        log=[Item(line.ref, line.area_id) for line in log],
        areas=rows.areas,
        added=[_added(one, places, pieces, stead) for one in rows.tasks],
        ties=[*_task_ties(rows.tasks, pieces), *_rule_ties(rows.rules)],
        together=[Together(r.members, r.id) for r in rows.rules if r.kind is RuleKind.TOGETHER],
        signed=rows.signed,
    )


def pieces_of_builds(rows: BuildRows) -> dict[int, list[Ref]]:
    """The pieces of each bench build, by the id of its task."""
    pieces: dict[int, list[Ref]] = {}
    for ref, build_id in (
        *((line.ref, line.build_id) for line in rows.log if line.fate is not Fate.SCRAP),
        *((task(one.id), one.build_id) for one in rows.tasks),
    ):
        if build_id is not None:
            pieces.setdefault(build_id, []).append(ref)
    return pieces


def _in_the_stead_of_scrapped(log: Sequence[Outline]) -> dict[Ref, Anchor]:
    """Where a task stands whose part is scrapped: after what went in before that part."""
    found: dict[Ref, Anchor] = {}
    last = Anchor(Beside.BEFORE)
    for line in reversed(log):
        if line.fate is Fate.SCRAP:
            found[line.ref] = last
        else:
            last = Anchor(Beside.AFTER, line.ref)
    return found


def _added(
    one: Task,
    places: Mapping[Ref, int | None],
    pieces: Mapping[int, list[Ref]],
    stead: Mapping[Ref, Anchor],
) -> Added:
    ref = task(one.id)
    after_all: tuple[Ref, ...] = ()
    if one.kind is TaskKind.BENCH_BUILD:
        after_all = tuple(pieces.get(one.id, ()))
    elif one.kind is TaskKind.TIGHTENING:
        after_all = tuple(_waited_for(one))
    anchor = stead.get(one.anchor.of, one.anchor) if one.anchor.of else one.anchor
    return Added(Item(ref, places.get(ref)), anchor, after_all)


def _waited_for(tightening: Task) -> Iterable[Ref]:
    if tightening.removal_id is not None:
        yield part(tightening.removal_id)
    if tightening.anchor.of is not None:
        yield tightening.anchor.of


def _task_ties(tasks: Iterable[Task], pieces: Mapping[int, list[Ref]]) -> Iterable[Tie]:
    """A task beside another step stays on its side of it, wherever that step goes."""
    for one in tasks:
        ref, anchor = task(one.id), one.anchor
        if one.kind is TaskKind.TIGHTENING:
            yield from (Tie(of, ref, True, Because.TIGHTENING) for of in _waited_for(one))
        elif one.kind is TaskKind.BENCH_BUILD:
            yield from (Tie(of, ref, False, Because.BENCH) for of in pieces.get(one.id, ()))
        if one.kind is TaskKind.TIGHTENING or anchor.of is None:
            continue
        if anchor.beside is Beside.AFTER:
            yield Tie(anchor.of, ref, True, Because.ANCHOR)
        else:
            yield Tie(ref, anchor.of, False, Because.ANCHOR)


def _rule_ties(rules: Iterable[Rule]) -> Iterable[Tie]:
    for rule in rules:
        if rule.kind is RuleKind.FIRST:
            needs, first = rule.members
            yield Tie(first, needs, False, Because.FIRST, rule.id)
        elif rule.kind is RuleKind.UNTIL:
            held, until = rule.members
            yield Tie(until, held, True, Because.UNTIL, rule.id)


def areas_of_steps(rows: BuildRows) -> dict[Ref, int | None]:
    """Where each step is done: a task where it says, else where the step beside it is done, a
    bench build in the area that all its pieces lie in."""
    found: dict[Ref, int | None] = {line.ref: line.area_id for line in rows.log}
    parents = {area.id: area.parent_id for area in rows.areas}
    pieces = pieces_of_builds(rows)
    open_ = {task(one.id): one for one in rows.tasks}
    for ref in list(open_):
        _settle(ref, open_, found, pieces, parents)
    return found


def _settle(
    ref: Ref,
    open_: dict[Ref, Task],
    found: dict[Ref, int | None],
    pieces: Mapping[int, list[Ref]],
    parents: Mapping[int, int | None],
) -> int | None:
    one = open_.pop(ref, None)
    if one is None:
        return found.get(ref)
    if one.area_id is not None:
        found[ref] = one.area_id
    elif pieces.get(one.id):
        inner = [_settle(piece, open_, found, pieces, parents) for piece in pieces[one.id]]
        found[ref] = common_area(inner, parents)
    else:
        of = one.anchor.of
        found[ref] = _settle(of, open_, found, pieces, parents) if of is not None else None
    return found[ref]


def common_area(ids: Sequence[int | None], parents: Mapping[int, int | None]) -> int | None:
    """The innermost area that has all of these in it; None for none."""
    paths = [_upwards(id_, parents) for id_ in ids]
    shared = set(paths[0]).intersection(*paths) if paths else set()
    return next((id_ for id_ in paths[0] if id_ in shared), None) if paths else None


def _upwards(area_id: int | None, parents: Mapping[int, int | None]) -> list[int]:
    path: list[int] = []
    while area_id is not None and area_id in parents and area_id not in path:
        path.append(area_id)
        area_id = parents[area_id]
    return path
