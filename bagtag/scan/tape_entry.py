"""From what was understood in a line to the entry: its facts, its hardware, its note."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import Fate, Hazard
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    MatchMark,
    Place,
    SameWay,
    Seat,
    Without,
)
from bagtag.scan.tape_draft import Figure, Part, Word
from bagtag.scan.tape_extra import is_once
from bagtag.scan.tape_fastener import PLAIN_KIND, Fastener, kind_in_name
from bagtag.scan.tape_join import joined
from bagtag.scan.tape_name import Name
from bagtag.scan.tape_piece import Piece
from bagtag.scan.tape_remark import thread_hand
from bagtag.scan.tape_size import Size
from bagtag.scan.tape_text import Found, fold, rx, tidy
from bagtag.scan.tape_view import viewed

_FACTS = (Faces, Hand, Place, Clocking, Seat, MatchMark, SameWay, Without)


def entry(pieces: Sequence[Piece], name: Name) -> Entry:
    """The entry that the pieces make; its container is the caller's to look up."""
    found = [f for piece in pieces for f in piece.found]
    parts = _parts(pieces, name)
    quantity = _quantity(found, parts, name)
    held, on_thread = _hardware(parts, kind_in_name(name.text), quantity)
    if is_once(_said(pieces, "fate")):
        held = [replace(line, one_time=True) if _is_own(line, name) else line for line in held]
    return Entry(
        name=", ".join(filter(None, (name.text, *_sides(pieces)))),
        quantity=quantity,
        area_id=_area(found, name),
        which_way=tuple(_which_way(pieces, name)),
        held_by=tuple(held),
        condition=_said(pieces, "condition"),
        fate=next((f.value for f in found if isinstance(f.value, Fate)), Fate.REFIT),
        goes_on=", ".join(filter(None, (_said(pieces, "goes on"), *on_thread))),
        note=_note(pieces, name),
        side=_side(pieces),
        size=next((f.value.text for f in found if isinstance(f.value, Size)), ""),
        hazards=tuple(hazard for hazard in Hazard if any(f.value is hazard for f in found)),
    )


def _is_own(line: HeldBy, name: Name) -> bool:
    """Whether a line of hardware is the part itself: `head bolts`, and their thread."""
    return bool(line.kind) and line.kind == kind_in_name(name.text)


def _words(piece: Piece, found: Found) -> str:
    return tidy(piece.line[found.start : found.end])


def _said(pieces: Sequence[Piece], kind: str) -> str:
    said = (_words(piece, f) for piece in pieces for f in piece.found if f.kind == kind)
    return ", ".join(dict.fromkeys(said))


def _sides(pieces: Sequence[Piece]) -> Iterator[str]:
    for piece in pieces:
        for found in piece.found:
            if found.kind == "name" and isinstance(found.value, Side):
                yield _words(piece, found)


def _side(pieces: Sequence[Piece]) -> Side | None:
    """The side that stands by itself, which a hand in the same word is as well; two are none."""
    said = {
        f.value if isinstance(f.value, Side) else _SIDE_OF_HAND.get(fold(_words(piece, f)))
        for piece in pieces
        for f in piece.found
        if (f.kind == "name" and isinstance(f.value, Side)) or f.kind == "hand"
    } - {None}
    return said.pop() if len(said) == 1 else None


_SIDE_OF_HAND = {"left": Side.LEFT, "right": Side.RIGHT}


def _area(found: Sequence[Found], name: Name) -> int | None:
    ids = (f.value for f in found if f.kind == "area" and f is not name.lent)
    return next((id_ for id_ in ids if isinstance(id_, int)), None)


def _note(pieces: Sequence[Piece], name: Name) -> str:
    kept: list[str] = []
    for piece in pieces:
        if piece.number == name.piece:
            kept += [_words(piece, f) for f in piece.found if f.noted and f.end < name.end]
            kept.append(piece.to_note(name.end))
        else:
            kept.append(piece.to_note(piece.span.start))
    return ", ".join(text for text in kept if text)


# --- which way


def _which_way(pieces: Sequence[Piece], name: Name) -> Iterator[Fact]:
    """The facts, each once; a letter of the part's own before the same hand by position."""
    said = [value for value in viewed(pieces) if isinstance(value, _FACTS)]
    facts = [name.hand, *said] if name.hand else said
    for fact in dict.fromkeys(facts):
        if isinstance(fact, Hand) and not fact.stamped and Hand(fact.which, True) in facts:
            continue
        yield fact


# --- hardware

_ABOUT_FASTENERS = Fastener | Word | Figure
_OF_A_THREAD = rx(r"(?:left|right)(?:[- ]?hand(?:ed)?)|(?-i:LH|RH)|l/h|r/h")


def with_thread_hands(pieces: Sequence[Piece], name: Name) -> None:
    """`left-hand`, said of a nut with a thread or a torque, is its thread and not its place."""
    found = [f for piece in pieces for f in piece.found]
    if kind_in_name(name.text) and any(isinstance(f.value, Fastener | Torque) for f in found):
        for piece in pieces:
            piece.found = [_thread_hand(piece, f) for f in piece.found]


def _thread_hand(piece: Piece, found: Found) -> Found:
    words = _words(piece, found)
    if found.kind != "hand" or not _OF_A_THREAD.fullmatch(words):
        return found
    return replace(found, kind="hardware", value=thread_hand(words))


def _parts(pieces: Sequence[Piece], name: Name) -> list[Part]:
    """Fasteners and the words about them, in the order of the line."""
    parts = [
        Part(found.value, _words(piece, found), found.start, piece.number)
        for piece in pieces
        for found in piece.found
        if isinstance(found.value, _ABOUT_FASTENERS)
        or (found.kind == "threadlocker" and isinstance(found.value, str))
    ]
    return [part for part in parts if not _is_the_part(part, parts, name)]


def _is_the_part(part: Part, parts: Sequence[Part], name: Name) -> bool:
    """`2 dowels` alone are what came off, and hold nothing."""
    lent = name.lent is not None and part.value is name.lent.value
    others = (other.value for other in parts if other is not part)
    return (
        lent
        and isinstance(part.value, Fastener)
        and not part.value.thread
        and all(isinstance(value, Fastener) and value.said for value in others)
    )


def _quantity(found: Sequence[Found], parts: Sequence[Part], name: Name) -> int:
    """As said; else, where the part is itself the fastener, as many as its hardware counts."""
    said = next((f.value for f in found if f.kind == "count" and isinstance(f.value, int)), None)
    fasteners = [part.value for part in parts if isinstance(part.value, Fastener)]
    own = {PLAIN_KIND, kind_in_name(name.text)}
    if said is None and name.quantity is None and kind_in_name(name.text) and fasteners:
        counts = [f.count for f in fasteners if f.count and f.kind in own]
        return sum(counts) if len(counts) == len(fasteners) else 1
    return said or name.quantity or 1


def _hardware(
    parts: Sequence[Part], name_kind: str, quantity: int
) -> tuple[list[HeldBy], list[str]]:
    """Lines of hardware; and threadlocker that has no fastener to go on, as what goes on."""
    if not name_kind and all(isinstance(part.value, str) for part in parts):
        return [], [part.text for part in parts]
    return joined(parts, name_kind, quantity), []
