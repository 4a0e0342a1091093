"""The things a job is made of, as frozen rows: what crosses between store, services and window."""

from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum

from bagtag.domain.datum import Datum, Side
from bagtag.domain.fitting import Asked, Counted, Figure, Ref, part, task
from bagtag.domain.hardware import HeldBy
from bagtag.domain.send_out import BackCheck
from bagtag.domain.tightening import Pass
from bagtag.domain.which_way import Fact


class Fate(StrEnum):
    """What becomes of a part."""

    REFIT = "refit"
    RENEW = "renew"
    DECIDE = "decide"
    SCRAP = "scrap"


class Hazard(StrEnum):
    """What can hurt, at the bench and at the build."""

    SPRING = "spring"
    HEAVY = "heavy"
    SHARP = "sharp"
    FRAGILE = "fragile"
    HOT = "hot"
    FUEL = "fuel"
    PRESSURE = "pressure"


class Origin(StrEnum):
    """How a line came into the log: it came off at the bench, an outside shop took it off, or it is
    a new part that was never on the machine."""

    OFF = "off"
    SHOP = "shop"
    NEW = "new"


class Replacement(StrEnum):
    """Where the new part of a renewal stands."""

    WANTED = "wanted"
    ORDERED = "ordered"
    HERE = "here"


class ContainerKind(StrEnum):
    BAG = "bag"
    TRAY = "tray"
    TOTE = "tote"
    SHELF = "shelf"


class TagRole(StrEnum):
    """What a tag hangs on; the twins are two matching tags, on the part and on its place. That of a
    task stands on the checklist only, that of a send-out on its traveller."""

    BLANK = "blank"
    CONTAINER = "container"
    PART = "part"
    TWIN_PART = "twin, on the part"
    TWIN_PLACE = "twin, on its place"
    TASK = "task, on the checklist"
    SEND_OUT = "send-out, on its traveller"


class PhotoRole(StrEnum):
    OFF = "as it came off"
    FITTED = "as fitted"
    SENT = "before it went out"
    RETURNED = "as it came back"


@dataclass(frozen=True, slots=True)
class Job:
    id: int
    uid: str
    number: int
    machine: str
    purpose: str = ""
    owner: str = ""
    note: str = ""
    datum: Datum = field(default_factory=Datum)
    opened_at: datetime | None = None

    @property
    def title(self) -> str:
        return f"{self.machine}, {self.purpose}" if self.purpose else self.machine


@dataclass(frozen=True, slots=True)
class Area:
    """A place in the machine; `opener_id` is the removal that gives access to it. `is_open` is a
    place that nothing covers, so that it needs none."""

    id: int
    job_id: int
    name: str
    parent_id: int | None = None
    opener_id: int | None = None
    rank: int = 0
    is_open: bool = False


@dataclass(frozen=True, slots=True)
class Removal:
    """One line of the strip log. `number` is what stands on its label and never changes;
    `position` is its place in the log.

    `kind` is the part kind a person chose; empty, its name says it. `side` is the side of the
    machine it sat on, `size` its own size as marked or measured ("25x42x7"), `unanswered` the
    questions of its kind that were skipped. `origin` says how it came into the log, `build_id` is
    the bench build it is a piece of, `asks` the figures asked for when it is signed off, `passes`
    how the manual tightens it, `tools` the special tools it needs, with commas between. `off_id` is
    the part that it was taken off before that went to a shop, or at the shop.
    """

    id: int
    uid: str
    job_id: int
    number: str
    position: int
    name: str
    quantity: int = 1
    area_id: int | None = None
    which_way: tuple[Fact, ...] = ()
    held_by: tuple[HeldBy, ...] = ()
    condition: str = ""
    fate: Fate = Fate.REFIT
    goes_on: str = ""
    note: str = ""
    container_id: int | None = None
    replacement: Replacement = Replacement.WANTED
    logged_at: datetime | None = None
    logged_by: str = ""
    version: int = 1
    kind: str = ""
    side: Side | None = None
    size: str = ""
    hazards: tuple[Hazard, ...] = ()
    unanswered: tuple[str, ...] = ()
    origin: Origin = Origin.OFF
    build_id: int | None = None
    asks: tuple[Asked, ...] = ()
    passes: tuple[Pass, ...] = ()
    tools: str = ""
    off_id: int | None = None


@dataclass(frozen=True, slots=True)
class Container:
    id: int
    job_id: int
    kind: ContainerKind
    name: str
    parent_id: int | None = None

    @property
    def label(self) -> str:
        """`bag 12`, `shelf B`."""
        return f"{self.kind.value} {self.name}".strip()


@dataclass(frozen=True, slots=True)
class Tag:
    """A printed code and what it hangs on. Twins share `pair`."""

    id: int
    code: str
    role: TagRole
    job_id: int | None = None
    removal_id: int | None = None
    container_id: int | None = None
    pair: str = ""
    task_id: int | None = None
    send_out_id: int | None = None


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture of a removal. `hash` is the sha256 of the file as it came; `ext` has no dot."""

    id: int
    removal_id: int
    hash: str
    ext: str
    name: str
    role: PhotoRole
    taken_at: datetime | None
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class SignOff:
    """A fitting done, by whom and when: of a removal or of a task.

    `reason` is why it was signed although it waited or a figure was out of its limits; `figures`
    and `counts` are what was asked for.
    """

    id: int
    removal_id: int | None
    who: str
    at: datetime
    note: str = ""
    task_id: int | None = None
    reason: str = ""
    figures: tuple[Figure, ...] = ()
    counts: tuple[Counted, ...] = ()

    @property
    def ref(self) -> Ref:
        return task(self.task_id) if self.task_id is not None else part(self.removal_id or 0)


@dataclass(frozen=True, slots=True)
class Away:
    """A part at an outside shop; `back_at` is empty while it is there.

    `send_out_id` is the batch it went with; `asks` are the figures wanted ("bore to"), `figures`
    those measured when it came back, `checks` what was looked at then and found right.
    """

    id: int
    removal_id: int
    shop: str
    work: str
    sent_at: datetime
    due: date | None = None
    back_at: datetime | None = None
    send_out_id: int | None = None
    asks: tuple[Asked, ...] = ()
    figures: tuple[Figure, ...] = ()
    checks: tuple[BackCheck, ...] = ()
    back_by: str = ""
    back_note: str = ""
