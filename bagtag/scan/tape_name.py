"""The name in a tape line: the first piece that nobody understood, and what it says by itself."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bagtag.domain.which_way import Hand, Place
from bagtag.scan.tape_fastener import Fastener
from bagtag.scan.tape_piece import Chip, Piece, shown, trimmed
from bagtag.scan.tape_stow import count_before
from bagtag.scan.tape_text import Found, Span


@dataclass(frozen=True, slots=True)
class Name:
    """The name, the piece it stands in, where the name starts in the line and the piece's gap ends.

    `quantity` and `hand` are what it says itself ("3 springs", "shift fork R"). `lent` is the
    understood thing whose words had to serve, where the line has no other name.
    """

    text: str = ""
    piece: int = -1
    end: int = 0
    start: int = 0
    quantity: int | None = None
    hand: Hand | None = None
    lent: Found | None = None
    chips: tuple[Chip, ...] = ()


def in_piece(piece: Piece, *, counted: bool) -> Name:
    """The name in the first gap of a piece; `counted` when the line says the quantity elsewhere."""
    gap = piece.gaps()[0]
    said = _tidied(piece.line, gap)
    text, heard = piece.line[said.start : said.end], piece.heard[said.start : said.end]
    quantity, skip = (None if counted else count_before(heard)) or (None, 0)
    letter = _STAMPED.search(heard)
    return Name(
        text[skip:],
        piece.number,
        gap.end,
        said.start + skip,
        quantity,
        Hand(letter[1], stamped=True) if letter else None,
        chips=tuple(_chips(piece, said, skip, letter is not None)),
    )


def _chips(piece: Piece, said: Span, skip: int, lettered: bool) -> Iterator[Chip]:
    """The count, the name and the letter; the first and last reach over the signs beside them."""
    start, end = trimmed(piece.line, piece.gaps()[0].start, piece.gaps()[0].end)
    at = said.start + skip
    if skip:
        yield Chip(piece.line[said.start : at].strip(), "count", start, at)
    yield Chip(piece.line[at : said.end], "name", at if skip else start, end)
    if lettered:
        yield Chip(piece.line[said.end - 1], "hand", said.end - 1, said.end)


# Not the litres of "gear oil 2 L".
_STAMPED = re.compile(r"(?<=[^\s0-9])\s+([LR])$")


def _tidied(line: str, gap: Span) -> Span:
    text = line[gap.start : gap.end]
    kept = shown(text)
    start = gap.start + text.index(kept)
    return Span(start, start + len(kept))


def lent(pieces: Sequence[Piece]) -> Name:
    """Where every piece was understood: an area, a fastener or "cylinder 2" is the part."""
    found = [f for piece in pieces for f in piece.found]
    for lends in (_area, _fastener, _counted_thing):
        for one in found:
            name = lends(one, pieces[0].line)
            if name is not None:
                return name
    return Name()


def _area(found: Found, line: str) -> Name | None:
    text = line[found.start : found.end]
    return _name_of(found, text) if found.kind == "area" else None


def _fastener(found: Found, line: str) -> Name | None:
    fastener = found.value
    if not isinstance(fastener, Fastener) or not fastener.said:
        return None
    start = line.find(fastener.said, found.start)
    return _name_of(found, fastener.said, fastener.count, start)


def _counted_thing(found: Found, line: str) -> Name | None:
    if not isinstance(found.value, Place) or not found.value.what:
        return None
    return _name_of(found, line[found.start : found.end])


def _name_of(found: Found, text: str, quantity: int | None = None, start: int = -1) -> Name:
    chip = Chip(text, "name", found.start, found.end)
    at = start if start >= 0 else found.start
    return Name(text, start=at, quantity=quantity, lent=found, chips=(chip,))
