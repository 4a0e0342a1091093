"""Tasks, hold points and final tightenings that nobody signed: the job does not close with them
open, though no piece is missing."""

from collections.abc import Iterator

from bagtag.domain.closing_bench import Bench
from bagtag.domain.closing_rows import Leftover, Likely
from bagtag.domain.contradictions_common import called, capital
from bagtag.domain.fitting import Task, TaskKind, task

_LIKELY = {TaskKind.TIGHTENING: Likely.UNTIGHTENED, TaskKind.HOLD_POINT: Likely.UNSEEN}


def found(bench: Bench) -> Iterator[Leftover]:
    for one in sorted(bench.closing.tasks, key=lambda one: one.id):
        if task(one.id) not in bench.closing.sign_offs:
            yield _open(bench, one)


def _open(bench: Bench, one: Task) -> Leftover:
    opener = bench.closed_by(task(one.id))
    over = f", and {called(opener)} is on over it" if opener else ""
    return Leftover(
        Likely.LEFT_OUT if opener else _LIKELY.get(one.kind, Likely.UNDONE),
        f"{_said(bench, one)}{over}.",
        task_id=one.id,
        other_id=opener.id if opener else 0,
    )


def _said(bench: Bench, one: Task) -> str:
    name = capital(one.name or one.kind.value)
    match one.kind:
        case TaskKind.TIGHTENING:
            part = bench.by_id.get(one.removal_id or 0)
            what = f"The final torque of {called(part)}" if part else f"{name}: the final torque"
            return f"{what} was never signed"
        case TaskKind.HOLD_POINT:
            return f"{name}: the hold point was never signed, a second pair of eyes must look"
    return f"{name}: never signed"
