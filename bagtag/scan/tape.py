"""The masking-tape line: one line of text, as one would write it on tape, read into an entry.

Nothing typed is dropped and nothing is guessed unseen: what is understood shows as a chip, and what
is not stays word for word in the name or the note. The first piece that is not understood is the
name; otherwise the order of the pieces does not matter, except that a torque between fasteners of
different threads belongs to those before it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

from bagtag.domain.datum import Datum
from bagtag.domain.entry import Entry
from bagtag.domain.kinds import NO_KIND, KindFound, Kinds, PartKind
from bagtag.scan import tape_entry, tape_name
from bagtag.scan.tape_name import Name
from bagtag.scan.tape_piece import Chip, Piece, chips_of
from bagtag.scan.tape_reading import Known, read_pieces
from bagtag.scan.tape_text import MASK, fold
from bagtag.scan.tape_words import words_of

__all__ = ["Chip", "Tape", "read"]

_NONE: Mapping[str, int] = MappingProxyType({})
_NO_KINDS = Kinds()


@dataclass(frozen=True, slots=True)
class Tape:
    """A line as read.

    `entry` is unchecked: its name may be empty. `container_wanted` is the label of a container the
    job does not have yet ("bag 14"). `unread` are the words that only the note keeps. `kind` is
    what the words of the name say the part is; the entry's own kind is empty: it goes by its name.
    """

    entry: Entry
    chips: tuple[Chip, ...] = ()
    container_wanted: str | None = None
    unread: tuple[str, ...] = ()
    kind: PartKind | None = None


def read(
    line: str,
    datum: Datum,
    containers: Mapping[str, int] = _NONE,
    areas: Mapping[str, int] = _NONE,
    kinds: Kinds = _NO_KINDS,
    *,
    as_words: Sequence[tuple[int, int]] = (),
) -> Tape:
    """Read a line by a job's datum, its containers ("bag 12") and areas, name to id, and by the
    kinds of parts.

    `as_words` are stretches of the line, start and end, that a person said are only words: they
    are read as nothing and stay in the name or the note. Any text is read; none raises. Lengths and
    depths are in millimetres unless their unit says otherwise, torques in the unit given.
    """
    labels = _labels(tuple(containers))
    known = Known(words_of(datum), labels, _areas(tuple(areas.items())), kinds)
    pieces, name_piece = read_pieces(line, known, as_words)
    name = _name(pieces, name_piece)
    tape_entry.with_thread_hands(pieces, name)
    entry = tape_entry.entry(pieces, name)
    wanted = _container(pieces)
    label = labels.get(fold(wanted)) if wanted else None
    kind = kinds.find(name.text)
    denied = kind is not None and _is_denied(kind, name, pieces)
    entry = replace(
        entry,
        container_id=containers[label] if label else None,
        kind=NO_KIND if denied else "",
    )
    found = None if denied else kind
    chips = _chips(pieces, name, found)
    unread = tuple(chip.text for chip in chips if chip.kind == "note")
    return Tape(entry, chips, None if label else wanted, unread, found.kind if found else None)


@lru_cache(maxsize=8)
def _labels(containers: tuple[str, ...]) -> Mapping[str, str]:
    return {fold(label): label for label in containers}


@lru_cache(maxsize=8)
def _areas(areas: tuple[tuple[str, int], ...]) -> Mapping[str, int]:
    return {fold(name): id_ for name, id_ in areas}


def _is_denied(kind: KindFound, name: Name, pieces: list[Piece]) -> bool:
    """Whether a person said that the words of a kind are only words."""
    return MASK in pieces[0].heard[name.start + kind.start : name.start + kind.end]


def _name(pieces: list[Piece], name_piece: Piece | None) -> Name:
    counted = any(found.kind == "count" for piece in pieces for found in piece.found)
    if name_piece:
        return tape_name.in_piece(name_piece, counted=counted)
    has_side = any(found.kind == "name" for piece in pieces for found in piece.found)
    return Name() if has_side or not pieces else tape_name.lent(pieces)


def _container(pieces: list[Piece]) -> str | None:
    labels = (f.value for piece in pieces for f in piece.found if f.kind == "container")
    return next((label for label in labels if isinstance(label, str)), None)


def _chips(pieces: list[Piece], name: Name, kind: KindFound | None) -> tuple[Chip, ...]:
    """All chips in the order of the line, the name's own before those inside it."""
    inside = [_kind_chip(pieces[0].line, name, kind)] if kind else []
    chips = [chip for piece in pieces for chip in chips_of(piece)]
    outside = [chip for chip in chips if not _is_name(chip, name)]
    return tuple(sorted([*outside, *name.chips, *inside], key=lambda chip: (chip.start, -chip.end)))


def _kind_chip(line: str, name: Name, kind: KindFound) -> Chip:
    start, end = name.start + kind.start, name.start + kind.end
    return Chip(line[start:end], "kind", start, end)


def _is_name(chip: Chip, name: Name) -> bool:
    """Whether a chip for unread words is the name, which has chips of its own."""
    inside = any(chip.start <= own.start < chip.end for own in name.chips)
    return chip.kind == "note" and inside
