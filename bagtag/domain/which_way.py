"""Which way a part sat, as facts to compute with.

Facts, several to a removal, each a frozen dataclass; `to_data` and `from_data` are their form in
the store, in archives and on the terminal. What `resolve.told` adds to a fact (the side that
outward is, the number of the other part) is computed and never stored.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from bagtag.domain.datum import Side
from bagtag.domain.errors import BadInput


class Outness(StrEnum):
    """A direction that the part's own place gives."""

    OUTWARD = "outward"
    INWARD = "inward"


@dataclass(frozen=True, slots=True)
class OtherPart:
    """Another part: "the gear", "the other fork". `uid` links to its removal; `number`, when
    told, is what stands on that removal's label."""

    name: str
    uid: str = ""
    number: str = ""


_FAR_ENDS = (Side.RIGHT, Side.REAR, Side.BOTTOM)
Toward = Side | Outness | OtherPart


class SeatKind(StrEnum):
    FLUSH = "flush"
    PROUD = "proud"
    BELOW = "below"
    BOTTOMED = "bottomed"
    SHOULDER = "shoulder"


@dataclass(frozen=True, slots=True)
class Faces:
    """A feature of the part ("OUT", "sealed side", "sharp edge", "C") faces somewhere.

    `resolved`, when told, is the side that outward or inward is for this part.
    """

    feature: str
    toward: Toward
    resolved: Side | None = None


@dataclass(frozen=True, slots=True)
class Hand:
    """`which` is "L" or "R"; `stamped` when the part says so itself, else by its position."""

    which: str
    stamped: bool = False


@dataclass(frozen=True, slots=True)
class Place:
    """Place in a row or among its like: 2nd of 3 from a side; cylinder 2; hole 14."""

    index: int
    of: int | None = None
    counted_from: Side | None = None
    what: str = ""

    def from_near_end(self) -> tuple[int, Side | None]:
        """The spot counted from the left, the front or the top, where the row has a length: 1st of
        3 from the right is 3rd of 3 from the left."""
        side = self.counted_from
        if self.of is None or side not in _FAR_ENDS:
            return self.index, side
        return self.of + 1 - self.index, side.opposite


@dataclass(frozen=True, slots=True)
class Clocking:
    """Turned how: a feature at an hour of the clock face (1 to 12, halves allowed), or in or to
    something ("tab" "in the notch"); `seen_from` names the side one looks from."""

    feature: str
    hour: float | None = None
    target: str = ""
    seen_from: Side | None = None


@dataclass(frozen=True, slots=True)
class Seat:
    """How deep: `depth` in millimetres for proud and below, else None."""

    kind: SeatKind
    depth: float | None = None


@dataclass(frozen=True, slots=True)
class MatchMark:
    """A mark shared with another part: "two punch dots", "paint line"."""

    mark: str
    partner: str = ""


@dataclass(frozen=True, slots=True)
class SameWay:
    """Round the same way as another part, or (`opposite`) the other way round from it.

    `facts`, when told, are how that other part sat.
    """

    other: OtherPart
    opposite: bool = False
    facts: tuple["Fact", ...] = ()


@dataclass(frozen=True, slots=True)
class Without:
    """Looked for and not there: "no match mark". Without a feature: it goes either way round."""

    feature: str = ""


Fact = Faces | Hand | Place | Clocking | Seat | MatchMark | SameWay | Without


def to_data(facts: Iterable[Fact]) -> list[dict[str, Any]]:
    """Facts as plain JSON data, one object each, empty fields left out."""
    return [_WRITERS[type(fact)](fact) for fact in facts]


def from_data(data: Iterable[Mapping[str, Any]]) -> tuple[Fact, ...]:
    """The facts in plain JSON data; BadInput names what is no fact."""
    return tuple(_read(item) for item in data)


def _read(item: Mapping[str, Any]) -> Fact:
    try:
        fact: Fact = _READERS[item["fact"]](item)
    except (KeyError, TypeError, ValueError) as wrong:
        raise BadInput(f"This is no which-way fact: {dict(item)}.", field="which_way") from wrong
    return fact


def _toward_data(toward: Toward) -> Any:
    return _part_data(toward) if isinstance(toward, OtherPart) else toward.value


def _part_data(part: OtherPart) -> dict[str, str]:
    return {"part": part.name, "uid": part.uid}


def _read_part(data: Mapping[str, Any]) -> OtherPart:
    return OtherPart(data["part"], data.get("uid", ""))


def _read_toward(data: Any) -> Toward:
    if isinstance(data, Mapping):
        return _read_part(data)
    return Outness(data) if data in {o.value for o in Outness} else Side(data)


def _slim(**fields: Any) -> dict[str, Any]:
    """Without what is empty; a nought is not (0 == False, so identity decides)."""
    empty = (None, False)
    return {
        key: value
        for key, value in fields.items()
        if value != "" and not any(value is nothing for nothing in empty)
    }


def _side(data: Any) -> Side | None:
    return Side(data) if data else None


_WRITERS: dict[type, Any] = {
    Faces: lambda f: {"fact": "faces", "feature": f.feature, "toward": _toward_data(f.toward)},
    Hand: lambda f: _slim(fact="hand", which=f.which, stamped=f.stamped),
    Place: lambda f: _slim(
        fact="place", index=f.index, of=f.of, counted_from=f.counted_from, what=f.what
    ),
    Clocking: lambda f: _slim(
        fact="clocking", feature=f.feature, hour=f.hour, target=f.target, seen_from=f.seen_from
    ),
    Seat: lambda f: _slim(fact="seat", kind=f.kind.value, depth=f.depth),
    MatchMark: lambda f: _slim(fact="match mark", mark=f.mark, partner=f.partner),
    SameWay: lambda f: _slim(fact="same way", opposite=f.opposite) | _part_data(f.other),
    Without: lambda f: _slim(fact="without", feature=f.feature),
}

_READERS: dict[str, Any] = {
    "faces": lambda d: Faces(d["feature"], _read_toward(d["toward"])),
    "hand": lambda d: Hand(d["which"], bool(d.get("stamped", False))),
    "place": lambda d: Place(
        int(d["index"]), d.get("of"), _side(d.get("counted_from")), d.get("what", "")
    ),
    "clocking": lambda d: Clocking(
        d.get("feature", ""), d.get("hour"), d.get("target", ""), _side(d.get("seen_from"))
    ),
    "seat": lambda d: Seat(SeatKind(d["kind"]), d.get("depth")),
    "match mark": lambda d: MatchMark(d.get("mark", ""), d.get("partner", "")),
    "same way": lambda d: SameWay(_read_part(d), bool(d.get("opposite", False))),
    "without": lambda d: Without(d.get("feature", "")),
}
