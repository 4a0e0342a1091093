"""From which side the clockings of a tape line are seen."""

from collections.abc import Sequence
from dataclasses import replace

from bagtag.domain.datum import Side
from bagtag.domain.which_way import Clocking
from bagtag.scan.tape_piece import Piece
from bagtag.scan.tape_text import Found


def viewed(pieces: Sequence[Piece]) -> list[object]:
    """The values of all that was found, each clocking with the side it is seen from: the one said
    after it in its own sentence, else one that follows no clocking and so is meant for all."""
    found = [f for piece in pieces for f in piece.found]
    if not any(isinstance(f.value, Clocking) for f in found):
        return [f.value for f in found]
    line = pieces[0].line
    near: Side | None = None
    for_all: Side | None = None
    values: list[object] = []
    for f, before in zip(reversed(found), [*reversed(found[:-1]), None], strict=True):
        if isinstance(f.value, Clocking):
            values.append(_seen(f.value, near))
        elif _is_view(f) and isinstance(f.value, Side):
            follows = before is not None and _in_one_sentence(line, before, f)
            near, for_all = (f.value, for_all) if follows else (None, f.value)
        else:
            values.append(f.value)
        if before is None or not _in_one_sentence(line, before, f):
            near = None
    return [_seen(v, for_all) if isinstance(v, Clocking) else v for v in reversed(values)]


def _seen(fact: Clocking, side: Side | None) -> Clocking:
    return fact if fact.seen_from or side is None else replace(fact, seen_from=side)


def _is_view(found: Found) -> bool:
    return found.kind == "clocking" and isinstance(found.value, Side)


def _in_one_sentence(line: str, clocking: Found, found: Found) -> bool:
    """Whether `found` follows a clocking without a full stop between them."""
    is_clocking = isinstance(clocking.value, Clocking)
    return is_clocking and ". " not in line[clocking.end : found.start]
