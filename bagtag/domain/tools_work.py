"""One step of the build as its tools are told from it, and what it asks for beside a wrench.

Which tool a kind of part or a way of locking takes is common practice of the trade, no source.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto

from bagtag.domain.fitting import TaskKind
from bagtag.domain.hardware import HeldBy
from bagtag.domain.schedule import Round
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.tools import ToolKind, ToolStep
from bagtag.domain.tools_consumables import locker, lubricant, substances

THREADLOCKER = "threadlocker"
ANGLE_GAUGE = "angle gauge"


class Stage(Enum):
    """How far a step takes its fasteners: all the way, run in by hand, or the final torque of what
    was run in before."""

    WHOLE = auto()
    RUN_IN = auto()
    TIGHTEN = auto()


@dataclass(frozen=True, slots=True)
class Work:
    """One step still to do. `tools` are the special tools noted, with commas between; `goes_on` is
    what a person said, `usual` what its kind of part (`part`) takes where nobody said."""

    step: ToolStep
    held_by: tuple[HeldBy, ...] = ()
    passes: tuple[Pass, ...] = ()
    tools: str = ""
    goes_on: str = ""
    usual: str = ""
    part: str = ""
    task: TaskKind | None = None
    rounds: tuple[Round, ...] = ()
    stage: Stage = Stage.WHOLE

    @property
    def lines(self) -> tuple[HeldBy, ...]:
        """The hardware that is turned in this step."""
        return tuple(line for line in self.held_by if line.count != 0)

    @property
    def tightens(self) -> bool:
        return self.stage is not Stage.RUN_IN


@dataclass(frozen=True, slots=True)
class Want:
    """One thing that a step asks for, and what for."""

    kind: ToolKind
    name: str
    what: str = ""
    is_likely: bool = False


def of_line(work: Work, line: HeldBy) -> Iterator[Want]:
    """What a line of hardware asks for beside what turns it."""
    yield from _hands(line)
    if line.tool:
        yield from _special(line.tool, line.called())
    if work.tightens:
        yield from _tightening(line)
    if work.stage is not Stage.TIGHTEN:
        yield from _on_threads(line)


def of_step(work: Work) -> Iterator[Want]:
    """What a step asks for beside its hardware: special tools, what goes on, tools of its kind."""
    if work.stage is not Stage.TIGHTEN:
        yield from _special(work.tools, "")
        yield from _goes_on(work)
        yield from _usual(work)
    if work.tightens and any(one.kind is PassKind.ANGLE for one in work.passes):
        yield Want(ToolKind.TORQUE, ANGLE_GAUGE)
    if work.task is not None:
        yield from (Want(kind, name) for kind, name in _TASKS.get(work.task, ()))


def _special(tools: str, what: str) -> Iterator[Want]:
    for name in re.split(r"[,;\n]", tools):
        if name.strip():
            yield Want(ToolKind.SPECIAL, " ".join(name.split()), what)


def _hands(line: HeldBy) -> Iterator[Want]:
    said = f"{line.kind} {line.locking} {line.washer}".casefold()
    for pattern, kind, name in _HANDS:
        if pattern.search(said):
            yield Want(kind, name, line.called())


def _tightening(line: HeldBy) -> Iterator[Want]:
    if line.angle is not None:
        yield Want(ToolKind.TORQUE, ANGLE_GAUGE, f"{line.called()}, {line.angle:g}°")
    if line.stretch is not None:
        what = f"{line.called()}, {line.stretch}"
        yield Want(ToolKind.TORQUE, "micrometer for the bolts' length", what)
    if line.adapter is not None:
        yield Want(ToolKind.TORQUE, f"{line.adapter} for the torque wrench", line.called())


def _on_threads(line: HeldBy) -> Iterator[Want]:
    if line.threadlocker:
        yield Want(ToolKind.CONSUMABLE, locker(line.threadlocker), line.called())
    for name in lubricant(line.lubrication):
        yield Want(ToolKind.CONSUMABLE, name, f"threads of {line.called()}")


def _goes_on(work: Work) -> Iterator[Want]:
    """A threadlocker is named by the hardware where that says its strength."""
    said = work.goes_on or work.usual
    has_locker = any(line.threadlocker for line in work.lines)
    for name in substances(said):
        if not (has_locker and name.startswith(THREADLOCKER)):
            yield Want(ToolKind.CONSUMABLE, name, said, is_likely=not work.goes_on)


def _usual(work: Work) -> Iterator[Want]:
    """What its kind of part usually takes, where nobody noted a tool of its own."""
    if work.tools:
        return
    for pattern, name in _PARTS:
        if pattern.search(work.part.casefold()):
            yield Want(ToolKind.OTHER, name, is_likely=True)
            return


def _rows(*rows: tuple[str, ToolKind, str]) -> tuple[tuple[re.Pattern[str], ToolKind, str], ...]:
    return tuple((re.compile(words), kind, name) for words, kind, name in rows)


CIRCLIP_PLIERS = "circlip pliers"
_HANDS = _rows(
    (r"\bcirclip|\bsnap ring|\bretaining ring", ToolKind.OTHER, CIRCLIP_PLIERS),
    (r"\bspring clip", ToolKind.OTHER, "pliers for spring clips"),
    (r"\broll pin|\bspring pin", ToolKind.OTHER, "hammer and pin punch"),
    (r"\bsplit pin|\bcotter", ToolKind.OTHER, "pliers and side cutters"),
    (r"\bstaked|\bpeened", ToolKind.OTHER, "hammer and centre punch"),
    (r"\bwired|\block ?wire|\bsafety wire", ToolKind.OTHER, "lock-wire pliers"),
    (r"\bwired|\block ?wire|\bsafety wire", ToolKind.CONSUMABLE, "lock wire"),
    (r"\btab\b", ToolKind.OTHER, "hammer and drift for the tab washer"),
    (r"\brivet", ToolKind.OTHER, "hammer and riveting tools"),
)
_PARTS = tuple(
    (re.compile(words), name)
    for words, name in (
        (r"\bcirclip|\bsnap ring", CIRCLIP_PLIERS),
        (r"\boil seal|\bvalve stem seal", "seal driver"),
        (r"\bbearing\b(?! cap| shell)", "bearing driver or press"),
        (r"^piston$", "ring compressor"),
        (r"\bpiston rings?\b|\boil ring", "ring pliers"),
        (r"\bvalve spring|\bcollets?\b|\bvalve cotter", "valve spring compressor"),
        (r"\broll pin|\bspring pin", "hammer and pin punch"),
    )
)
_TASKS: dict[TaskKind, tuple[tuple[ToolKind, str], ...]] = {
    TaskKind.CLEAN: ((ToolKind.CONSUMABLE, "lint-free cloths"),),
    TaskKind.OIL: ((ToolKind.OTHER, "oil can"), (ToolKind.CONSUMABLE, "oil, as the manual says")),
    TaskKind.PRELUBE: (
        (ToolKind.OTHER, "oil can"),
        (ToolKind.CONSUMABLE, "oil, as the manual says"),
    ),
    TaskKind.PLASTIGAUGE: ((ToolKind.CONSUMABLE, "clearance strip with its card"),),
    TaskKind.END_FLOAT: ((ToolKind.TORQUE, "dial gauge on its stand"),),
    TaskKind.FILL_OIL: (
        (ToolKind.OTHER, "funnel"),
        (ToolKind.CONSUMABLE, "oil, as the manual says"),
    ),
}
