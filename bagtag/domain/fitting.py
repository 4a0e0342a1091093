"""The steps of a build: removals that go back, and what is added to them; rules; sign-offs."""

from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from typing import NamedTuple

PART, TASK = "part", "task"


class Ref(NamedTuple):
    """Names a step of the build: a removal going back (`part`), or a task."""

    kind: str
    id: int

    @property
    def removal_id(self) -> int | None:
        return self.id if self.kind == PART else None

    @property
    def task_id(self) -> int | None:
        return self.id if self.kind == TASK else None


def part(removal_id: int) -> Ref:
    return Ref(PART, removal_id)


def task(task_id: int) -> Ref:
    return Ref(TASK, task_id)


class TaskKind(StrEnum):
    """What is done at the bench beside putting parts in. A bench build is a small build of its
    own, a final tightening the second stage of a part that was only run in by hand."""

    CLEAN = "clean"
    OIL = "oil"
    PRELUBE = "prelube"
    PLASTIGAUGE = "plastigauge"
    END_FLOAT = "end float"
    FILL_OIL = "fill oil"
    INSPECT = "inspect"
    HOLD_POINT = "hold point"
    BENCH_BUILD = "bench build"
    TIGHTENING = "final tightening"
    OTHER = "other"


class Beside(StrEnum):
    BEFORE = "before"
    AFTER = "after"


@dataclass(frozen=True, slots=True)
class Anchor:
    """Where a step stands that was never logged: before or after another; without another, before
    all or after all."""

    beside: Beside = Beside.AFTER
    of: Ref | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """A figure that is asked for when a step is signed off; limits belong to what is allowed.
    `given` is what it should be, where the manual gives that: a torque. `places` is how many
    decimals a person wrote, so that 76.50 is shown as that; it makes no other figure of it."""

    name: str
    unit: str = ""
    low: float | None = None
    high: float | None = None
    given: float | None = None
    places: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as it was given at sign-off, with the limits it was held against; `places` as in
    what was asked."""

    name: str
    value: float
    unit: str = ""
    low: float | None = None
    high: float | None = None
    places: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Counted:
    """Fasteners of one size that came off and that went back, at one step. `held` is the line of
    the part's hardware, from 0."""

    held: int
    off: int
    back: int


@dataclass(frozen=True, slots=True)
class Task:
    """A step of the build that is no removal.

    `build_id` is the bench build it belongs to; `removal_id` the part whose fasteners a final
    tightening tightens.
    """

    id: int
    uid: str
    job_id: int
    kind: TaskKind
    name: str
    anchor: Anchor = Anchor()
    area_id: int | None = None
    build_id: int | None = None
    removal_id: int | None = None
    asks: tuple[Asked, ...] = ()
    note: str = ""
    made_at: datetime | None = None
    made_by: str = ""


class RuleKind(StrEnum):
    FIRST = "fit first"
    UNTIL = "hold until"
    TOGETHER = "together"


@dataclass(frozen=True, slots=True)
class Rule:
    """The mechanic's own word on the order.

    Of `FIRST` the members are the step that needs and the step it needs in already; of `UNTIL` the
    step that is held and the one it is held until; of `TOGETHER` two or more that go in as one.
    """

    id: int
    job_id: int
    kind: RuleKind
    members: tuple[Ref, ...]
    why: str = ""
    made_at: datetime | None = None
    made_by: str = ""
