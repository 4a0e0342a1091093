"""What a build checklist says: plain rows, no PDF."""

from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path

from bagtag.domain.datum import Datum
from bagtag.domain.fitting import Asked, Counted, Figure, TaskKind
from bagtag.domain.hardware import OVERRIDE, HeldBy
from bagtag.domain.holes import HoleMap
from bagtag.domain.model import Fate, Origin
from bagtag.domain.schedule import Round
from bagtag.domain.which_way import Fact

CAUTIONS = (
    OVERRIDE,
    "Springs under load fly: hold them back, and wear eye protection.",
    "Lift castings with help or a hoist; keep fingers out of the joint.",
    "Hot parts burn long after they look cold: let them cool, or use heat-proof gloves.",
    "Fuel and its vapour catch fire: no flame, no spark, fresh air.",
    "Torque-to-yield bolts are not used again, nor are circlips, split pins and self-locking nuts.",
    "Local codes apply: work that asks for a licence is done by someone who holds it.",
)
"""The usual cautions of the trade (common practice, no source), the manual's word first."""


@dataclass(frozen=True, slots=True)
class ChecklistHeader:
    """The job the checklist is for, and the day it is printed; `area` where it is of one alone."""

    title: str
    printed: date
    owner: str = ""
    datum: Datum = field(default_factory=Datum)
    area: str = ""


@dataclass(frozen=True, slots=True)
class SignedOff:
    """A step that is done: by whom and when, why out of order, and the figures that were given."""

    who: str
    at: datetime
    reason: str = ""
    figures: tuple[Figure, ...] = ()
    counts: tuple[Counted, ...] = ()


@dataclass(frozen=True, slots=True)
class ChecklistPiece:
    """A piece of a bench build, in the order of its own small plan; `number` counts in the whole
    build, `depth` how many bench builds it lies in within this one."""

    number: int
    name: str
    quantity: int = 1
    done: bool = False
    depth: int = 0


@dataclass(frozen=True, slots=True)
class ChecklistStep:
    """One step of the build. `number` counts in the build, `removal` is the number in the strip
    log; `code` is bare, `thumbnail` a picture file, `waits` what keeps it
    from going in now.

    `task` is what kind of task it is, None for a part; `within` the bench build it belongs to,
    `pieces` those of a bench build; `along` what goes in together with it, as one step. `later`
    names the step after which its final torque follows: now its fasteners are only run in by hand.
    Of a final tightening `held_by` are the fasteners that are tightened. `asks` are the figures
    asked for; `not_by` who must not sign a hold point.

    `rounds` are the passes of a joint in turn, those in `ticked` done, `uses` what the wrench is
    set to in each, empty where nothing is to be said; without rounds `uses` are of the full torque.
    `tools` are special tools it needs.
    """

    number: int
    name: str
    removal: str = ""
    quantity: int = 1
    area: str = ""
    facts: tuple[Fact, ...] = ()
    datum: Datum = field(default_factory=Datum)
    held_by: tuple[HeldBy, ...] = ()
    goes_on: str = ""
    home: str = ""
    fate: Fate = Fate.REFIT
    note: str = ""
    thumbnail: Path | None = None
    code: str = ""
    done: SignedOff | None = None
    waits: tuple[str, ...] = ()
    task: TaskKind | None = None
    origin: Origin = Origin.OFF
    within: str = ""
    pieces: tuple[ChecklistPiece, ...] = ()
    along: tuple[str, ...] = ()
    later: str = ""
    asks: tuple[Asked, ...] = ()
    not_by: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    hole_map: HoleMap | None = None
    rounds: tuple[Round, ...] = ()
    ticked: frozenset[int] = frozenset()
    uses: tuple[str, ...] = ()
    tools: str = ""


@dataclass(frozen=True, slots=True)
class ChecklistReport:
    """What was printed, and what could not be, step by step."""

    pages: int
    steps: int
    warnings: tuple[str, ...]
