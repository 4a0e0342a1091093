"""Reading a tape line: the recognisers in their order, and which piece is the name.

What one piece says by the words of its datum is remembered, so that of a line being typed only the
piece that grows is read anew.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial

from bagtag.domain.kinds import Kinds, PartKind
from bagtag.domain.which_way import Clocking, Place
from bagtag.scan import (
    tape_alike,
    tape_asked,
    tape_extra,
    tape_fastener,
    tape_fate,
    tape_fit,
    tape_hazard,
    tape_name,
    tape_remark,
    tape_row,
    tape_size,
    tape_stow,
    tape_tight,
    tape_torque,
    tape_way,
)
from bagtag.scan.tape_asked import asked
from bagtag.scan.tape_piece import Piece, cut
from bagtag.scan.tape_sift import is_hardware, settled, with_hardware
from bagtag.scan.tape_size import Size
from bagtag.scan.tape_text import Found, Recogniser, Span, masked, pieces, see, working_copy
from bagtag.scan.tape_words import Words


@dataclass(frozen=True, slots=True)
class Known:
    """What a job knows: the words of its datum, its containers and areas by their folded names,
    and the kinds of parts."""

    words: Words
    labels: Mapping[str, str]
    areas: Mapping[str, int]
    kinds: Kinds


def read_pieces(
    line: str, known: Known, as_words: Sequence[tuple[int, int]] = ()
) -> tuple[list[Piece], Piece | None]:
    """The pieces of a line with what each says, and the piece that holds the name, if any does.

    The stretches of `as_words` say nothing: they are words of the name or the note.
    """
    text = working_copy(line)
    for start, end in as_words:
        text = masked(text, Span(max(start, 0), max(start, 0, min(end, len(text)))))
    spans = pieces(text)
    found = [f for span in spans for f in _seen(text[span.start : span.end], span.start, known)]
    parts = cut(line, text, spans, with_hardware(found))
    name_piece = _name_piece(parts, text, known)
    _explain_sizes(parts, name_piece, known.kinds)
    kept = settled([f for part in parts for f in part.found])
    settled_parts = cut(line, text, spans, kept)
    return settled_parts, settled_parts[name_piece.number] if name_piece else None


def _seen(text: str, at: int, known: Known) -> Iterator[Found]:
    """What a piece says, by its words and by the job's containers and areas."""
    rest, by_words = _by_words(text, known.words)
    by_job: list[Recogniser] = [
        partial(tape_stow.known_container, labels=known.labels),
        partial(tape_stow.area, areas=known.areas),
    ]
    rest, by_names = see(rest, by_job)
    for found in (*by_words, *by_names, *_sides(rest, known.words)):
        yield found.moved(at)


@lru_cache(maxsize=2048)
def _by_words(text: str, words: Words) -> tuple[str, tuple[Found, ...]]:
    """What a piece says by its words alone, and what is left; one that doubts or denies is read no
    further."""
    rest, sure = see(text, _BEFORE_DOUBT)
    if tape_fate.is_doubtful(rest):
        return masked(rest, Span(0, len(rest))), tuple(sure)
    rest, seen = see(rest, _recognisers(words))
    return rest, (*sure, *seen)


@lru_cache(maxsize=2048)
def _sides(rest: str, words: Words) -> tuple[Found, ...]:
    """A hand or a side that is left by itself."""
    return tuple(see(rest, [tape_row.hand, partial(tape_row.bare_side, words=words)])[1])


_BEFORE_DOUBT: Sequence[Recogniser] = (
    tape_extra.one_time,
    tape_fate.special_fate,
    tape_alike.without,
    tape_row.hand_by_position,
)


def _recognisers(words: Words) -> Iterable[Recogniser]:
    """In the order they read: the surest first, then what needs its piece or its end to itself."""
    yield tape_stow.container
    yield tape_way.any_match_mark
    yield partial(tape_row.counted_thing, words=words)
    yield partial(tape_row.place, words=words)
    yield tape_tight.drag
    yield tape_torque.torque
    yield tape_tight.angle
    yield tape_remark.left_hand_thread
    yield tape_fastener.metric
    yield tape_fastener.inch
    yield tape_remark.grade_here
    yield tape_remark.hand_of_a_thread
    yield tape_extra.adapter_here
    yield tape_tight.stretch
    yield tape_extra.one_time_here
    yield tape_fit.lubrication
    yield tape_fit.head
    yield tape_size.three
    yield tape_size.of_bearing
    yield tape_torque.drive
    yield tape_torque.bit
    yield tape_torque.threadlocker
    yield tape_row.seat
    yield partial(tape_way.at_hour, words=words)
    yield tape_stow.count
    yield tape_fate.fate
    yield tape_alike.same_way
    yield partial(tape_way.faces, words=words)
    yield tape_way.said_to_face
    yield tape_row.plain_seat
    yield tape_way.match_mark
    yield partial(tape_way.seen_from, words=words)
    yield partial(tape_way.turned_to, words=words)
    yield partial(tape_way.faces_part, words=words)
    yield tape_fastener.counted
    yield tape_fit.washers
    yield tape_torque.locker_colour
    yield tape_remark.grade
    yield tape_remark.locking
    yield tape_remark.remark
    yield tape_fate.bare_fate
    yield tape_stow.goes_on
    yield tape_hazard.hazard
    yield tape_fate.condition


