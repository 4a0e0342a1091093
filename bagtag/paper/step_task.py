"""What a task is called on paper: the word on its pill, and what its signature says."""

from bagtag.domain.fitting import TaskKind
from bagtag.paper.checklist_text import ChecklistStep

_WORDS = {
    TaskKind.CLEAN: ("CLEAN", "cleaned by"),
    TaskKind.OIL: ("OIL", "oiled by"),
    TaskKind.PRELUBE: ("PRELUBE", "done by"),
    TaskKind.PLASTIGAUGE: ("MEASURE", "measured by"),
    TaskKind.END_FLOAT: ("MEASURE", "measured by"),
    TaskKind.FILL_OIL: ("FILL OIL", "filled by"),
    TaskKind.INSPECT: ("INSPECT", "inspected by"),
    TaskKind.HOLD_POINT: ("HOLD POINT", "signed by"),
    TaskKind.BENCH_BUILD: ("BENCH BUILD", "built by"),
    TaskKind.TIGHTENING: ("TIGHTEN", "tightened by"),
    TaskKind.OTHER: ("TASK", "done by"),
}


def pill_of(kind: TaskKind) -> str:
    return _WORDS[kind][0]


def done_by(step: ChecklistStep) -> str:
    """`fitted by`, `oiled by`: small, as before a line to sign on."""
    return _WORDS[step.task][1] if step.task is not None else "fitted by"


def is_hold(step: ChecklistStep) -> bool:
    return step.task is TaskKind.HOLD_POINT


def is_tightening(step: ChecklistStep) -> bool:
    return step.task is TaskKind.TIGHTENING
