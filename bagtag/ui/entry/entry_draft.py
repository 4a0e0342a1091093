"""What stands in the entry card, word for word as typed: kept when another entry is looked at."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from uuid import uuid4

from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Fate, Hazard, Removal
from bagtag.domain.which_way import Fact


@dataclass(frozen=True, slots=True)
class Draft:
    """The fields of an entry as text; `area` is a path and `container` a label."""

    name: str = ""
    quantity: str = "1"
    area: str = ""
    container: str = ""
    which_way: tuple[Fact, ...] = ()
    held_by: tuple[HeldBy, ...] = ()
    condition: str = ""
    fate: Fate = Fate.REFIT
    goes_on: str = ""
    note: str = ""
    kind: str = ""
    side: Side | None = None
    size: str = ""
    hazards: tuple[Hazard, ...] = ()
    unanswered: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Kept:
    """A draft put aside, with the uid it will be logged under."""

    draft: Draft
    uid: str


@dataclass(frozen=True, slots=True)
class Names:
    """How a job's areas and containers are called: id by path, label by id."""

    areas: Mapping[str, int]
    containers: Mapping[int, str]

    def area(self, area_id: int | None) -> str:
        return next((path for path, id_ in self.areas.items() if id_ == area_id), "")

    def area_id(self, typed: str) -> int | None:
        """The area whose path, or whose last name, was typed; BadInput when there is none."""
        wanted = typed.strip().casefold()
        if not wanted:
            return None
        for path, id_ in self.areas.items():
            if wanted in (path.casefold(), path.split(" > ")[-1].casefold()):
                return id_
        raise BadInput(
            f"This job has no area {typed.strip()}. Choose one from the list, or add it under Job.",
            field="area_id",
        )


def new_uid() -> str:
    return str(uuid4())


def of_removal(removal: Removal, names: Names) -> Draft:
    """A logged removal as the card shows it."""
    label = names.containers.get(removal.container_id or 0, "")
    return Draft(
        name=removal.name,
        quantity=str(removal.quantity),
        area=names.area(removal.area_id),
        container=label,
        which_way=removal.which_way,
        held_by=removal.held_by,
        condition=removal.condition,
        fate=removal.fate,
        goes_on=removal.goes_on,
        note=removal.note,
        kind=removal.kind,
        side=removal.side,
        size=removal.size,
        hazards=removal.hazards,
        unanswered=removal.unanswered,
    )


def of_entry(entry: Entry, names: Names, container_wanted: str = "") -> Draft:
    """An entry read from tape, or repeated from the last one, as the card shows it."""
    label = container_wanted or names.containers.get(entry.container_id or 0, "")
    kept = {field.name for field in fields(Draft)} - {"quantity", "area", "container"}
    same = {name: getattr(entry, name) for name in kept}
    quantity, area = str(entry.quantity), names.area(entry.area_id)
    return Draft(quantity=quantity, area=area, container=label, **same)


def to_entry(draft: Draft, names: Names, uid: str) -> Entry:
    """The draft as an entry; BadInput names the field that cannot be taken.

    The container stays with the draft: its label is found or made when the entry is logged.
    """
    return Entry(
        name=draft.name,
        quantity=_quantity(draft.quantity),
        area_id=names.area_id(draft.area),
        which_way=draft.which_way,
        held_by=draft.held_by,
        condition=draft.condition,
        fate=draft.fate,
        goes_on=draft.goes_on,
        note=draft.note,
        uid=uid,
        kind=draft.kind,
        side=draft.side,
        size=draft.size,
        hazards=draft.hazards,
        unanswered=draft.unanswered,
    )


def _quantity(typed: str) -> int:
    text = typed.strip()
    if not text.removeprefix("-").isdecimal() or len(text) > 9:
        raise BadInput("How many? Give a whole number from 1 to 9999.", field="quantity")
    return int(text)


@dataclass(frozen=True, slots=True)
class Merged:
    """Two people's changes of one entry, together; `clashes` are the fields both changed."""

    draft: Draft
    theirs: tuple[str, ...]
    clashes: tuple[str, ...]


def merge(opened: Draft, mine: Draft, theirs: Draft) -> Merged:
    """Keep both: their word in the fields only they changed, mine in all the others."""
    changed = [f.name for f in fields(Draft) if _differs(opened, theirs, f.name)]
    clashes = [n for n in changed if _differs(opened, mine, n) and _differs(mine, theirs, n)]
    taken = {name: getattr(theirs, name) for name in changed if name not in clashes}
    return Merged(replace(mine, **taken), tuple(changed), tuple(clashes))


def _differs(one: Draft, other: Draft, name: str) -> bool:
    return bool(getattr(one, name) != getattr(other, name))
