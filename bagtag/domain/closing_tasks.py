"""Tasks, hold points and final tightenings that nobody signed: the job does not close with them
open, though no piece is missing."""

from collections.abc import Iterator

from bagtag.domain.closing_bench import Bench
from bagtag.domain.closing_rows import Leftover, Likely
from bagtag.domain.contradictions_common import called
from bagtag.domain.fitting import Task, TaskKind, task
from bagtag.domain.phrases import capital

_LIKELY = {TaskKind.TIGHTENING: Likely.UNTIGHTENED, TaskKind.HOLD_POINT: Likely.UNSEEN}


def found(bench: Bench) -> Iterator[Leftover]:
    for one in sorted(bench.closing.tasks, key=lambda one: one.id):
        if task(one.id) not in bench.closing.sign_offs:
            yield _open(bench, one)


def _open(bench: Bench, one: Task) -> Leftover:
    opener = bench.closed_by(task(one.id))
    over = f"{called(opener)} is on over it" if opener else ""
    subject, said = _said(bench, one)
    return Leftover(
        Likely.LEFT_OUT if opener else _LIKELY.get(one.kind, Likely.UNDONE),
        subject,
        ", and ".join(filter(None, (said, over))),
        task_id=one.id,
        other_id=opener.id if opener else 0,
    )


def _said(bench: Bench, one: Task) -> tuple[str, str]:
    name = capital(one.name or one.kind.value)
    match one.kind:
        case TaskKind.TIGHTENING:
            part = bench.by_id.get(one.removal_id or 0)
            if part is not None:
                return f"The final torque of {called(part)} was never signed", ""
            return name, "the final torque was never signed"
        case TaskKind.HOLD_POINT:
            return name, "never signed by a second pair of eyes, as a hold point must be"
    return name, "never signed"
