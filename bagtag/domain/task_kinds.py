"""What a kind of task is called, asks for and stands beside unless it is told otherwise. Common
practice, no source."""

from bagtag.domain.fitting import Asked, Beside, TaskKind

NAMES = {
    TaskKind.CLEAN: "clean",
    TaskKind.OIL: "oil",
    TaskKind.PRELUBE: "prelube",
    TaskKind.PLASTIGAUGE: "gauge the bearing clearance (plastigauge)",
    TaskKind.END_FLOAT: "measure the end float",
    TaskKind.FILL_OIL: "fill with oil",
    TaskKind.INSPECT: "inspect",
    TaskKind.HOLD_POINT: "hold point: a second pair of eyes",
    TaskKind.BENCH_BUILD: "bench build",
    TaskKind.TIGHTENING: "final torque",
    TaskKind.OTHER: "",
}
"""What a task is called that is given no name."""

_ASKS: dict[TaskKind, tuple[Asked, ...]] = {
    TaskKind.PLASTIGAUGE: (Asked("clearance", "mm"),),
    TaskKind.END_FLOAT: (Asked("end float", "mm"),),
    TaskKind.FILL_OIL: (Asked("oil filled", "l"),),
}
_BEFORE = (TaskKind.CLEAN, TaskKind.OIL)


def usual_asks(kind: TaskKind) -> tuple[Asked, ...]:
    """The figures that are asked for at its sign-off."""
    return _ASKS.get(kind, ())


def usual_side(kind: TaskKind) -> Beside:
    """A part is cleaned and oiled before it goes in; all else is done after."""
    return Beside.BEFORE if kind in _BEFORE else Beside.AFTER
