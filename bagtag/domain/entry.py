"""What a person enters for one removal: text made clean, figures checked, one sentence when wrong.

Nothing here repairs a figure or cuts a text: an entry is taken or the reason is said, and the
caller keeps what was typed.
"""

import re
import unicodedata
from dataclasses import dataclass, replace
from math import isfinite
from typing import Any, cast

from bagtag.domain.datum import Side
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy, Torque
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

NAME_LIMIT = 200
TEXT_LIMIT = 500
NOTE_LIMIT = 10_000
MOST = 9999


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
        held_by=tuple(_line(line) for line in entry.held_by),
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


_NEWLINES = re.compile("\r\n|[\r\x0b\x0c\x85\u2028\u2029]")
_SPACES = re.compile(r"[^\S\n]+")
# Marks and overrides of direction (Unicode Standard Annex #9): unseen, and able to show a text
# in another order than it has.
_DIRECTION = set("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff")


def clean_text(
    text: str, *, lines: bool = False, limit: int, field: str = "", what: str = "This text"
) -> str:
    """Text without control characters and direction marks, single spaces, trimmed, in NFC.

    `lines` keeps line breaks. Longer than `limit` characters is BadInput, never cut.
    """
    clean = _tidied(text, lines=lines)
    if len(clean) > limit:
        raise BadInput(
            f"{what} has {len(clean)} characters and may have {limit}. Shorten it.", field=field
        )
    return clean


def _tidied(text: str, *, lines: bool = False) -> str:
    broken = _NEWLINES.sub("\n", text) if lines else " ".join(text.split())
    kept = "".join(c for c in _SPACES.sub(" ", broken) if _is_kept(c))
    rows = [_SPACES.sub(" ", row).strip() for row in kept.split("\n")]
    return unicodedata.normalize("NFC", "\n".join(rows).strip())


def whole(value: object, what: str, *, field: str, most: int = MOST) -> int:
    """A whole number from 1 to `most`, or BadInput."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise BadInput(f"{what} is a whole number from 1 to {most}. Correct it.", field=field)
    if not 1 <= value <= most:
        raise BadInput(f"{what} is {value}; give a number from 1 to {most}.", field=field)
    return value


def _is_kept(character: str) -> bool:
    if character == "\n":
        return True
    return unicodedata.category(character) not in ("Cc", "Cs") and character not in _DIRECTION


def _name(text: str) -> str:
    name = _tidied(text)
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
    if not _is_above_zero(fact.depth):
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


def _line(line: HeldBy) -> HeldBy:
    if line.count is not None:
        whole(line.count, "The number of fasteners", field="held_by")
    _check_length(line)
    _check_torque(line.torque)
    texts = {
        name: clean_text(
            getattr(line, name), limit=TEXT_LIMIT, field="held_by", what=f"The {label}"
        )
        for name, label in _LINE_TEXTS.items()
    }
    return replace(line, **texts)  # type: ignore[arg-type]  # a mapping's keys are no field names


_LINE_TEXTS = {
    "kind": "kind of fastener",
    "thread": "thread",
    "drive": "drive",
    "threadlocker": "threadlocker",
    "grade": "grade",
    "locking": "locking",
    "note": "note on the fastener",
}


def _check_length(line: HeldBy) -> None:
    if line.length is not None and not _is_above_zero(line.length):
        raise BadInput(
            f"A fastener's length is above zero; this is {line.length:g}.", field="held_by"
        )
    if line.length_unit not in ("mm", "in"):
        raise BadInput(
            f"A fastener's length is in mm or in, not {line.length_unit!r}.", field="held_by"
        )


def _check_torque(torque: Torque | None) -> None:
    if torque is not None and not _is_above_zero(torque.value):
        raise BadInput(
            f"A torque is above zero; this is {torque.value:g}. Leave it empty if it is not known.",
            field="held_by",
        )


def _is_above_zero(figure: float) -> bool:
    return isfinite(figure) and figure > 0
