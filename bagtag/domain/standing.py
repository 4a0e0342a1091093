"""Where a removal stands in the build, in one word, and what keeps it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from enum import IntEnum, StrEnum

from bagtag.domain.fitting import Ref, part
from bagtag.domain.model import Away, Fate, Origin, Replacement
from bagtag.domain.new_part import NewPart


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
    WORK = "work"
    MEASURING = "measuring"
    DECISION = "decision"
    STEP = "step"
    BEHIND = "behind"


@dataclass(frozen=True, slots=True)
class Hindrance:
    """One thing that must happen first; `ref` where it is another step. `due` is the day it is
    promised for, `whom` the shop or the supplier to ask, empty where nobody is waited for;
    `is_ordered` whether a new part is on order."""

    sentence: str
    ref: Ref | None = None
    keeps: Keeps = Keeps.STEP
    due: date | None = None
    whom: str = ""
    is_ordered: bool = False

    @property
    def removal_id(self) -> int | None:
        return self.ref.removal_id if self.ref is not None else None


@dataclass(frozen=True, slots=True)
class OpenSheet:
    """A measuring sheet of a part that is still to be decided: what it says in a line; whether it
    is read to its end, and whether it holds the part at all. `work` is what was wanted of a shop
    first, `is_worked` whether the part has been away since and is back: such a sheet holds the part
    no longer than the part is to be decided."""

    said: str
    is_measured: bool
    holds: bool = True
    work: str = ""
    is_worked: bool = False


@dataclass(frozen=True, slots=True)
class Between:
    """What is known of a part that lies between strip and build; `fasteners` are new ones that are
    ordered for it or are to be."""

    away: Away | None = None
    new_part: NewPart | None = None
    fasteners: tuple[NewPart, ...] = ()
    sheets: tuple[OpenSheet, ...] = ()


NOTHING = Between()


def of_its_own(removal: Outline, known: Between = NOTHING) -> tuple[Hindrance, ...]:
    """What keeps a part out of the build whatever the others do: away, not here, undecided."""
    found: list[Hindrance] = []
    if known.away is not None:
        shop, due = known.away.shop, known.away.due
        said = f"it is away at {shop}" if shop else "it is away"
        found.append(Hindrance(said, keeps=Keeps.AWAY, due=due, whom=shop))
    if removal.fate is Fate.RENEW and removal.replacement is not Replacement.HERE:
        found.append(_not_here(removal, known.new_part))
    found += [_to_come(one) for one in known.fasteners if one.state is not Replacement.HERE]
    return (*found, *_undecided(removal, known.sheets, known.away is not None))


def _not_here(removal: Outline, new: NewPart | None) -> Hindrance:
    ordered = removal.replacement is Replacement.ORDERED
    word = "on order" if ordered else "not here yet"
    due, whom = (new.due, new.supplier) if new is not None else (None, "")
    said = f"the new part is {word}"
    return Hindrance(said, None, Keeps.NEW_PART, due if ordered else None, whom, ordered)


def _to_come(one: NewPart) -> Hindrance:
    """Fasteners that are new each time, where somebody has begun to order them."""
    ordered = one.state is Replacement.ORDERED
    said = f"new {one.what or one.line}: {'on order' if ordered else 'not here yet'}"
    return Hindrance(
        said, None, Keeps.NEW_PART, one.due if ordered else None, one.supplier, ordered
    )


def _undecided(removal: Outline, sheets: Sequence[OpenSheet], is_away: bool) -> Iterator[Hindrance]:
    """A part whose new one is bought is decided, whatever its sheets say."""
    if removal.fate in (Fate.RENEW, Fate.SCRAP):
        return
    is_open = removal.fate is Fate.DECIDE
    held = [sheet for sheet in sheets if sheet.holds and (is_open or not sheet.work)]
    for sheet in held:
        if sheet.work:
            yield _worked(sheet, is_away)
        elif sheet.is_measured:
            yield Hindrance(f"it is still to be decided ({sheet.said})", keeps=Keeps.DECISION)
        else:
            yield Hindrance(f"it is still to be measured ({sheet.said})", keeps=Keeps.MEASURING)
    if is_open and not held:
        said = "it is still to be inspected or measured and decided"
        yield Hindrance(said, keeps=Keeps.DECISION)


def _worked(sheet: OpenSheet, is_away: bool) -> Hindrance:
    """What is worked on first is measured again when it is back; while nobody has sent it, it is
    forgotten easily."""
    if is_away or sheet.is_worked:
        said = f"it is to be measured again after its work ({sheet.work})"
        return Hindrance(said, keeps=Keeps.MEASURING)
    said = f"it is still to be worked on and measured again ({sheet.work})"
    return Hindrance(said, keeps=Keeps.WORK)


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