# --- the name, and what depends on it


def _name_piece(parts: Sequence[Piece], text: str, known: Known) -> Piece | None:
    """The first open piece that no whole-piece reading explains; the readings of the rest stand.

    Where all have such a reading, an area or a fastener is the name before them.
    """
    opened = [part for part in parts if part.is_open]
    held = any(is_hardware(found) for part in parts for found in part.found)
    loosely = {part.number: _loosely(part, text, known.words, held=held) for part in opened}
    plain = next((part for part in opened if not loosely[part.number]), None)
    name_piece = plain or (None if tape_name.lent(parts).text else next(iter(opened), None))
    for part in opened:
        if part is not name_piece:
            part.found = (
                loosely[part.number] or _beside_name(part, text, known) or _with_kind(part, text)
            )
    return name_piece


def _loosely(part: Piece, text: str, words: Words, *, held: bool) -> list[Found]:
    """Readings too free for a name: only where another piece can be the name. `held`: the line
    names a fastener."""
    if not all(_lacks_its_feature(found) for found in part.found):
        return []
    at = part.span.start
    seen = _freely(text[at : part.span.end], words)
    return [f.moved(at) for f in seen if held or not f.needs_hardware]


def _beside_name(part: Piece, text: str, known: Known) -> list[Found]:
    """`valve 2 of 4`, `drain in the lower hole`: where another piece is the part."""
    if not all(isinstance(found.value, Place) for found in part.found):
        return []
    at, questions = part.span.start, asked(known.kinds)
    said = tape_asked.read_asked(text[at : part.span.end], known.words, questions)
    return [found.moved(at) for found in said]


def _with_kind(part: Piece, text: str) -> list[Found]:
    ends = [part.span.start, *(found.end for found in part.found)]
    return [
        tape_fastener.with_kind(found, text[end : found.start])
        for end, found in zip(ends, part.found, strict=False)
    ]


@lru_cache(maxsize=2048)
def _freely(said: str, words: Words) -> tuple[Found, ...]:
    found = tuple(tape_fate.to_decide(said))
    if found or tape_fate.is_doubtful(said):
        return found
    readings: tuple[Callable[[], Iterator[Found]], ...] = (
        partial(tape_way.anything_faces, said, words),
        partial(tape_way.anything_at_hour, said, words),
        partial(tape_size.alone, said),
        partial(tape_fit.washers_alone, said),
        partial(tape_extra.adapter, said),
        partial(tape_extra.tool, said),
        partial(tape_extra.one_time_bolts, said),
        partial(tape_hazard.bare_hazard, said),
        partial(tape_fate.said_condition, said),
    )
    return next((seen for seen in (tuple(read()) for read in readings) if seen), ())


def _lacks_its_feature(found: Found) -> bool:
    return isinstance(found.value, Clocking) and not found.value.feature


def _explain_sizes(parts: Sequence[Piece], name_piece: Piece | None, kinds: Kinds) -> None:
    """Keep the sizes that stand by themselves or that the part's kind explains."""
    name = tape_name.in_piece(name_piece, counted=True) if name_piece else tape_name.lent(parts)
    own = _size_in(name_piece, name.start) if name_piece else None
    words = _without(name.text, own, name.start)
    kind = kinds.of(words)
    for part in parts:
        part.found = [f for f in part.found if _stands(f, kind)]
    if name_piece and own and _stands(own, kind):
        name_piece.found = sorted([*name_piece.found, own], key=lambda f: f.start)


def _size_in(piece: Piece, start: int) -> Found | None:
    end = piece.gaps()[0].end
    found = tape_size.in_name(piece.heard[start:end])
    return found.moved(start) if found else None


def _without(name: str, size: Found | None, start: int) -> str:
    return name if size is None else f"{name[: size.start - start]} {name[size.end - start :]}"


def _stands(found: Found, kind: PartKind | None) -> bool:
    return not isinstance(found.value, Size) or found.value.fits(kind)
