"""What can be computed of which way: the side that outward is, the other part that is meant, and
how that other part sat. Nothing here is guessed: what can mean two parts means none."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry
from bagtag.domain.model import Removal
from bagtag.domain.names import are_alike, fits, is_other
from bagtag.domain.sentence import about
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    OtherPart,
    Outness,
    SameWay,
    Seat,
)

_SIDES = {"L": Side.LEFT, "R": Side.RIGHT}
_TURNED = {Outness.OUTWARD: Outness.INWARD, Outness.INWARD: Outness.OUTWARD}


def part_side(part: Removal | Entry) -> Side | None:
    """The side of the machine a part sat on: as entered, else as its hand by position says.

    A stamped hand says nothing of the side: a part stamped R may sit on the left.
    """
    return part.side if part.side is not None else side_by_hand(part.which_way)


def side_by_hand(facts: Iterable[Fact]) -> Side | None:
    """The side that a hand by position says: L left, R right."""
    placed = {
        _SIDES.get(fact.which.upper())
        for fact in facts
        if isinstance(fact, Hand) and not fact.stamped
    }
    return placed.pop() if len(placed) == 1 else None


def resolved(toward: Outness, side: Side) -> Side:
    """The side that outward or inward is for a part on `side`."""
    return side if toward is Outness.OUTWARD else side.opposite


def told(part: Removal | Entry, others: Mapping[str, Removal]) -> tuple[Fact, ...]:
    """The facts with what can be computed added; `others` are the removals by uid that they link
    to, and those that these link to.

    Outward and inward get the side they are here; a linked part its number and its name as logged;
    the same way as another part how that one sat. Where two parts sit on different sides, an
    outward of the one could be meant either way for the other, so it is not told.
    """
    return _told(part, others, frozenset({part.uid}))


def linked(
    facts: Sequence[Fact], candidates: Sequence[Removal], part: Removal | Entry | None = None
) -> tuple[Fact, ...]:
    """The facts, each other part without a link linked to the one removal that it can only mean.

    `part` is the removal or entry they belong to: it is no candidate itself, those of its own area
    go before the rest, and "the other one" is the one other of its name. Two candidates are none.
    """
    rest = [removal for removal in candidates if part is None or removal.uid != part.uid]
    return tuple(_linked(fact, rest, part) for fact in facts)


def loose(facts: Iterable[Fact]) -> list[OtherPart]:
    """The other parts that are not linked to a removal."""
    parts = (other_part(fact) for fact in facts)
    return [part for part in parts if part is not None and not part.uid]


def other_part(fact: Fact) -> OtherPart | None:
    """The part that a fact is about besides its own."""
    if isinstance(fact, SameWay):
        return fact.other
    if isinstance(fact, Faces) and isinstance(fact.toward, OtherPart):
        return fact.toward
    return None


def _told(
    part: Removal | Entry, others: Mapping[str, Removal], seen: frozenset[str]
) -> tuple[Fact, ...]:
    return tuple(_with_told(fact, part, others, seen) for fact in part.which_way)


def _with_told(
    fact: Fact, part: Removal | Entry, others: Mapping[str, Removal], seen: frozenset[str]
) -> Fact:
    if isinstance(fact, SameWay):
        facts = _of_other(fact, part, others, seen)
        return replace(fact, other=_named(fact.other, others), facts=facts)
    if not isinstance(fact, Faces) or isinstance(fact.toward, Side):
        return fact
    if isinstance(fact.toward, OtherPart):
        return replace(fact, toward=_named(fact.toward, others))
    return _here(fact, fact.toward, part_side(part))


def _here(fact: Faces, toward: Outness, side: Side | None) -> Faces:
    return Faces(fact.feature, toward, resolved(toward, side) if side else None)


def _named(other: OtherPart, others: Mapping[str, Removal]) -> OtherPart:
    removal = others.get(other.uid)
    return OtherPart(removal.name, other.uid, removal.number) if removal else other


def _of_other(
    fact: SameWay, part: Removal | Entry, others: Mapping[str, Removal], seen: frozenset[str]
) -> tuple[Fact, ...]:
    """How the other part sat, as far as it holds for this one."""
    other = others.get(fact.other.uid)
    if other is None or other.uid in seen:
        return ()
    sides = (part_side(part), part_side(other))
    sat = _sat(_told(other, others, seen | {other.uid}))
    carried = (_carried(own, sides, fact.opposite, part.uid) for own in sat)
    return tuple(own for own in carried if own is not None)


def _sat(facts: Sequence[Fact]) -> list[Fact]:
    """A part's own faces, clocking and seat, then those it has from a third one."""
    own: list[Fact] = [fact for fact in facts if isinstance(fact, Faces | Clocking | Seat)]
    taken = {about(fact) for fact in own}
    through = [far for fact in facts if isinstance(fact, SameWay) for far in fact.facts]
    return [*own, *(far for far in dict.fromkeys(through) if about(far) not in taken)]


def _carried(
    fact: Fact, sides: tuple[Side | None, Side | None], opposite: bool, uid: str
) -> Fact | None:
    """What another part's fact is for this one; None where it says nothing of it."""
    if not isinstance(fact, Faces):
        return None if opposite else fact
    if isinstance(fact.toward, OtherPart):
        return None if opposite or (uid and fact.toward.uid == uid) else fact
    if isinstance(fact.toward, Side):
        return replace(fact, toward=fact.toward.opposite) if opposite else fact
    if None not in sides and sides[0] is not sides[1]:
        return None
    toward = _TURNED[fact.toward] if opposite else fact.toward
    return _here(fact, toward, sides[0] and sides[1])


def _linked(fact: Fact, candidates: Sequence[Removal], part: Removal | Entry | None) -> Fact:
    other = other_part(fact)
    if other is None or other.uid:
        return fact
    meant = _only_one(other.name, candidates, part)
    if meant is None:
        return fact
    link = replace(other, uid=meant.uid)
    if isinstance(fact, SameWay):
        return replace(fact, other=link)
    assert isinstance(fact, Faces)
    return replace(fact, toward=link)


def _only_one(
    wanted: str, candidates: Sequence[Removal], part: Removal | Entry | None
) -> Removal | None:
    """The same area goes before the rest; then the very name, then its last words."""
    near = [removal for removal in candidates if part and removal.area_id == part.area_id]
    for among in (near, candidates):
        found = _meant(wanted, among, part)
        if found:
            return found[0] if len(found) == 1 else None
    return None


def _meant(
    wanted: str, candidates: Sequence[Removal], part: Removal | Entry | None
) -> list[Removal]:
    alike = [r for r in candidates if part and are_alike(r.name, part.name)]
    if is_other(wanted):
        if wanted.casefold().split()[-1] in ("other", "one"):
            return alike
        return _fitting(wanted, alike) or _fitting(wanted, candidates)
    exact = [r for r in candidates if r.name.casefold() == wanted.casefold().strip()]
    return exact or _fitting(wanted, candidates)


def _fitting(wanted: str, candidates: Sequence[Removal]) -> list[Removal]:
    return [r for r in candidates if fits(wanted, r.name, _hand(r))]


def _hand(removal: Removal) -> str:
    hands = {fact.which.upper() for fact in removal.which_way if isinstance(fact, Hand)}
    return hands.pop() if len(hands) == 1 else ""
