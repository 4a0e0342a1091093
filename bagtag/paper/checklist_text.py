"""What a build checklist says: plain rows, no PDF."""

from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path

from bagtag.domain.datum import Datum
from bagtag.domain.hardware import OVERRIDE, HeldBy
from bagtag.domain.model import Fate
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
    """The job the checklist is for, and the day it is printed."""

    title: str
    printed: date
    owner: str = ""
    datum: Datum = field(default_factory=Datum)


@dataclass(frozen=True, slots=True)
class SignedOff:
    """A step that is done: by whom and when."""

    who: str
    at: datetime


@dataclass(frozen=True, slots=True)
class ChecklistStep:
    """One step of the build. `number` counts in the build, `removal` is the number in the strip
    log; `code` is bare, `thumbnail` a picture file, `waits` what keeps it
    from going in now."""

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


@dataclass(frozen=True, slots=True)
class ChecklistReport:
    """What was printed, and what could not be, step by step."""

    pages: int
    steps: int
    warnings: tuple[str, ...]
