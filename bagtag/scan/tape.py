"""The masking-tape line: one line of text, as one would write it on tape, read into an entry.

Nothing typed is dropped and nothing is guessed unseen: what is understood shows as a chip, and what
is not stays word for word in the name or the note. The first piece that is not understood is the
name; otherwise the order of the pieces does not matter, except that a torque between fasteners of
different threads belongs to those before it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from bagtag.domain.datum import Datum
from bagtag.domain.entry import Entry
from bagtag.scan import tape_entry, tape_name
from bagtag.scan.tape_name import Name
from bagtag.scan.tape_piece import Chip, Piece, chips_of
from bagtag.scan.tape_reading import read_pieces
from bagtag.scan.tape_text import fold
from bagtag.scan.tape_words import words_of

__all__ = ["Chip", "Tape", "read"]

_NONE: Mapping[str, int] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Tape:
    """A line as read.

    `entry` is unchecked: its name may be empty. `container_wanted` is the label of a container the
    job does not have yet ("bag 14"). `unread` are the words that only the note keeps.
    """

    entry: Entry
    chips: tuple[Chip, ...] = ()
    container_wanted: str | None = None
    unread: tuple[str, ...] = ()


def read(
    line: str,
    datum: Datum,
    containers: Mapping[str, int] = _NONE,
    areas: Mapping[str, int] = _NONE,
) -> Tape:
    """Read a line by a job's datum, its containers ("bag 12") and its areas, name to id.

    Any text is read; none raises. Lengths and depths are in millimetres unless their unit says
    otherwise, torques in the unit they are given in.
    """
    labels = {fold(label): label for label in containers}
    folded_areas = {fold(name): id_ for name, id_ in areas.items()}
    pieces, name_piece = read_pieces(line, words_of(datum), labels, folded_areas)
    name = _name(pieces, name_piece)
    tape_entry.with_thread_hands(pieces, name)
    entry = tape_entry.entry(pieces, name)
    wanted = _container(pieces)
    known = labels.get(fold(wanted)) if wanted else None
    entry = replace(entry, container_id=containers[known] if known else None)
    chips = _chips(pieces, name)
    unread = tuple(chip.text for chip in chips if chip.kind == "note")
    return Tape(entry, chips, None if known else wanted, unread)


def _name(pieces: list[Piece], name_piece: Piece | None) -> Name:
    counted = any(found.kind == "count" for piece in pieces for found in piece.found)
    if name_piece:
        return tape_name.in_piece(name_piece, counted=counted)
    has_side = any(found.kind == "name" for piece in pieces for found in piece.found)
    return Name() if has_side or not pieces else tape_name.lent(pieces)


def _container(pieces: list[Piece]) -> str | None:
    labels = (f.value for piece in pieces for f in piece.found if f.kind == "container")
    return next((label for label in labels if isinstance(label, str)), None)


def _chips(pieces: list[Piece], name: Name) -> tuple[Chip, ...]:
    """All chips in the order of the line, the name's own before those inside it."""
    chips = [chip for piece in pieces for chip in chips_of(piece)]
    outside = [chip for chip in chips if not _is_name(chip, name)]
    return tuple(sorted([*outside, *name.chips], key=lambda chip: (chip.start, -chip.end)))


def _is_name(chip: Chip, name: Name) -> bool:
    """Whether a chip for unread words is the name, which has chips of its own."""
    inside = any(chip.start <= own.start < chip.end for own in name.chips)
    return chip.kind == "note" and inside
