"""Reading a tape line: the recognisers in their order, and which piece is the name."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial

from bagtag.domain.which_way import Clocking
from bagtag.scan import tape_fastener, tape_fate, tape_row, tape_stow, tape_torque, tape_way
from bagtag.scan.tape_piece import Piece, cut
from bagtag.scan.tape_sift import settled, with_hardware
from bagtag.scan.tape_text import Found, Recogniser, Span, masked, pieces, see, working_copy
from bagtag.scan.tape_words import Words


def read_pieces(
    line: str, words: Words, labels: Mapping[str, str], areas: Mapping[str, int]
) -> tuple[list[Piece], Piece | None]:
    """The pieces of a line with what each says, and the piece that holds the name, if any does.

    `labels` and `areas` are the job's containers and areas by their folded names.
    """
    text = working_copy(line)
    spans = pieces(text)
    parts = cut(line, spans, with_hardware(_seen(text, spans, words, labels, areas)))
    name_piece = _name_piece(parts, text, words)
    found = settled([f for part in parts for f in part.found])
    settled_parts = cut(line, spans, found)
    return settled_parts, settled_parts[name_piece.number] if name_piece else None


def _seen(
    text: str,
    spans: Sequence[Span],
    words: Words,
    labels: Mapping[str, str],
    areas: Mapping[str, int],
) -> list[Found]:
    """What the recognisers see; a piece that doubts or denies is hidden from most of them."""
    text, sure = see(text, [tape_fate.special_fate])
    for span in spans:
        if tape_fate.is_doubtful(text[span.start : span.end]):
            text = masked(text, span)
    _, seen = see(text, _recognisers(words, labels, areas))
    return sure + seen


def _recognisers(
    words: Words, labels: Mapping[str, str], areas: Mapping[str, int]
) -> Iterable[Recogniser]:
    """In the order they read: the surest first, then what needs its piece or its end to itself."""
    yield tape_stow.container
    yield partial(tape_row.place, words=words)
    yield tape_row.counted_thing
    yield tape_torque.torque
    yield tape_torque.left_hand_thread
    yield tape_fastener.metric
    yield tape_fastener.inch
    yield tape_torque.drive
    yield tape_torque.bit
    yield tape_torque.threadlocker
    yield tape_row.seat
    yield partial(tape_way.at_hour, words=words)
    yield tape_stow.count
    yield tape_fate.fate
    yield partial(tape_way.faces, words=words)
    yield tape_row.plain_seat
    yield tape_way.match_mark
    yield partial(tape_way.seen_from, words=words)
    yield partial(tape_way.turned_to, words=words)
    yield partial(tape_way.faces_part, words=words)
    yield tape_fastener.counted
    yield tape_torque.locker_colour
    yield tape_torque.remark
    yield tape_fate.bare_fate
    yield tape_stow.goes_on
    yield tape_fate.condition
    yield partial(tape_stow.known_container, labels=labels)
    yield partial(tape_stow.area, areas=areas)
    yield tape_row.hand
    yield partial(tape_row.bare_side, words=words)


def _name_piece(parts: Sequence[Piece], text: str, words: Words) -> Piece | None:
    """The first open piece that no whole-piece reading explains; the readings of the rest stand."""
    opened = [part for part in parts if part.is_open]
    loosely = {part.number: _loosely(part, text, words) for part in opened}
    plain = (part for part in opened if not loosely[part.number])
    name_piece = next(plain, opened[0] if opened else None)
    for part in opened:
        if part is not name_piece and loosely[part.number]:
            part.found = loosely[part.number]
    return name_piece


def _loosely(part: Piece, text: str, words: Words) -> list[Found]:
    """Readings too free for a name: only where another piece can be the name."""
    if not all(_lacks_its_feature(found) for found in part.found):
        return []
    said = text[part.span.start : part.span.end]
    found = list(tape_fate.to_decide(said))
    if not found and not tape_fate.is_doubtful(said):
        free = (
            tape_way.anything_faces(said, words),
            tape_way.anything_at_hour(said, words),
            tape_fate.said_condition(said),
        )
        found = next((seen for seen in map(list, free) if seen), [])
    at = part.span.start
    return [replace(f, start=f.start + at, end=f.end + at) for f in found]


def _lacks_its_feature(found: Found) -> bool:
    return isinstance(found.value, Clocking) and not found.value.feature
