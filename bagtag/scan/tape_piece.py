"""A piece of a tape line: what was understood in it, and the gaps that were not."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from bagtag.scan.tape_text import Found, Span, tidy

_SIGNS = ".,:!'\"()[]*/&+=-–—\x01"


@dataclass(slots=True)
class Piece:
    """`found` is in the order of the line; `number` counts the pieces from 0; `heard` is the
    working copy of the line, in which what is only words is hidden."""

    number: int
    span: Span
    line: str
    heard: str
    found: list[Found] = field(default_factory=list)

    @property
    def text(self) -> str:
        return self.line[self.span.start : self.span.end]

    def gaps(self) -> list[Span]:
        """The stretches with something in them that nobody understood."""
        whole = Span(self.span.start, self.span.end)
        if not self.found:
            return [whole]
        return [gap for gap in self._between() if self._has_word(gap)]

    def _has_word(self, gap: Span) -> bool:
        return bool("".join(self.line[gap.start : gap.end].split()).strip(_SIGNS))

    def _between(self) -> Iterator[Span]:
        at = self.span.start
        for found in self.found:
            yield Span(at, found.start)
            at = found.end
        yield Span(at, self.span.end)

    @property
    def is_open(self) -> bool:
        return bool(self.gaps())

    def to_note(self, start: int) -> str:
        """What the note keeps from `start` on: all of it, where a word was not understood."""
        unread = [gap.end for gap in self.gaps()] + [f.end for f in self.found if f.noted]
        if not any(end > start for end in unread):
            return ""
        return shown(self.line[start : self.span.end])


def cut(line: str, heard: str, spans: Sequence[Span], found: Sequence[Found]) -> list[Piece]:
    """The pieces of a line, each with what was found in it."""
    in_order = sorted(found, key=lambda f: (f.start, f.end))
    return [
        Piece(number, span, line, heard, [f for f in in_order if span.holds(f)])
        for number, span in enumerate(spans)
    ]


@dataclass(frozen=True, slots=True)
class Chip:
    """What the field shows for a stretch of the line, `start` to `end`, and what it was taken for.

    A chip may lie inside the name's: the R of "shift fork R" is a hand, and stays in the name.
    """

    text: str
    kind: str
    start: int
    end: int


def chips_of(piece: Piece) -> list[Chip]:
    """A chip for all that was understood in a piece and for each gap; signs go with a neighbour."""
    gaps = {(gap.start, gap.end) for gap in piece.gaps()}
    stretches = [(f.start, f.end, f.kind) for f in piece.found]
    stretches += [(start, end, "note") for start, end in gaps]
    stretches.sort()
    edges = [piece.span.start, *(start for start, _, _ in stretches[1:]), piece.span.end]
    return [
        Chip(shown(piece.line[start:end]), kind, *trimmed(piece.line, edges[i], edges[i + 1]))
        for i, (start, end, kind) in enumerate(stretches)
    ]


def shown(text: str) -> str:
    return tidy(text) or text.strip()


def trimmed(line: str, start: int, end: int) -> tuple[int, int]:
    """The stretch without the spaces around it."""
    text = line[start:end]
    return end - len(text.lstrip()), start + len(text.rstrip())
