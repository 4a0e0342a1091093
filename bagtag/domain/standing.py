"""Where a removal stands in the build, in one word, and what keeps it."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum, StrEnum

from bagtag.domain.fitting import Ref, part
from bagtag.domain.model import Fate, Origin, Replacement


class Standing(StrEnum):
    OFF = "off"
    NEXT = "next"
    WAITS = "waits"
    AWAY = "away"
    IN = "in"
    SCRAPPED = "scrapped"


@dataclass(frozen=True, slots=True)
class Outline:
    """As much of a removal as the build needs to know, cheap to read by the thousand."""

    id: int
    number: str
    name: str
    area_id: int | None
    fate: Fate
    replacement: Replacement
    origin: Origin = Origin.OFF
    build_id: int | None = None

    @property
    def ref(self) -> Ref:
        return part(self.id)

    @property
    def called(self) -> str:
        return f"{self.number} {self.name}"


class Reach(IntEnum):
    """How near a step is: it can go in now, today after others, or it waits for something that no
    fitting settles."""

    NOW = 0
    TODAY = 1
    WAITS = 2


class Keeps(StrEnum):
    """What sort of thing keeps a step out."""

    AWAY = "away"
    NEW_PART = "new part"
    DECISION = "decision"
    STEP = "step"
    BEHIND = "behind"


@dataclass(frozen=True, slots=True)
class Hindrance:
    """One thing that must happen first; `ref` where it is another step."""

    sentence: str
    ref: Ref | None = None
    keeps: Keeps = Keeps.STEP

    @property
    def removal_id(self) -> int | None:
        return self.ref.removal_id if self.ref is not None else None


def of_its_own(removal: Outline, shop: str | None) -> tuple[Hindrance, ...]:
    """What keeps a part out of the build whatever the others do: away, not here, undecided."""
    found: list[Hindrance] = []
    if shop is not None:
        said = f"it is away at {shop}" if shop else "it is away"
        found.append(Hindrance(said, keeps=Keeps.AWAY))
    if removal.fate is Fate.RENEW and removal.replacement is not Replacement.HERE:
        word = "on order" if removal.replacement is Replacement.ORDERED else "not here yet"
        found.append(Hindrance(f"the new part is {word}", keeps=Keeps.NEW_PART))
    if removal.fate is Fate.DECIDE:
        said = "it is still to be inspected or measured and decided"
        found.append(Hindrance(said, keeps=Keeps.DECISION))
    return tuple(found)


def standing(
    removal: Outline, *, fitted: bool, away: bool, hindrances: Sequence[Hindrance]
) -> Standing:
    """One word for the strip and the board."""
    if removal.fate is Fate.SCRAP:
        return Standing.SCRAPPED
    if fitted:
        return Standing.IN
    if away:
        return Standing.AWAY
    return Standing.WAITS if hindrances else Standing.NEXT


def reach(word: Standing, roots: Sequence[Ref]) -> Reach:
    """`roots` are the steps that keep it out by themselves."""
    if word in {Standing.NEXT, Standing.IN}:
        return Reach.NOW
    return Reach.WAITS if roots or word is Standing.AWAY else Reach.TODAY
