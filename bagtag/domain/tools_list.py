"""The list of what to lay out for some steps, told from their hardware and from what goes on."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from bagtag.domain.kinds import fold
from bagtag.domain.threads import Threads
from bagtag.domain.tools import ToolKind, ToolNeed, ToolSheet, ToolStep
from bagtag.domain.tools_turning import turned, turning, unknown
from bagtag.domain.tools_work import Want, Work, of_line, of_step
from bagtag.domain.tools_wrench import tightened, torque_needs
from bagtag.domain.wrench import Wrench

_ORDER = {kind: place for place, kind in enumerate(ToolKind)}


def sheet(
    works: Sequence[Work],
    threads: Threads,
    wrenches: Sequence[Wrench] = (),
    *,
    span: str = "",
    today: date | None = None,
) -> ToolSheet:
    """What to lay out for these steps, each with the steps that need it; `works` are in the order
    of the plan, `wrenches` those of the bench, `today` adds a word on their calibration."""
    found = turned(works, threads)
    rows = [*turning(found), *torque_needs(works, wrenches, today), *_wanted(works)]
    return ToolSheet(
        rows=_merged(rows),
        steps=len(works),
        span=span,
        unknown=unknown(works, found),
        has_torque=any(tightened(works)),
    )


def _merged(rows: Sequence[ToolNeed]) -> tuple[ToolNeed, ...]:
    """By kind, each in the order it came; one name told in two ways is one row."""
    found: dict[tuple[ToolKind, str], ToolNeed] = {}
    for row in sorted(rows, key=lambda row: _ORDER[row.kind]):
        same = found.setdefault((row.kind, fold(row.name)), row)
        if same is not row:
            found[row.kind, fold(row.name)] = _one(same, row)
    return tuple(found.values())


def _one(first: ToolNeed, other: ToolNeed) -> ToolNeed:
    steps = sorted({*first.steps, *other.steps}, key=lambda step: step.place)
    return replace(
        first,
        steps=tuple(steps),
        is_likely=first.is_likely and other.is_likely,
        notes=tuple(dict.fromkeys((*first.notes, *other.notes))),
    )


def _wanted(works: Sequence[Work]) -> list[ToolNeed]:
    """What steps ask for beside what turns their fasteners, one row for each name."""
    by_name: dict[tuple[ToolKind, str], list[tuple[Want, ToolStep]]] = defaultdict(list)
    for work in works:
        for want in _of(work):
            by_name[want.kind, fold(want.name)].append((want, replace(work.step, what=want.what)))
    return [_need(by_name[key]) for key in sorted(by_name)]


def _of(work: Work) -> Iterator[Want]:
    """Every want of a step, each once."""
    every = [want for line in work.lines for want in of_line(work, line)]
    return iter(dict.fromkeys([*every, *of_step(work)]))


def _need(wants: Sequence[tuple[Want, ToolStep]]) -> ToolNeed:
    first = wants[0][0]
    return ToolNeed(
        name=first.name,
        kind=first.kind,
        steps=tuple(step for _, step in wants),
        is_likely=all(want.is_likely for want, _ in wants),
    )
