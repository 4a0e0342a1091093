"""What a person enters for one removal: text made clean, figures checked, one sentence when wrong.

Nothing here repairs a figure or cuts a text: an entry is taken or the reason is said, and the
caller keeps what was typed.
"""

from dataclasses import dataclass, replace
from typing import Any, cast

from bagtag.domain.clean import (
    MOST,
    NAME_LIMIT,
    NOTE_LIMIT,
    TEXT_LIMIT,
    clean_text,
    is_above_zero,
    tidied,
    whole,
)
from bagtag.domain.datum import Side
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.hardware_check import checked_line
from bagtag.domain.model import Fate, Hazard
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    MatchMark,
    OtherPart,
    Place,
    SameWay,
    Seat,
    SeatKind,
    Without,
)

__all__ = [
    "MOST",
    "NAME_LIMIT",
    "NOTE_LIMIT",
    "TEXT_LIMIT",
    "Entry",
    "checked",
    "clean_text",
    "repeat",
    "whole",
]


@dataclass(frozen=True, slots=True)
class Entry:
    """One removal as entered. `uid` is made by the form; left empty, the services give one. The
    fields are those of `model.Removal`."""

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
    uid: str = ""
    kind: str = ""
    side: Side | None = None
    size: str = ""
    hazards: tuple[Hazard, ...] = ()
    unanswered: tuple[str, ...] = ()


def checked(entry: Entry) -> Entry:
    """The entry with its text made clean and its figures checked; BadInput names the field."""
    return replace(
        entry,
        name=_name(entry.name),
        quantity=whole(entry.quantity, "The quantity", field="quantity"),
        which_way=tuple(_fact(fact) for fact in entry.which_way),
        held_by=tuple(checked_line(line) for line in entry.held_by),
        condition=_text(entry.condition, "condition", "The condition"),
        goes_on=_text(entry.goes_on, "goes_on", "What goes on it"),
        note=clean_text(entry.note, lines=True, limit=NOTE_LIMIT, field="note", what="The note"),
        kind=_text(entry.kind, "name", "The kind of part"),
        size=_text(entry.size, "size", "The size"),
        hazards=tuple(hazard for hazard in Hazard if hazard in entry.hazards),
        unanswered=tuple(sorted(set(entry.unanswered))),
    )


def repeat(entry: Entry) -> Entry:
    """What "as the last one" gives the next entry: area, container, fate, hardware, what goes on.

    Those run on through a row of removals. The name and quantity are what is new, condition and
    note belong to the one part, and no which-way fact is copied: a hand, a place or a face must be
    looked at on each part, and one copied unseen builds the machine wrong with nothing to show it.
    """
    return Entry(
        name="",
        area_id=entry.area_id,
        container_id=entry.container_id,
        fate=entry.fate,
        held_by=entry.held_by,
        goes_on=entry.goes_on,
    )


def _name(text: str) -> str:
    name = tidied(text)
    if not any(c.isprintable() and not c.isspace() for c in name):
        raise BadInput("Give the part a name: what would you write on its bag?", field="name")
    if len(name) > NAME_LIMIT:
        raise BadInput(
            f"The name has {len(name)} characters and may have {NAME_LIMIT}; "
            "put the rest in the note, which takes more.",
            field="name",
        )
    return name


def _text(text: str, field: str, what: str) -> str:
    return clean_text(text, limit=TEXT_LIMIT, field=field, what=what)


def _way_text(text: str, what: str) -> str:
    return clean_text(text, limit=NAME_LIMIT, field="which_way", what=what)


def _needed(text: str, sentence: str) -> str:
    clean = _way_text(text, "A text of which way")
    if not clean:
        raise BadInput(sentence, field="which_way")
    return clean


def _fact(fact: Fact) -> Fact:
    return cast(Fact, _FACT_CHECKS[type(fact)](fact))


def _faces(fact: Faces) -> Faces:
    feature = _needed(fact.feature, "Say what faces that way: OUT, lip, sealed side, arrow.")
    if not isinstance(fact.toward, OtherPart):
        return replace(fact, feature=feature, resolved=None)
    part = _needed(fact.toward.name, f"Say which part the {feature} faces.")
    return Faces(feature, OtherPart(part, fact.toward.uid))


def _hand(fact: Hand) -> Hand:
    if fact.which not in ("L", "R"):
        raise BadInput(f"A hand is L or R; this is {fact.which!r}.", field="which_way")
    return fact


def _place(fact: Place) -> Place:
    index = whole(fact.index, "The place in the row", field="which_way")
    of = fact.of if fact.of is None else whole(fact.of, "The row's length", field="which_way")
    return replace(fact, index=index, of=of, what=_way_text(fact.what, "What is counted"))


def _clocking(fact: Clocking) -> Clocking:
    target = _way_text(fact.target, "What it is turned to")
    if fact.hour is None and not target:
        raise BadInput(
            "Give the hour of the clock, 1 to 12, or what it is turned to.", field="which_way"
        )
    if fact.hour is not None and not (1 <= fact.hour < 13 and fact.hour * 2 % 1 == 0):
        raise BadInput(
            f"A clock has the hours 1 to 12 and their halves; this is {fact.hour:g}.",
            field="which_way",
        )
    return replace(fact, feature=_way_text(fact.feature, "What is turned"), target=target)


def _seat(fact: Seat) -> Seat:
    if fact.depth is None:
        return fact
    if fact.kind not in (SeatKind.PROUD, SeatKind.BELOW):
        raise BadInput(
            f"Only proud and below have a depth; {fact.kind.value} has none.", field="which_way"
        )
    if not is_above_zero(fact.depth):
        raise BadInput(
            f"How far {fact.kind.value}? Give millimetres above zero, or say flush.",
            field="which_way",
        )
    return fact


def _match_mark(fact: MatchMark) -> MatchMark:
    mark = _needed(fact.mark, "Say what the match mark is: two punch dots, a paint line.")
    return MatchMark(mark, _way_text(fact.partner, "The part that is marked too"))


def _same_way(fact: SameWay) -> SameWay:
    name = _needed(fact.other.name, "Say which part it sits the same way as.")
    return replace(fact, other=OtherPart(name, fact.other.uid), facts=())


def _without(fact: Without) -> Without:
    return Without(_way_text(fact.feature, "What it has none of"))


_FACT_CHECKS: dict[type, Any] = {
    Faces: _faces,
    Hand: _hand,
    Place: _place,
    Clocking: _clocking,
    Seat: _seat,
    MatchMark: _match_mark,
    SameWay: _same_way,
    Without: _without,
}
